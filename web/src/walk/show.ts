// The views of the walk: all places, one place, what waits to be sent.

import { counted, el } from "./el";
import { byThing, now } from "./fold";
import { type Face, type How, type Known, type Place, type Sort, type Tap, type Told, taps, type Thing } from "./known";
import { stackMark } from "./mark";
import { queueLine, queueView } from "./queue";
import type { Went } from "./send";
import { openSheet } from "./sheet";
import type { Note, Photo, Queued } from "./store";

/** What is to be noted: the rest of the note is made where it is kept. */
export type Said = Omit<Note, "id" | "at" | "by"> & { name: string };

export type State = { job: string; queued: Queued[]; photos: Omit<Photo, "bytes">[]; went: Went; sending: boolean; fault: string };

export type Desk = {
  root: HTMLElement;
  state: State;
  write(said: Said, photos?: Photo[]): Promise<boolean>;
  undo(queued: Queued): Promise<void>;
  drop(ids: string[]): Promise<void>;
  sendNow(): void;
};

/** One thing as it is shown. */
export type Shown = { about: string; sort: Sort; name: string; place: string; how: How; wants?: string[] | undefined };

type View = { desk: Desk; told: Told; things: Map<string, Queued[]> };

/** What this page has just noted stays in its row, with the way back, for this long. */
const IN_SIGHT = 15 * 60 * 1000;

/** Two taps of a glove on one row within this time are one: under the second another button may lie already. */
const ONE_TAP = 600;
let tapped = { about: "", at: 0 };

export function show(desk: Desk, told: Told): void {
  const view = { desk, told, things: byThing(desk.state.queued) };
  const back = focused();
  const at = place(told.known);
  const inside = location.hash === "#queue" ? queueView(desk, told) : at < 0 ? list(view) : one(view, at);
  desk.root.replaceChildren(queueLine(desk, told), ...inside);
  if (back) desk.root.querySelector<HTMLElement>(back)?.focus({ preventScroll: true });
}

/** Where the focus is, so that it stays there when the page is drawn anew. */
function focused(): string | undefined {
  const here = document.activeElement;
  const row = here?.closest<HTMLElement>("[data-walk] [id]");
  const kind = here instanceof HTMLElement ? here.dataset["kind"] : undefined;
  if (!row) return undefined;
  const id = `#${CSS.escape(row.id)}`;
  return kind ? `${id} [data-kind="${kind}"], ${id} button` : `${id} button, ${id} a`;
}

/** Which place is asked for, by its number on the walk; none for all of them. */
function place({ places }: Known): number {
  const asked = location.hash.startsWith("#at-") ? location.hash.slice(4) : location.hash === "" ? new URLSearchParams(location.search).get("place") : null;
  return places.findIndex(({ key }) => key === asked);
}

function list({ told, desk, things }: View): Node[] {
  const { places, decisions } = told.known;
  const levels = new Map<string, Place[]>();
  for (const one of places) levels.set(one.level, [...(levels.get(one.level) ?? []), one]);
  const notedIn = (one: Place): number => subjects(one).filter((about) => (things.get(about) ?? []).some(({ made }) => Date.now() - made < IN_SIGHT * 48)).length;
  const row = (one: Place): Node => {
    const many = notedIn(one);
    return el("li", { class: "row" }, el("a", { class: "walk-to", href: `#at-${one.key}` }, el("b", {}, one.name), " ", el("span", { class: "row-why" }, upperFirst(one.next), many ? ` · ${counted(many, "thing")} noted` : "")));
  };
  return [
    el("header", { class: "opening" }, el("h1", {}, `${counted(places.length, "place")}, in the order you walk them.`)),
    ...[...levels].map(([level, all]) => el("section", { class: "part" }, el("h2", {}, level), el("ul", { class: "rows plain" }, ...all.map(row)))),
    ...part({ desk, told, things }, "Decisions to get", "", decisions),
  ];
}

function subjects(one: Place): string[] {
  return [one.key, ...one.faces.flatMap(({ about, layers }) => layers.map(({ id }) => `${about}/${id}`)), ...one.things.map(({ about }) => about)];
}

