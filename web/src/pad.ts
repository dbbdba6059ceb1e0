// The keys under a figure: large enough for a gloved thumb. They write into the field, which can be typed into as well.

export function handlePad(): void {
  begin();
  document.addEventListener("grounds:main", begin);
  document.addEventListener("click", (event) => {
    const target = event.target instanceof Element ? event.target : null;
    const key = target?.closest<HTMLElement>("[data-pad] [data-key], [data-pad] [data-fraction]");
    if (key) press(key);
    if (target?.closest("[data-print]")) window.print();
  });
  // The focus stays where it is, so that a key of the pad is no detour for whoever types.
  document.addEventListener("pointerdown", (event) => {
    if (event.target instanceof Element && event.target.closest("[data-pad]")) event.preventDefault();
  });
}

function begin(): void {
  for (const hidden of document.querySelectorAll<HTMLElement>("[data-pad], [data-print]")) hidden.hidden = false;
  const figure = field();
  // On a touch screen the keys of the page take the place of the keyboard, which would cover them.
  if (figure && matchMedia("(pointer: coarse)").matches) figure.inputMode = "none";
}

function field(): HTMLInputElement | null {
  return document.querySelector<HTMLInputElement>("[data-pad-figure]");
}

function press(key: HTMLElement): void {
  const figure = field();
  if (!figure) return;
  const { key: word, fraction } = key.dataset;
  if (fraction !== undefined) figure.value = withFraction(figure.value, fraction);
  else if (word === "back") figure.value = rubbedOut(figure.value);
  else if (word) figure.value = withKey(figure.value, word);
  figure.removeAttribute("aria-invalid");
  figure.dispatchEvent(new Event("input", { bubbles: true }));
}

const ending = /\s*\d+\/\d+"?$|"$/;

/** The whole part of a figure, without inches' mark and fraction. */
function whole(text: string): string {
  return text.replace(ending, "").trimEnd();
}

function withFraction(text: string, fraction: string): string {
  const before = whole(text);
  if (fraction === "") return before;
  return before === "" ? `${fraction}"` : `${before} ${fraction}"`;
}

function withKey(text: string, key: string): string {
  if (key === "." && text.includes(".")) return text;
  if (key.startsWith("'") && (text.includes("'") || text.trim() === "")) return text;
  const part = ending.exec(text)?.[0];
  // Digits go before a fraction that stands already.
  return part ? `${whole(text)}${key}${part}` : text + key;
}

function rubbedOut(text: string): string {
  return ending.test(text) ? whole(text) : text.trimEnd().slice(0, -1);
}
