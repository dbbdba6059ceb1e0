// Elements from code: words are always words, never markup.

type Child = Node | string | false | null | undefined;
type Attributes = Record<string, string | boolean | number | undefined | ((event: Event) => void)>;

export function el<K extends keyof HTMLElementTagNameMap>(tag: K, attributes: Attributes = {}, ...children: Child[]): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  set(element, attributes);
  for (const child of children) if (child) element.append(child);
  return element;
}

export function svg(tag: string, attributes: Attributes = {}, ...children: Child[]): SVGElement {
  const element = document.createElementNS("http://www.w3.org/2000/svg", tag);
  set(element, attributes);
  for (const child of children) if (child) element.append(child);
  return element;
}

function set(element: Element, attributes: Attributes): void {
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === "function") element.addEventListener(name, value);
    else if (value === true) element.setAttribute(name, "");
    else if (value !== undefined && value !== false) element.setAttribute(name, String(value));
  }
}

/** `1 note`, `12 notes`. */
export function counted(many: number, one: string, more = `${one}s`): string {
  return `${many} ${many === 1 ? one : more}`;
}