function one(view: View, at: number): Node[] {
  const { known, kept } = view.told;
  const here = known.places[at];
  if (!here) return [];
  const of = (sort: Sort): Thing[] => here.things.filter((thing) => thing.sort === sort);
  const about: Shown = { about: here.key, sort: "place", name: here.name, place: "", how: { say: "" } };
  const last = noted(view, about);
  return [
    el(
      "header",
      { class: "opening", id: `w-${here.key}` },
      el("p", { class: "place-line" }, `${here.level} · ${at + 1} of ${known.places.length}${kept ? ` · as of ${clock(view.told, Date.parse(known.now))}` : ""}`),
      el("h1", {}, here.name),
      el("p", { class: "lead soft" }, `${upperFirst(here.next)}.`),
      el("p", { class: "onward" }, el("button", { type: "button", class: "can", "data-kind": "more", click: () => openSheet(view.desk, view.told, about) }, "Photo, words or air")),
      last && el("p", { class: "walk-noted" }, ...last),
    ),
    ...here.faces.map((face) => stack(view, here, face)),
    ...part(view, "Tests and inspections", here.name, of("hold")),
    ...part(view, "Pieces", here.name, of("piece")),
    ...part(view, "Openings", here.name, of("opening")),
    route(known.places, at),
  ];
}

function route(places: Place[], at: number): Node {
  const link = (to: Place | undefined, rel: string): Node =>
    to ? el("a", { href: `#at-${to.key}`, rel }, rel === "prev" ? `‹ ${to.name}` : `${to.name} ›`) : el("span");
  return el("nav", { class: "route", "aria-label": "Places" }, link(places[at - 1], "prev"), el("a", { href: "#all" }, "All", el("span", { class: "said" }, " places")), link(places[at + 1], "next"));
}

function stack(view: View, here: Place, face: Face): Node {
  const layers = face.layers.map((layer) => {
    const about = `${face.about}/${layer.id}`;
    return { ...layer, about, ...far(view, about, "layer", layer) };
  });
  // What was finished a moment ago stays where the thumb is, with its way back.
  const isOn = (layer: (typeof layers)[number]): boolean => layer.is === "done" && !isFresh(view, layer.about);
  const rows = (all: typeof layers): Node[] => all.map((layer) => row(view, { about: layer.about, sort: "layer", name: layer.name, place: `${here.name}, ${face.name.toLowerCase()}`, how: layer }));
  const [on, open] = [layers.filter(isOn), layers.filter((layer) => !isOn(layer))];
  // What comes after the next two is a press further away.
  const first = open.findIndex(({ is }) => is !== "done");
  const isLater = (layer: (typeof layers)[number], index: number): boolean => first >= 0 && index >= first + 2 && (layer.is ?? "to-come") === "to-come" && !isFresh(view, layer.about);
  const [later, soon] = [open.filter(isLater), open.filter((layer, index) => !isLater(layer, index))];
  const done = layers.filter(({ is }) => is === "done").length;
  return el(
    "section",
    { class: "part" },
    el("h2", {}, face.name),
    el("div", { class: "walk-stack" }, stackMark(face.name, layers), el("p", { class: "soft" }, `${done} of ${layers.length} on`)),
    el("ul", { class: "walk-rows" }, ...rows(soon)),
    later.length > 0 && fold(`l-${face.about}`, `Later: ${counted(later.length, "layer")}`, face.name, el("ul", { class: "walk-rows" }, ...rows(later))),
    on.length > 0 && fold(`f-${face.about}`, `On: ${counted(on.length, "layer")}`, face.name, el("ul", { class: "walk-rows" }, ...rows(on))),
  );
}

const unfolded = new Set<string>();

/** A fold that stays as it is when the page is drawn anew. */
function fold(id: string, words: string, of: string, inside: Node): Node {
  const details = el("details", { class: "fold", open: unfolded.has(id) }, el("summary", {}, words, el("span", { class: "said" }, `, ${of}`)), inside);
  details.addEventListener("toggle", () => (details.open ? unfolded.add(id) : unfolded.delete(id)));
  return details;
}

function part(view: View, title: string, where: string, things: Thing[]): Node[] {
  if (things.length === 0) return [];
  const shown = things.map((thing): Shown => ({ ...thing, place: where, how: far(view, thing.about, thing.sort, thing) }));
  const isOver = ({ how, about }: Shown): boolean => how.is === "done" && !isFresh(view, about);
  const [over, open] = [shown.filter(isOver), shown.filter((one) => !isOver(one))];
  const rows = (all: Shown[]): Node => el("ul", { class: "walk-rows" }, ...all.map((one) => row(view, one)));
  return [
    el("section", { class: "part" }, el("h2", {}, title), open.length > 0 && rows(open), over.length > 0 && fold(`f-${title}`, `${over.length} over`, title, rows(over))),
  ];
}

function far({ told, things }: View, about: string, sort: Sort, how: How): How {
  return now(how, sort, things.get(about) ?? [], told.asked);
}

