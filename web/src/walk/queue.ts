// What waits to be sent, in a line on every view and in a view of its own.

import { counted, el } from "./el";
import type { Told } from "./known";
import { openSheet } from "./sheet";
import { clock, type Desk, inWords } from "./show";
import { drop as dropNotes, photoIs, type Queued } from "./store";

export function queueLine(desk: Desk, told: Told): HTMLElement {
  const { state } = desk;
  const refused = [...state.queued, ...state.photos].filter((one) => one.state === "refused").length;
  const waits = words(desk, told);
  return el(
    "p",
    { class: "queue-line", role: "status" },
    state.fault !== "" && el("strong", { class: "notice breach" }, state.fault),
    (waits !== undefined || refused === 0) && el("a", { class: waits ? "saved not-yet" : "saved", href: "#queue" }, waits ?? (state.queued.length ? "All that was noted here is sent." : "What you note is kept on this phone until it is sent.")),
    refused > 0 && el("a", { class: "walk-trouble", href: "#queue" }, `${counted(refused, "note was", "notes were")} not taken: see why.`),
  );
}

/** `14 notes and 3 photos wait for a signal; oldest 11:20`; nothing where nothing waits. */
function words({ state }: Desk, told: Told): string | undefined {
  const notes = state.queued.filter((one) => one.state === "waits");
  const photos = state.photos.filter((one) => one.state === "waits");
  const all = [notes.length && counted(notes.length, "note"), photos.length && counted(photos.length, "photo")].filter(Boolean).join(" and ");
  if (!all) return undefined;
  const wait = notes.length + photos.length === 1 ? "waits" : "wait";
  const oldest = `; oldest ${clock(told, Math.min(...[...notes, ...photos].map(({ made }) => made)) + told.ahead)}`;
  if (state.went === "not-let-in") return `${all} ${wait}: this phone is not let in. Join it again on the desk's page for phones${oldest}.`;
  if (navigator.onLine && state.sending) return `Sending ${all}.`;
  if (navigator.onLine && state.went === "not-yet") return `${all} ${wait}: the server does not take photos or this job yet${oldest}.`;
  return `${all} ${wait} for a signal${oldest}.`;
}

export function queueView(desk: Desk, told: Told): Node[] {
  const { state } = desk;
  const of = (which: Queued["state"]): Queued[] => state.queued.filter((one) => one.state === which);
  const [waits, refused, sent] = [of("waits"), of("refused"), of("sent")];
  const photos = state.photos.filter((one) => one.state === "refused");
  return [
    el(
      "header",
      { class: "opening" },
      el("h1", {}, waits.length ? `${counted(waits.length, "note")} on this phone still ${waits.length === 1 ? "waits" : "wait"}.` : refused.length ? "All is sent but what was not taken." : "Nothing waits."),
      el("p", { class: "lead soft" }, "Each is kept here until the server has it on its disk. Sent twice, it counts once."),
      el("p", { class: "onward" }, el("button", { type: "button", class: "can", click: () => desk.sendNow() }, "Send now"), el("a", { class: "can", href: "#all" }, "Back to the walk")),
    ),
    ...section("Not taken", refused, (one) => [
      el("p", { class: "walk-trouble" }, one.why ?? ""),
      el("div", { class: "taps" }, el("button", { type: "button", click: () => mend(desk, told, one) }, "Mend", el("span", { class: "said" }, `: ${one.name}`)), el("button", { type: "button", click: () => void desk.drop([one.id]) }, "Drop", el("span", { class: "said" }, `: ${one.name}`))),
    ]),
    ...(photos.length === 0
      ? []
      : [
          el("section", { class: "part" }, el("h2", {}, "Photos not taken"), el("ul", { class: "walk-rows" }, ...photos.map((one) => el("li", { class: "walk-row" }, el("p", { class: "walk-trouble" }, one.why ?? ""), el("div", { class: "taps" }, el("button", { type: "button", click: () => void photoIs(one.id, "sent").then(() => desk.drop([])) }, "Drop this photo")))))),
        ]),
    ...section("Waiting", waits, (one) => [way(desk, one)]),
    ...section("Sent", sent.slice(-60).reverse(), (one) => [way(desk, one)]),
  ];

  function section(title: string, all: Queued[], below: (one: Queued) => Node[]): Node[] {
    const row = (one: Queued): Node =>
      el(
        "li",
        { class: "walk-row", id: `q-${one.id}` },
        el("p", { class: "walk-name" }, el("b", {}, one.name), " ", el("span", { class: "row-why" }, `${inWords(one.note)}, ${clock(told, one.made + told.ahead)}${one.note.photos?.length ? `, ${counted(one.note.photos.length, "photo")}` : ""}`)),
        one.note.words !== undefined && el("p", { class: "row-why" }, `“${one.note.words}”`),
        ...below(one),
      );
    return all.length === 0 ? [] : [el("section", { class: "part" }, el("h2", {}, title), el("ul", { class: "walk-rows" }, ...all.map(row)))];
  }
}

function way(desk: Desk, one: Queued): Node {
  const gone = desk.state.queued.some(({ note }) => note.replaces === one.id) || one.note.replaces !== undefined;
  return gone ? el("span") : el("button", { type: "button", class: "quiet", click: () => void desk.undo(one) }, "Undo", el("span", { class: "said" }, `: ${one.name}`));
}

/** A note that was not taken is written anew, and the old one let go. */
function mend(desk: Desk, told: Told, one: Queued): void {
  const { about } = one.note;
  const found = told.known.places.flatMap((place) => [{ about: place.key, sort: "place" as const }, ...place.things]).find((thing) => thing.about === about);
  const sort = found?.sort ?? (about.includes("/") ? "layer" : "place");
  openSheet(desk, told, { about, sort, name: one.name, place: "", how: { say: "" } }, one.note, () => dropNotes([one.id]).then(() => desk.drop([])));
}
