// Sending what was noted. Every note bears an id that was made on the phone and every photo is called by what is in it,
// so that sending one again does nothing: whatever breaks off is simply sent once more.

import { change, drop, noted, photo, photoIs, photosHere, type Queued } from "./store";

/** How it went: all is sent; nobody answered; the server would not let this phone in; it cannot take all of it yet. */
export type Went = "sent" | "no-answer" | "not-let-in" | "not-yet";

/** Tells the other pages of this phone that the queue has changed. */
export const channel = new BroadcastChannel("grounds-walk");

const MOST_AT_ONCE = 40;
const PATIENCE = 25_000;
/** Notes that were sent stay in sight for this long. */
const REMEMBERED = 36 * 60 * 60 * 1000;

/** Sends all that waits, and tells of every step. Pages and worker take turns, so that nothing goes out twice at a time. */
export async function send(step: () => void = () => undefined): Promise<Went> {
  const tell = (): void => (channel.postMessage("changed"), step());
  if (!("locks" in navigator)) return sendAll(tell);
  return navigator.locks.request("grounds-send", () => sendAll(tell));
}

async function sendAll(tell: () => void): Promise<Went> {
  const all = await noted();
  await forget(all);
  let went: Went = "sent";
  const waiting = all.filter(({ state }) => state === "waits");
  for (const job of new Set(waiting.map((one) => one.job))) {
    const here = waiting.filter((one) => one.job === job);
    for (let from = 0; from < here.length; from += MOST_AT_ONCE) {
      const how = await sendNotes(job, here.slice(from, from + MOST_AT_ONCE));
      tell();
      if (how === "no-answer" || how === "not-let-in") return how;
      if (how !== "sent") went = how;
    }
  }
  const how = await sendPhotos(tell);
  return how === "sent" ? went : how;
}

/** Lets go of what the server has had for long, unless a photo of it still waits. */
async function forget(all: Queued[]): Promise<void> {
  const waits = new Set((await photosHere()).map(({ id }) => id));
  const isOld = ({ state, sent, job, note }: Queued): boolean =>
    state === "sent" && Date.now() - (sent ?? 0) > REMEMBERED && !(note.photos ?? []).some((key) => waits.has(`${job}/${key}`));
  const old = all.filter(isOld);
  if (old.length) await drop(old.map(({ id }) => id));
}

async function sendNotes(job: string, batch: Queued[]): Promise<Went> {
  const answer = await ask(`/api/jobs/${encodeURIComponent(job)}/notes`, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify(batch.map(({ note }) => note)),
  });
  if (!answer) return "no-answer";
  const ids = batch.map(({ id }) => id);
  if (answer.ok) {
    const sent = Date.now();
    await change(ids, (one) => ({ ...one, state: "sent", sent }));
    return "sent";
  }
  const went = refusal(answer.status);
  if (went) return went;
  if (batch.length > 1) {
    // One of them is at fault: it must not hold up the others.
    const half = batch.length >> 1;
    const first = await sendNotes(job, batch.slice(0, half));
    if (first === "no-answer" || first === "not-let-in") return first;
    return sendNotes(job, batch.slice(half));
  }
  const why = await reason(answer);
  await change(ids, (one) => ({ ...one, state: "refused", why }));
  return "sent";
}

async function sendPhotos(tell: () => void): Promise<Went> {
  const waiting = (await photosHere()).filter(({ state }) => state === "waits");
  for (const { id, job, key } of waiting) {
    const one = await photo(id);
    if (!one) continue;
    const headers: Record<string, string> = { "Content-Type": "image/jpeg" };
    if (one.taken !== undefined) headers["x-taken"] = one.taken;
    if (one.facing !== undefined) headers["x-facing"] = String(one.facing);
    const answer = await ask(`/api/jobs/${encodeURIComponent(job)}/photos/${key}`, { method: "PUT", headers, body: one.bytes });
    if (!answer) return "no-answer";
    const went = answer.ok ? undefined : refusal(answer.status);
    if (went) return went;
    if (answer.ok) await photoIs(id, "sent");
    else await photoIs(id, "refused", await reason(answer));
    tell();
  }
  return "sent";
}

/** What an answer means that says nothing about what was sent; nothing where it does. */
function refusal(status: number): Went | undefined {
  if (status === 401 || status === 403) return "not-let-in";
  if (status === 404 || status === 405) return "not-yet";
  if (status === 408 || status === 425 || status === 429 || status >= 500) return "no-answer";
  return undefined;
}

async function ask(address: string, how: RequestInit): Promise<Response | undefined> {
  try {
    return await fetch(address, { ...how, signal: AbortSignal.timeout(PATIENCE) });
  } catch {
    return undefined;
  }
}

async function reason(answer: Response): Promise<string> {
  try {
    const { error } = (await answer.json()) as { error?: unknown };
    if (typeof error === "string") return error;
  } catch {
    // No sentence came with it.
  }
  return `The server would not have it (${answer.status}).`;
}
