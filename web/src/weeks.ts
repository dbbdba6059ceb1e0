// The weeks drawing: opens with today in view; arrow keys go from bar to bar, so that a thousand bars are one stop of
// the Tab key. Left and right stay in a place, up and down go to the nearest bar of the next place that has one.

type Bar = SVGAElement;

export function handleWeeks(): void {
  start();
  document.addEventListener("focusin", caption);
  document.addEventListener("mouseover", caption);
  document.addEventListener("grounds:main", start);
  document.addEventListener("keydown", (event) => {
    const bar = event.target instanceof Element ? event.target.closest<Bar>("[data-weeks] [data-row] a") : null;
    if (!bar || event.metaKey || event.ctrlKey || event.altKey) return;
    const next = step(bar, event.key);
    if (!next) return;
    event.preventDefault();
    bar.tabIndex = -1;
    next.tabIndex = 0;
    next.focus({ preventScroll: true });
    reveal(next);
  });
}

/** Brings today into view, a fifth of the way across. */
export function showToday(): void {
  const weeks = document.querySelector<HTMLElement>("[data-weeks]");
  const today = Number(weeks?.querySelector("[data-today]")?.getAttribute("data-today") ?? NaN);
  if (!weeks || Number.isNaN(today)) return;
  weeks.scrollLeft = Math.max(0, today - 0.2 * (weeks.clientWidth - covered(weeks).left));
}

/** The line under the drawing says what the bar in focus or under the pointer is. */
function caption(event: Event): void {
  const bar = event.target instanceof Element ? event.target.closest("[data-weeks] [data-row] [aria-label]") : null;
  const line = document.querySelector("[data-weeks-caption]");
  if (bar && line && !bar.matches("[data-row]")) line.textContent = bar.getAttribute("aria-label");
}

function start(): void {
  const bars = document.querySelectorAll<Bar>("[data-weeks] [data-row] a");
  if (bars.length === 0) return;
  bars.forEach((bar) => (bar.tabIndex = -1));
  const first = document.querySelector<Bar>("[data-weeks] [data-row] :is(a.in-hand, a.next)") ?? bars[0];
  if (first) first.tabIndex = 0;
  showToday();
}

function step(bar: Bar, key: string): Bar | undefined {
  const row = bar.closest("[data-row]");
  if (!row) return undefined;
  const bars = barsOf(row);
  const at = bars.indexOf(bar);
  switch (key) {
    case "ArrowLeft":
      return bars[at - 1];
    case "ArrowRight":
      return bars[at + 1];
    case "Home":
      return bars[0];
    case "End":
      return bars.at(-1);
    case "ArrowUp":
      return nearest(bar, row, (from) => from.previousElementSibling);
    case "ArrowDown":
      return nearest(bar, row, (from) => from.nextElementSibling);
    default:
      return undefined;
  }
}

function barsOf(row: Element): Bar[] {
  return [...row.querySelectorAll<Bar>("a")];
}

function nearest(bar: Bar, row: Element, onward: (from: Element) => Element | null): Bar | undefined {
  const left = bar.getBoundingClientRect().left;
  for (let next = onward(row); next; next = onward(next)) {
    const bars = next.matches("[data-row]") ? barsOf(next) : [];
    const away = (other: Bar): number => Math.abs(other.getBoundingClientRect().left - left);
    if (bars.length > 0) return bars.reduce((best, other) => (away(other) < away(best) ? other : best));
  }
  return undefined;
}

/** What the standing names and dates cover of the scrolling part, in pixels. */
function covered(weeks: HTMLElement): { left: number; top: number } {
  return {
    left: weeks.querySelector<HTMLElement>(".weeks-names")?.offsetWidth ?? 0,
    top: weeks.querySelector<HTMLElement>(".weeks-dates")?.offsetHeight ?? 0,
  };
}

function reveal(bar: Bar): void {
  const weeks = bar.closest<HTMLElement>("[data-weeks]");
  if (!weeks) return;
  const [box, frame, over, air] = [bar.getBoundingClientRect(), weeks.getBoundingClientRect(), covered(weeks), 12];
  weeks.scrollLeft += inside(box.left, box.right, frame.left + over.left + air, frame.left + weeks.clientWidth - air);
  weeks.scrollTop += inside(box.top, box.bottom, frame.top + over.top + air, frame.top + weeks.clientHeight - air);
}

/** How far to move so that from..to lies in start..end; its beginning wins if it is too long. */
function inside(from: number, to: number, start: number, end: number): number {
  if (from < start) return from - start;
  return to > end ? Math.min(to - end, from - start) : 0;
}
