// What one tap cannot say: how far, a reading, a day, words, photos. A sheet from below, under the thumb.

import { el } from "./el";
import { type Known, type Reading, type Told, type Tap, taps } from "./known";
import { shrunk, thumb } from "./photo";
import type { Desk, Shown } from "./show";
import type { Note, Photo, Value } from "./store";

const FRACTIONS = ["1/16", "1/8", "3/16", "1/4", "5/16", "3/8", "7/16", "1/2", "9/16", "5/8", "11/16", "3/4", "13/16", "7/8", "15/16"];

export function openSheet(desk: Desk, told: Told, shown: Shown, before?: Note, after?: () => Promise<void>): void {
  if (document.querySelector("dialog[open]")) return;
  const { known } = told;
  const photos: Photo[] = [];
  const kinds = offered(known, shown);
  const first = before?.kind ?? (shown.sort === "place" ? "remark" : (kinds[0]?.[0] ?? "remark"));
  const words = el("textarea", { id: "sheet-words", name: "words", rows: 2, maxlength: 2000 });
  words.value = before?.words ?? "";
  const fault = el("p", { class: "fault", role: "alert" });
  const figures = el("div");
  const form = el(
    "form",
    { class: "form", method: "dialog" },
    el("fieldset", { class: "field" }, el("legend", { class: "said" }, "What is to be noted"), el("div", { class: "sheet-kinds" }, ...kinds.map(([kind, word]) => el("label", {}, el("input", { type: "radio", name: "kind", value: kind, checked: kind === first }), word)))),
    figures,
    el("div", { class: "field" }, el("label", { for: "sheet-words" }, "Words (the microphone on your keyboard takes them down)"), words),
    cameras(shown, photos, desk.state.job, fault),
    fault,
    el("p", { class: "form-do sheet-do" }, el("button", { class: "do" }, "Write it down"), el("button", { type: "button", class: "can", click: () => dialog.close() }, "Close")),
  );
  const dialog = el("dialog", { class: "sheet", "aria-labelledby": "sheet-name" }, el("h2", { id: "sheet-name" }, shown.name), shown.place !== "" && el("p", { class: "soft" }, shown.place), form);
  const kind = (): string => new FormData(form).get("kind")?.toString() ?? "remark";
  const draw = (): void => figures.replaceChildren(...fields(known, shown, kind(), before));
  form.addEventListener("change", (event) => {
    const { name } = event.target as HTMLInputElement;
    if (name === "reading") drawPad(figures, known, shown);
    if (name !== "kind") return;
    draw();
    // The keys come under the thumb.
    if (figures.hasChildNodes()) figures.scrollIntoView({ block: "start" });
  });
  draw();
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void (async () => {
      const said = note(known, shown, form, photos.length + (before?.photos?.length ?? 0));
      if (typeof said === "string") return void (fault.textContent = said);
      const full = { about: shown.about, name: shown.place ? `${shown.name}, ${shown.place}` : shown.name, ...said, ...(before?.photos ? { photos: before.photos } : {}) };
      if (!(await desk.write(full, photos))) return void (fault.textContent = desk.state.fault);
      await after?.();
      dialog.close();
    })();
  });
  dialog.addEventListener("close", () => dialog.remove());
  document.body.append(dialog);
  dialog.showModal();
}

/** What can be said, each kind once, the taps first. */
function offered(known: Known, { sort, how }: Shown): Tap[] {
  const met = new Set<string>();
  return [...taps(known, sort, how.is), ...known.says[sort].more].filter(([kind]) => !met.has(kind) && met.add(kind));
}

function fields(known: Known, shown: Shown, kind: string, before?: Note): Node[] {
  if (kind === "progress") {
    const choice = (share: number): Node => el("label", {}, el("input", { type: "radio", name: "share", value: share }), `${share} %`);
    return [el("fieldset", { class: "field" }, el("legend", {}, "How far has it got?"), el("div", { class: "sheet-kinds shares-of" }, ...[10, 25, 50, 75, 90].map(choice)))];
  }
  if (kind === "ordered" || kind === "promised") {
    const label = kind === "promised" ? "Which day was given?" : "For which day, if you know";
    const field = el("input", { id: "sheet-when", type: "date", name: "when", required: kind === "promised" });
    if (before?.value && "when" in before.value) field.value = before.value.when.slice(0, 10);
    return [el("div", { class: "field" }, el("label", { for: "sheet-when" }, label), field)];
  }
  if (kind !== "measured") return [];
  const box = el("div");
  const options = [...known.says[shown.sort].reads.map(([what, asked]) => el("option", { value: `r:${what}` }, asked)), el("option", { value: "other" }, "Something else")];
  const select = el("select", { id: "sheet-reading", name: "reading" }, ...options);
  box.append(el("div", { class: "field" }, el("label", { for: "sheet-reading" }, "What was read?"), select), el("div", { class: "sheet-pad" }));
  drawPad(box, known, shown);
  return [box];
}

function chosen(box: ParentNode, known: Known, { sort }: Shown): Reading | undefined {
  const value = box.querySelector<HTMLSelectElement>("[name=reading]")?.value ?? "other";
  return known.says[sort].reads.find(([what]) => `r:${what}` === value);
}

