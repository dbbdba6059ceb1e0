// What happens when: the page opens, something is noted, the signal comes back.

import { say } from "../say";
import { recall, remember } from "../store";
import { type Told, ask } from "./known";
import { askName } from "./name";
import { channel, send, type Went } from "./send";
import { type Desk, type Said, show } from "./show";
import { drop, keep, noted, type Photo, photosHere, type Queued } from "./store";
import { newId } from "./uuid";

const SYNC = "grounds-send";
const [FIRST_WAIT, LONGEST_WAIT] = [4_000, 300_000];

export async function begin(root: HTMLElement): Promise<void> {
  const job = root.dataset["walk"] ?? "";
  const state = { job, queued: [] as Queued[], photos: [] as Omit<Photo, "bytes">[], went: "sent" as Went, sending: false, fault: "" };
  let told: Told | undefined;
  let wait = FIRST_WAIT;
  let timer: ReturnType<typeof setTimeout> | undefined;

  const desk: Desk = { root, state, write, undo, drop: async (ids) => (await drop(ids), await changed()), sendNow: () => void sendAll() };
  const paint = (): void => {
    if (told) show(desk, told);
  };

  /** What is in the phone's database may have changed here, in another tab or by the worker. */
  async function changed(): Promise<void> {
    [state.queued, state.photos] = await Promise.all([noted(), photosHere()]);
    [state.queued, state.photos] = [state.queued.filter((one) => one.job === job), state.photos.filter((one) => one.job === job)];
    paint();
  }

  async function learn(): Promise<void> {
    try {
      told = await ask(job);
      paint();
    } catch {
      // Not known anew: the page goes on with what it has.
    }
  }

  async function write(said: Said, photos: Photo[] = []): Promise<boolean> {
    const by = await writer();
    if (!by || !told) return false;
    const at = Date.now() + told.ahead;
    const { name, ...rest } = said;
    const keys = [...(said.photos ?? []), ...photos.map(({ key }) => key)];
    const note = { id: newId(at), at: new Date(at).toISOString(), by, ...rest, ...(keys.length ? { photos: keys } : {}) };
    try {
      await keep({ id: note.id, job, note, name, made: Date.now(), state: "waits" }, photos);
      state.fault = "";
    } catch (error) {
      state.fault = notKept(error);
      say(state.fault);
      paint();
      return false;
    }
    channel.postMessage("changed");
    await changed();
    void navigator.storage?.persist?.();
    void sync();
    wait = FIRST_WAIT;
    soon(150);
    return true;
  }

  async function undo(queued: Queued): Promise<void> {
    const { id, note, name } = queued;
    if (await write({ about: note.about, name, kind: "remark", words: "Taken back.", replaces: id })) say(`${name}: taken back.`);
  }

  async function writer(): Promise<string | undefined> {
    const known = root.dataset["who"] ?? told?.known.who ?? recall("who");
    if (known) return known;
    const name = await askName();
    if (!name) return undefined;
    remember("who", name);
    // The other pages of this phone write under it too, as soon as the server hears of it.
    fetch(`/j/${encodeURIComponent(job)}/who`, { method: "POST", body: new URLSearchParams({ name }), redirect: "manual" }).catch(() => undefined);
    return name;
  }

  function soon(after: number): void {
    clearTimeout(timer);
    timer = setTimeout(() => void sendAll(), after);
  }

  async function sendAll(): Promise<void> {
    clearTimeout(timer);
    if (state.sending) return soon(500);
    if (!waiting()) return;
    state.sending = true;
    paint();
    try {
      state.went = await send(() => void changed());
    } finally {
      state.sending = false;
    }
    await changed();
    if (waiting()) {
      soon(wait);
      wait = Math.min(wait * 2, LONGEST_WAIT);
    } else {
      wait = FIRST_WAIT;
      await learn();
    }
  }

  const waiting = (): boolean => [...state.queued, ...state.photos].some((one) => one.state === "waits");
  const again = (): void => {
    wait = FIRST_WAIT;
    void changed().then(() => (waiting() ? sendAll() : learn()));
  };

  channel.addEventListener("message", () => void changed());
  addEventListener("online", again);
  addEventListener("offline", paint);
  addEventListener("hashchange", () => {
    paint();
    scrollTo(0, 0);
    const name = root.querySelector<HTMLElement>("h1");
    if (name) [name.tabIndex] = [-1];
    name?.focus({ preventScroll: true });
  });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") again();
  });

  await changed().catch(() => undefined);
  await learn();
  void sendAll();
}

async function sync(): Promise<void> {
  try {
    const ready = (await navigator.serviceWorker.ready) as ServiceWorkerRegistration & { sync?: { register(tag: string): Promise<void> } };
    await ready.sync?.register(SYNC);
  } catch {
    // Without it the page sends by itself while it is open.
  }
}

function notKept(error: unknown): string {
  const full = error instanceof DOMException && error.name === "QuotaExceededError";
  return full
    ? "Not kept: this phone has no room left. Send what waits, or free some room, and note it again."
    : `Not kept: this browser would not keep it (${error instanceof Error ? error.message : "no reason given"}). Note it again.`;
}
