// Opens a drawing's links in the panel beside it (below it on the phone): fetches the page behind the link and shows
// its `data-panel` article. A link that is opened in a new tab, or a page without such an article, is left alone.

let openedFrom: string | null = null;

/** The address of the open panel, while there is one. */
export function panelOpener(): string | null {
  return openedFrom;
}

function panel(): HTMLElement | null {
  return document.querySelector("#panel");
}

export function handlePanel(): void {
  document.addEventListener("click", (event) => {
    const link = event.target instanceof Element ? event.target.closest("[data-weeks] a, a[data-panel-link]") : null;
    if (!link || !panel() || event.defaultPrevented) return;
    if (event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
    event.preventDefault();
    void open(link);
  });
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && openedFrom !== null && !document.querySelector("dialog[open]")) close();
  });
  document.addEventListener("grounds:main", () => (openedFrom = null));
}

async function open(link: Element): Promise<void> {
  const href = link.getAttribute("href");
  const place = panel();
  if (!href || !place) return;
  place.setAttribute("aria-busy", "true");
  try {
    const answer = await fetch(href, { headers: { Accept: "text/html" } });
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const article = page.querySelector("[data-panel]");
    if (!answer.ok || !article) throw new Error("no article");
    show(place, article, href);
  } catch {
    location.href = href;
  } finally {
    place.removeAttribute("aria-busy");
  }
}

function show(place: HTMLElement, article: Element, href: string): void {
  const shut = document.createElement("button");
  shut.type = "button";
  shut.className = "quiet";
  shut.textContent = "Close";
  shut.addEventListener("click", close);
  const line = document.createElement("p");
  line.className = "panel-close";
  line.append(shut);
  place.replaceChildren(line, article);
  place.hidden = false;
  place.scrollTop = 0;
  openedFrom = href;
  mark(href);
  const name = article.querySelector<HTMLElement>(".panel-name, h1, h2") ?? shut;
  name.tabIndex = -1;
  name.focus({ preventScroll: true });
}

function mark(href: string | null): Element | null {
  document.querySelectorAll("[data-weeks] a[aria-current]").forEach((link) => link.removeAttribute("aria-current"));
  const link = href === null ? null : document.querySelector(`[data-weeks] a[href="${CSS.escape(href)}"]`);
  link?.setAttribute("aria-current", "true");
  return link;
}

function close(): void {
  const place = panel();
  if (!place) return;
  const link = mark(openedFrom);
  openedFrom = null;
  place.hidden = true;
  place.replaceChildren();
  link?.removeAttribute("aria-current");
  if (link instanceof SVGElement || link instanceof HTMLElement) link.focus({ preventScroll: true });
}
