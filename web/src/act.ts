// Forms marked `data-act` are posted without leaving the page: the answer's <main> takes the place of this page's, what
// was saved is said aloud, and focus stays with the row it was on. Without an answer nothing typed is lost.

import { panelOpener } from "./panel";
import { say } from "./say";

let hasGone = false;

export function handleActs(): void {
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (!(form instanceof HTMLFormElement) || !form.matches("[data-act]")) return;
    event.preventDefault();
    if (form.getAttribute("aria-busy") === "true") return;
    void post(form, event.submitter);
  });
  // What was left with `data-act="go"` is fetched again on the way back.
  addEventListener("popstate", () => {
    if (hasGone) location.reload();
  });
  document.addEventListener("change", (event) => {
    if (event.target instanceof HTMLSelectElement) event.target.closest<HTMLFormElement>("form[data-auto]")?.requestSubmit();
  });
}

async function post(form: HTMLFormElement, submitter: HTMLElement | null): Promise<void> {
  form.setAttribute("aria-busy", "true");
  placeOfNotice(form).querySelector("[data-no-answer]")?.remove();
  try {
    const fields = new FormData(form, submitter);
    const answer = await fetch(form.getAttribute("action") || location.href, {
      method: "POST",
      headers: { Accept: "text/html", "X-Grounds-Act": "1" },
      body: form.enctype === "multipart/form-data" ? fields : new URLSearchParams(textFields(fields)),
    });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const main = page.querySelector("main");
    if (!main) throw new Error(`answer ${answer.status} without a page`);
    const goes = form.dataset["act"] === "go" && answer.redirected;
    if (goes) goTo(answer.url);
    swap(main, page);
    if (goes) toTop(main);
  } catch {
    notSaved(form);
  } finally {
    form.removeAttribute("aria-busy");
  }
}

/** Puts the page as it is now in the place of this one, without a jump; the whole page where that fails. */
export async function showAnew(address: string): Promise<void> {
  try {
    const answer = await fetch(address, { headers: { Accept: "text/html" } });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const main = page.querySelector("main");
    if (!answer.ok || !main) throw new Error(`answer ${answer.status} without a page`);
    main.dataset["say"] = "The newest plan is shown.";
    swap(main, page);
    history.replaceState(history.state, "", address);
  } catch {
    location.href = address;
  }
}

function goTo(address: string): void {
  hasGone = true;
  history.pushState(null, "", address);
}

/** A form that leads to another page: its sentence is read first. */
function toTop(main: HTMLElement): void {
  scrollTo(0, 0);
  const name = main.querySelector<HTMLElement>("h1");
  if (!name) return;
  name.tabIndex = -1;
  name.focus({ preventScroll: true });
}

function textFields(fields: FormData): [string, string][] {
  return [...fields].flatMap(([name, value]) => (typeof value === "string" ? [[name, value] as [string, string]] : []));
}

function swap(main: HTMLElement, page: Document): void {
  const before = document.querySelector("main");
  if (!before) return;
  const back = focusPath();
  const scrolled = document.querySelector("[data-weeks]");
  const [left, top] = [scrolled?.scrollLeft ?? 0, scrolled?.scrollTop ?? 0];

  const saved = page.querySelector("#saved");
  const savedHere = document.querySelector("#saved");
  if (saved && savedHere) savedHere.replaceWith(saved);
  document.title = page.title || document.title;
  before.replaceWith(main);
  document.dispatchEvent(new CustomEvent("grounds:main"));

  document.querySelector("[data-weeks]")?.scrollTo(left, top);
  focusFirst(main, back);
  say(main.dataset["say"] ?? saved?.textContent ?? "Saved");
}

/** Where focus may return to, nearest first: the row itself, then the rows after it, then the page's sentence. */
function focusPath(): string[] {
  const opener = panelOpener();
  if (opener) return [`[data-weeks] a[href="${CSS.escape(opener)}"]`];
  const row = document.activeElement?.closest("[id]");
  const path: string[] = [];
  for (let next: Element | null = row ?? null; next; next = next.nextElementSibling) {
    if (next.id) path.push(`#${CSS.escape(next.id)}`);
  }
  return path;
}

function focusFirst(main: HTMLElement, path: string[]): void {
  const found = path.map((where) => main.querySelector<HTMLElement>(where)).find((there) => there !== null);
  const pressable = found?.matches("a, button, input")
    ? found
    : found?.querySelector<HTMLElement>("[aria-invalid=true], .row-do button, a, button");
  const target = main.querySelector<HTMLElement>("[aria-invalid=true]") ?? pressable ?? main.querySelector<HTMLElement>("h1");
  if (target?.matches("h1")) target.tabIndex = -1;
  target?.focus({ preventScroll: !!pressable });
}

/** A row's button has no room for a sentence: there the notice takes a line of the row. */
function placeOfNotice(form: HTMLFormElement): Element {
  return (form.matches(".row-do") && form.closest(".row")) || form;
}

function notSaved(form: HTMLFormElement): void {
  const words = "Not saved: no answer from the server. Nothing you wrote is lost here; try again.";
  const line = document.createElement("p");
  line.className = "notice";
  line.dataset["noAnswer"] = "";
  line.textContent = words;
  placeOfNotice(form).append(line);
  const saved = document.querySelector("#saved");
  saved?.classList.add("not-yet");
  if (saved) saved.textContent = "Not saved";
  say(words);
}
