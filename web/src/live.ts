// The line about what goes on behind the plan. While something is being worked out it asks how far that has got, and
// offers to show what is new; nothing on the page moves until that is pressed.

import { showAnew } from "./act";

type Live = { edition: string; busy: boolean; line: string; chances?: string };

const pause = 1000;
/** After so many questions without an end it asks no more. */
const patience = 120;

let asked = 0;
let timer: ReturnType<typeof setTimeout> | undefined;

export function handleLive(): void {
  begin();
  document.addEventListener("grounds:main", begin);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") void ask();
  });
  document.addEventListener("click", (event) => {
    const link = event.target instanceof Element ? event.target.closest<HTMLAnchorElement>("a[data-live-show]") : null;
    if (!link || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
    event.preventDefault();
    void showAnew(link.href);
  });
}

function place(): HTMLElement | null {
  return document.querySelector<HTMLElement>("[data-live]");
}

function begin(): void {
  asked = 0;
  clearTimeout(timer);
  if (place()?.hasAttribute("data-busy")) timer = setTimeout(() => void ask(), pause);
}

async function ask(): Promise<void> {
  const here = place();
  if (!here || document.visibilityState === "hidden") return;
  clearTimeout(timer);
  asked += 1;
  try {
    const answer = await fetch(here.dataset["live"] ?? "", { headers: { Accept: "application/json" } });
    if (answer.ok) tell(here, (await answer.json()) as Live);
  } catch {
    // No answer: the page stays as it is.
  }
  if (place()?.hasAttribute("data-busy") && asked < patience) timer = setTimeout(() => void ask(), pause);
}

function tell(here: HTMLElement, live: Live): void {
  if (!here.isConnected) return;
  const line = here.querySelector(".live-line");
  if (line && line.textContent !== live.line) line.textContent = live.line;
  const chances = document.querySelector("[data-live-chances]");
  if (chances && live.chances && chances.textContent !== live.chances) chances.textContent = live.chances;
  here.toggleAttribute("data-busy", live.busy);
  const same = live.edition === here.dataset["edition"];
  const news = here.querySelector<HTMLElement>(".live-new");
  if (here.hasAttribute("data-live-at-once")) {
    // The page has nothing else to show, so that nothing moves under a thumb.
    if (!same) void showAnew(here.querySelector<HTMLAnchorElement>("a[data-live-show]")?.href ?? location.href);
  } else if (news) {
    news.hidden = same;
  }
}
