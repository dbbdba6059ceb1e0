// The server is killed in the middle of writing, again and again: what it acknowledged is there afterwards.

import { randomBytes } from "node:crypto";
import { expect, test } from "@playwright/test";
import { Server, folder } from "./house";

const ROUNDS = 8;

/** A remark with an id of its own: a UUID of version 7. */
function remark(at: number): { id: string } & Record<string, string> {
  const time = at.toString(16).padStart(12, "0");
  const random = randomBytes(10).toString("hex");
  const id = [time.slice(0, 8), time.slice(8), `7${random.slice(1, 4)}`, `8${random.slice(5, 8)}`, random.slice(8, 20)];
  return {
    id: id.join("-"),
    at: new Date(at).toISOString(),
    by: "Ana",
    about: "job",
    kind: "remark",
    words: `Seen at ${at}`,
  };
}

test("a killed server loses nothing that it acknowledged", async () => {
  test.setTimeout(120_000);
  const data = folder();
  const acknowledged = new Set<string>();
  let at = Date.parse("2027-06-10T05:00:00Z");
  for (let round = 0; round < ROUNDS; round++) {
    const server = await Server.start(data.path);
    let running = true;
    const writers = [0, 1, 2].map(async () => {
      while (running) {
        const note = remark(at++);
        try {
          const answer = await fetch(`${server.address}/api/jobs/one-bathroom/notes`, {
            method: "POST",
            headers: { "Content-Type": "application/json" },
            body: JSON.stringify([note]),
          });
          if (answer.ok && (await answer.json())) acknowledged.add(note.id);
        } catch {
          return;
        }
      }
    });
    await new Promise((passed) => setTimeout(passed, 250 + 90 * round));
    await server.kill();
    running = false;
    await Promise.all(writers);
  }
  expect(acknowledged.size).toBeGreaterThan(ROUNDS);

  const server = await Server.start(data.path);
  const log = await (await fetch(`${server.address}/j/one-bathroom/notes.jsonl`)).text();
  const kept = new Set(log.trim().split("\n").map((line) => (JSON.parse(line) as { id: string }).id));
  await server.stop();
  data.remove();
  expect([...acknowledged].filter((id) => !kept.has(id))).toEqual([]);
  console.log(`${acknowledged.size} notes acknowledged over ${ROUNDS} kills, all there`);
});