/** The keys of a reading, as on the pages of fit. */
function drawPad(box: ParentNode, known: Known, shown: Shown): void {
  const place = box.querySelector(".sheet-pad");
  if (!place) return;
  const reading = chosen(box, known, shown);
  if (!reading) {
    place.replaceChildren(
      el("div", { class: "field" }, el("label", { for: "sheet-what" }, "What"), el("input", { id: "sheet-what", name: "what", maxlength: 100, autocomplete: "off" })),
      el("div", { class: "field" }, el("label", { for: "sheet-figure" }, "Its figure, with the unit"), el("input", { id: "sheet-figure", name: "figure", maxlength: 40, autocomplete: "off" })),
    );
    return;
  }
  const inches = reading[2] === "length" && known.units === "imperial";
  const unit = inches ? "Feet, inches and fractions" : { length: "Millimetres", "%": "Percent", C: "Degrees Celsius", bar: "Bar" }[reading[2]];
  const key = (word: string, key = word): Node => el("button", { type: "button", class: "key", "data-key": key, "aria-label": key === "back" ? "Rub out" : undefined }, word);
  const fraction = (word: string): Node => el("button", { type: "button", class: "key", "data-fraction": word === "–" ? "" : word, "aria-label": word === "–" ? "No fraction" : undefined }, word);
  const mode = matchMedia("(pointer: coarse)").matches ? "none" : inches ? "text" : "decimal";
  place.replaceChildren(
    el("div", { class: "field" }, el("label", { for: "sheet-figure" }, unit ?? ""), el("input", { id: "sheet-figure", class: "pad-figure", name: "figure", inputmode: mode, autocomplete: "off", maxlength: 40, "data-pad-figure": true })),
    el(
      "div",
      { class: "pad", "data-pad": true, role: "group", "aria-label": "Keys" },
      el("div", { class: "pad-digits" }, ...["7", "8", "9", "4", "5", "6", "1", "2", "3"].map((word) => key(word)), inches ? key("ft", "' ") : key("."), key("0"), key("⌫", "back")),
      inches && el("div", { class: "pad-fractions", role: "group", "aria-label": "Fractions of an inch" }, ...[...FRACTIONS, "–"].map(fraction)),
    ),
  );
}

/** What the sheet says; a sentence where something is missing. */
function note(known: Known, shown: Shown, form: HTMLFormElement, photos: number): Pick<Note, "kind" | "value" | "words"> | string {
  const data = new FormData(form);
  const text = (name: string): string => (data.get(name)?.toString() ?? "").trim();
  const kind = text("kind");
  const words = text("words");
  if (kind === "remark" && !words && !photos) return "Say it in a few words, or take a photo.";
  const said = { kind, ...(words ? { words } : kind === "problem" ? { words: "Not right." } : {}) };
  if (kind === "progress") {
    const share = text("share");
    return share ? { ...said, value: { share: `${share} %` } } : "Say how far it has got.";
  }
  if (kind === "ordered" || kind === "promised") {
    const when = text("when");
    if (!when) return kind === "promised" ? "Say which day was given." : said;
    return { ...said, value: { when } };
  }
  if (kind !== "measured") return said;
  const value = reading(known, shown, form, text);
  return typeof value === "string" ? value : { ...said, value };
}

function reading(known: Known, shown: Shown, form: HTMLFormElement, text: (name: string) => string): Value | string {
  const figure = text("figure").replace(",", ".");
  if (!figure) return "Enter the figure that was read.";
  const what = chosen(form, known, shown);
  if (!what) return text("what") ? { reading: { what: text("what"), figure } } : "Say what was read.";
  const [name, , unit] = what;
  if (unit === "length" && known.units === "imperial") return name === "" ? { length: figure } : { reading: { what: name, figure } };
  if (!/^-?\d+(\.\d+)?$/.test(figure)) return "Enter the figure with digits, like 12 or 12.5.";
  if (shown.sort === "place") return unit === "C" ? { temperature: `${figure} C` } : { humidity: `${figure} %` };
  const full = `${figure} ${unit === "length" ? "mm" : unit}`;
  return name === "" ? { length: full } : { reading: { what: name, figure: full } };
}

/** Camera and gallery; what was taken is shrunk at once and shown small. */
function cameras(shown: Shown, photos: Photo[], job: string, fault: HTMLElement): Node {
  const strip = el("ul", { class: "sheet-photos", "aria-label": "Photos" });
  const take = async (input: HTMLInputElement): Promise<void> => {
    fault.textContent = "";
    for (const file of [...(input.files ?? [])]) {
      try {
        if (!crypto.subtle) throw new Error("Photos need a secure connection; open this page by its https address.");
        const photo = await shrunk(file, job);
        if (photos.some(({ id }) => id === photo.id)) continue;
        photos.push(photo);
        const item = el("li", {}, await thumb(photo.bytes), el("button", { type: "button", class: "quiet", click: () => (photos.splice(photos.indexOf(photo), 1), item.remove()) }, "Leave out"));
        strip.append(item);
      } catch (error) {
        fault.textContent = error instanceof Error ? error.message : "The picture could not be read.";
      }
    }
    input.value = "";
  };
  const input = (id: string, word: string, capture: boolean): Node[] => [
    el("input", { id, class: "said", type: "file", accept: "image/*", multiple: !capture, capture: capture && "environment", change: (event) => void take(event.target as HTMLInputElement) }),
    el("label", { for: id, class: "can" }, word, el("span", { class: "said" }, `: ${shown.name}`)),
  ];
  return el("div", { class: "sheet-cameras" }, ...input("sheet-camera", "Take a photo", true), ...input("sheet-gallery", "Choose photos", false), strip);
}