function isFresh({ things }: View, about: string): boolean {
  return (things.get(about) ?? []).some(({ made, state }) => state !== "sent" || Date.now() - made < IN_SIGHT);
}

function row(view: View, shown: Shown): Node {
  const { about, name, how, sort, place: where } = shown;
  const said = `: ${name}${where ? `, ${where}` : ""}`;
  const more = (): void => openSheet(view.desk, view.told, shown);
  const write = (kind: string): void => {
    if (tapped.about === about && Date.now() - tapped.at < ONE_TAP) return;
    tapped = { about, at: Date.now() };
    void view.desk.write({ about, name: where ? `${name}, ${where}` : name, kind, ...(kind === "problem" ? { words: "Not right." } : {}) });
  };
  const tap = ([kind, word]: Tap): Node => el("button", { type: "button", "data-kind": kind, click: () => write(kind) }, word, el("span", { class: "said" }, said));
  const last = noted(view, shown);
  const line = el(
    "li",
    { class: `walk-row ${how.is ?? "to-come"}`, id: `w-${about}` },
    el("p", { class: "walk-name" }, el("b", {}, name), " ", el("span", { class: "row-why" }, how.say)),
    how.trouble !== undefined && el("p", { class: "walk-trouble" }, how.trouble),
    shown.wants?.length && how.is !== "done" ? el("p", { class: "row-why" }, `Wants to see: ${shown.wants.join(", ").toLowerCase()}.`) : null,
    el(
      "div",
      { class: "taps" },
      ...taps(view.told.known, sort, how.is).map(tap),
      el("button", { type: "button", class: "taps-more", "data-kind": "more", click: more }, "More", el("span", { class: "said" }, said)),
    ),
    last && el("p", { class: "walk-noted" }, ...last),
  );
  onLongPress(line, more);
  return line;
}

/** What this phone last noted of a thing, whether it is sent, and the way back. */
function noted({ desk, told, things }: View, { about }: Shown): (Node | string)[] | null {
  const last = (things.get(about) ?? []).at(-1);
  if (!last || (last.state === "sent" && Date.now() - last.made > IN_SIGHT)) return null;
  const sent = { waits: "not yet sent", sent: "sent", refused: "not taken" }[last.state];
  const back = last.note.replaces !== undefined && last.note.kind === "remark";
  return [
    el("span", { class: last.state === "sent" ? "saved" : "saved not-yet" }, `${inWords(last.note)} ${clock(told, last.made + told.ahead)}, ${sent}`),
    last.state === "refused" ? el("a", { class: "quiet", href: "#queue" }, "See why") : back ? "" : el("button", { type: "button", class: "quiet", "data-kind": "undo", click: () => void desk.undo(last) }, "Undo", el("span", { class: "said" }, `: ${last.name}`)),
  ];
}

function upperFirst(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** What a note says, in a word or two. */
export function inWords(note: Note): string {
  const words: Record<string, string> = { problem: "Not right", undone: "Not right", arrived: "On site", measured: "Read", ordered: "Ordered", promised: "Day given", cleared: "Put right" };
  if (note.kind === "remark") return note.replaces === undefined ? (note.photos?.length ? counted(note.photos.length, "photo") : "Words") : "Taken back";
  if (note.value && "share" in note.value) return note.value.share;
  const figure = note.value && ("reading" in note.value ? note.value.reading.figure : Object.values(note.value)[0]);
  const said = words[note.kind] ?? upperFirst(note.kind);
  return note.kind === "measured" && figure ? `${said} ${figure}` : said;
}

/** A time of day where the house stands. */
export function clock({ known }: Told, at: number): string {
  return new Intl.DateTimeFormat("en-GB", { hour: "numeric", minute: "2-digit", timeZone: known.zone }).format(at);
}

/** A press that lasts opens what a tap cannot say. */
function onLongPress(line: HTMLElement, open: () => void): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let held = false;
  const end = (): void => clearTimeout(timer);
  line.addEventListener("pointerdown", (event) => {
    held = false;
    if (event.button !== 0) return;
    timer = setTimeout(() => {
      held = true;
      open();
    }, 550);
  });
  for (const name of ["pointerup", "pointercancel", "pointerleave"] as const) line.addEventListener(name, end);
  line.addEventListener("pointermove", ({ movementX, movementY }) => Math.abs(movementX) + Math.abs(movementY) > 6 && end());
  line.addEventListener("contextmenu", (event) => held && event.preventDefault());
  line.addEventListener("click", (event) => held && (event.stopPropagation(), event.preventDefault()), true);
}
