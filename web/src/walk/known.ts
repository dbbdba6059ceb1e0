// The last known state of the job, as the server told it.

export type Standing = "to-come" | "next" | "on-site" | "in-hand" | "failed" | "done";

/** How far a thing has got. */
export type How = { is?: Standing; share?: number; say: string; trouble?: string };

type Design = { id: string; name: string; hatch: string; mm?: number };
export type Layer = How & Design;
export type Face = { about: string; name: string; of: string; layers: Layer[] };
export type Sort = "layer" | "piece" | "hold" | "decision" | "opening" | "place";
export type Thing = How & { about: string; sort: Sort; name: string; wants?: string[] };
export type Place = { key: string; name: string; level: string; next: string; faces: Face[]; things: Thing[] };

/** The kind of note and the word on the button. */
export type Tap = [kind: string, word: string];
/** The word of the note, how it is asked for, its unit. */
export type Reading = [what: string, asked: string, unit: string];
export type Says = { taps: Partial<Record<Standing, Tap[]>>; more: Tap[]; reads: Reading[] };

export type Known = {
  job: string;
  name: string;
  units: "metric" | "imperial";
  edition: number;
  stamp: string;
  now: string;
  zone: string;
  who?: string;
  says: Record<Sort, Says>;
  stacks: Record<string, Design[]>;
  places: Place[];
  decisions: Thing[];
};

/** What is known, when it was asked for, and how far the time on site is ahead of this phone's clock. */
export type Told = { known: Known; asked: number; ahead: number; kept: boolean };

/** Asks for the state. The worker answers with the last one where nobody else does. */
export async function ask(job: string): Promise<Told> {
  const asked = Date.now();
  const answer = await fetch(`/j/${encodeURIComponent(job)}/walk.json`);
  if (!answer.ok) throw new Error(`answer ${answer.status}`);
  const kept = answer.headers.get("x-kept");
  const known = (await answer.json()) as Known;
  const at = kept === null ? asked : Number(kept);
  // What a layer is was told once for its build-up.
  for (const face of known.places.flatMap(({ faces }) => faces)) {
    face.layers = face.layers.map((how, index) => ({ ...known.stacks[face.of]?.[index], ...how }));
  }
  const ahead = Date.parse(known.now) - at;
  // A second or two is the way there and back.
  return { known, asked: at, ahead: Math.abs(ahead) < 60_000 ? 0 : ahead, kept: kept !== null };
}

export function taps(known: Known, sort: Sort, is: Standing = "to-come"): Tap[] {
  const all = known.says[sort].taps;
  return all[is] ?? all["to-come"] ?? [];
}
