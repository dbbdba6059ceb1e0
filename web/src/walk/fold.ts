// What is known with what this phone has noted since: a note counts on the page as soon as it is written.

import type { How, Sort } from "./known";
import type { Queued } from "./store";

/** What this phone noted of each thing and still counts, the oldest first. */
export function byThing(all: Queued[]): Map<string, Queued[]> {
  const corrected = new Set(all.filter(({ state }) => state !== "refused").map(({ note }) => note.replaces));
  const things = new Map<string, Queued[]>();
  for (const queued of all) {
    if (corrected.has(queued.id)) continue;
    const about = things.get(queued.note.about) ?? [];
    about.push(queued);
    things.set(queued.note.about, about);
  }
  return things;
}

/** How far a thing has got by what is known, and by notes that were not in that yet. */
export function now(how: How, sort: Sort, notes: Queued[], asked: number): How {
  return notes.filter((one) => one.state === "waits" || (one.state === "sent" && (one.sent ?? 0) >= asked)).reduce((far, one) => after(far, sort, one), how);
}

function after(how: How, sort: Sort, { note }: Queued): How {
  const { trouble: _, share: __, ...plain } = how;
  switch (note.kind) {
    case "started":
      return { ...plain, is: "in-hand", say: sort === "hold" ? "set up" : "in hand" };
    case "progress": {
      const share = note.value && "share" in note.value ? Number.parseFloat(note.value.share) : 0;
      return { ...plain, is: "in-hand", share, say: `in hand, ${share} % done` };
    }
    case "done":
    case "passed":
    case "decided":
      return { ...plain, is: "done", say: sort === "piece" ? "set" : note.kind };
    case "undone":
      return { ...plain, is: "to-come", say: "to be done again" };
    case "arrived":
      return { ...plain, is: "on-site", say: "on site" };
    case "failed":
      return { ...plain, is: "failed", say: "failed" };
    case "damaged":
      return { ...plain, is: "to-come", say: how.say, trouble: "damaged" };
    case "problem":
      return { ...how, trouble: note.words ?? "not right" };
    case "cleared":
      return { ...plain, say: how.is === "failed" ? "put right; to be tried again" : how.say };
    case "measured":
      return { ...how, say: `${how.say}; read` };
    case "ordered":
    case "promised":
      return note.value && "when" in note.value ? { ...how, say: `${sort === "hold" ? "booked for" : "promised"} ${day(note.value.when)}` } : how;
    default:
      return how;
  }
}

/** `Thu 10 June`, from `2027-06-10`. */
export function day(date: string): string {
  const at = new Date(`${date.slice(0, 10)}T12:00:00Z`);
  if (Number.isNaN(at.getTime())) return date;
  const said = new Intl.DateTimeFormat("en-GB", { weekday: "short", day: "numeric", month: "long", timeZone: "UTC" });
  return said.format(at).replace(",", "");
}
