// Makes the pages open without a signal: the worker keeps the walk of the job that is looked at.

export function handleOffline(): void {
  if (!isSecureContext || !("serviceWorker" in navigator)) return;
  const job = /^\/j\/[^/]+\//.exec(location.pathname)?.[0];
  const begin = async (): Promise<void> => {
    try {
      await navigator.serviceWorker.register("/sw.js", { scope: "/" });
      const { active } = await navigator.serviceWorker.ready;
      if (job) active?.postMessage({ keep: job });
    } catch {
      // No worker (a private window, say): the pages go on with a signal.
    }
  };
  // After everything that is to be seen.
  const soon = (): void => void setTimeout(() => void begin(), 400);
  if (document.readyState === "complete") soon();
  else addEventListener("load", soon, { once: true });
}
