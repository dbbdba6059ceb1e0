// A walk's page: a file is read into the field for talk, single keys go from one thing that was said to the next and
// answer it, and after an answer the next one that waits is in focus.

import { typing } from "./keys";
import { recall } from "./store";
import { say } from "./say";

/** As much as the server takes. */
const LARGEST = 5 * 1024 * 1024;

/** The place of the entry that was just answered, among all of them. */
let answered: number | undefined;

export function handleTalk(): void {
  begin();
  document.addEventListener("grounds:main", () => {
    begin();
    // After whoever swaps the page has put the focus where it was.
    setTimeout(goOn, 0);
  });
  document.addEventListener("change", (event) => {
    const input = event.target;
    if (input instanceof HTMLInputElement && input.type === "file") void readInto(input);
  });
  document.addEventListener("submit", (event) => {
    const entry = event.target instanceof Element ? event.target.closest<HTMLElement>("[data-entry]") : null;
    answered = entry ? entries().indexOf(entry) : undefined;
  });
  document.addEventListener("keydown", (event) => {
    if (recall("keys") === "off" || event.metaKey || event.ctrlKey || event.altKey || typing(event.target)) return;
    if (press(event.key)) event.preventDefault();
  });
}

function begin(): void {
  for (const field of document.querySelectorAll<HTMLElement>("[data-file-into]")) field.hidden = false;
  const hint = document.querySelector<HTMLElement>("[data-keys-hint]");
  if (hint) hint.hidden = recall("keys") === "off" || !matchMedia("(pointer: fine)").matches;
}

/** Shows a file's text where it would have been pasted; the server only ever sees that field. */
async function readInto(input: HTMLInputElement): Promise<void> {
  const file = input.files?.[0];
  const field = input.closest<HTMLElement>("[data-file-into]")?.dataset["fileInto"];
  const area = field ? document.getElementById(field) : null;
  if (!file || !(area instanceof HTMLTextAreaElement)) return;
  if (file.size > LARGEST) {
    input.setCustomValidity("That is more than 5 MB of talk; split it by hour.");
    input.reportValidity();
    return;
  }
  input.setCustomValidity("");
  area.value = await file.text();
  area.removeAttribute("aria-invalid");
  const name = document.querySelector<HTMLInputElement>("input[name=name]");
  if (name && name.value === "") name.value = file.name.replace(/\.[a-z]+$/i, "").slice(0, 80);
  say(`${file.name} is read.`);
}

function entries(): HTMLElement[] {
  return [...document.querySelectorAll<HTMLElement>("[data-entry]")];
}

function press(key: string): boolean {
  const all = entries();
  if (all.length === 0) return false;
  const here = document.activeElement?.closest<HTMLElement>("[data-entry]");
  const at = here ? all.indexOf(here) : -1;
  if (key === "j" || key === "k") {
    const next = key === "j" ? at + 1 : Math.max(at, 1) - 1;
    return show(all[next]);
  }
  if (!here) return false;
  const button = (value: string): HTMLElement | null => here.querySelector(`button[value=${value}]`);
  const pressed =
    key === "a" ? button("accept") : key === "r" ? button("refuse") : key === "m" ? here.querySelector<HTMLElement>("[data-mend]") : null;
  pressed?.click();
  return !!pressed;
}

function show(entry: HTMLElement | undefined): boolean {
  if (!entry) return false;
  entry.focus({ preventScroll: true });
  entry.scrollIntoView({ block: "nearest" });
  return true;
}

/** To the next that waits, and what the answer did is said aloud. */
function goOn(): void {
  if (answered === undefined) return;
  const all = entries();
  const from = answered;
  answered = undefined;
  const next = all.find((entry, at) => at >= from && entry.hasAttribute("data-waits")) ?? all[from];
  show(next);
  const moved = document.querySelector<HTMLElement>("[data-moved]")?.dataset["moved"];
  if (moved) say(moved);
}
