// The small parts of the walk that need no page: ids, tags of photos, and what counts before it is sent.

import assert from "node:assert/strict";
import { test } from "node:test";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const src = join(dirname(fileURLToPath(import.meta.url)), "..", "src", "walk");

async function load(name) {
  const { outputFiles } = await build({ entryPoints: [join(src, name)], bundle: true, format: "esm", write: false, logLevel: "silent" });
  return import(`data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString("base64")}`);
}

const { newId } = await load("uuid.ts");
const { readTags } = await load("exif.ts");
const { byThing, day, now } = await load("fold.ts");

// Published: RFC 9562, appendix A.6: 2022-02-22 14:22:22 -05:00 is 0x017F22E279B0 in milliseconds.
test("an id begins with its moment, and is of version 7 and variant 2", () => {
  const id = newId(1645557742000);
  assert.match(id, /^017f22e2-79b0-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  assert.notEqual(id, newId(1645557742000));
});

test("ids of later moments sort behind", () => {
  const ids = [1, 255, 256, 2 ** 32, 2 ** 47].map(newId);
  assert.deepEqual([...ids].sort(), ids);
});

/** A JPEG with nothing but tags: time of taking with its zone, and direction. */
function photo({ little, taken = "2027:06:10 07:15:02", offset = "+01:00", facing = [2125, 10] }) {
  const bytes = Buffer.alloc(400);
  const u16 = (at, value) => (little ? bytes.writeUInt16LE(value, 12 + at) : bytes.writeUInt16BE(value, 12 + at));
  const u32 = (at, value) => (little ? bytes.writeUInt32LE(value, 12 + at) : bytes.writeUInt32BE(value, 12 + at));
  bytes.writeUInt16BE(0xffd8, 0);
  bytes.writeUInt16BE(0xffe1, 2);
  bytes.writeUInt16BE(390, 4);
  bytes.write("Exif\0\0", 6, "latin1");
  bytes.write(little ? "II" : "MM", 12, "latin1");
  u16(2, 42);
  u32(4, 8);
  const entry = (at, tag, type, count, value) => (u16(at, tag), u16(at + 2, type), u32(at + 4, count), u32(at + 8, value));
  u16(8, 2);
  entry(10, 0x8769, 4, 1, 60);
  entry(22, 0x8825, 4, 1, 120);
  u16(60, 2);
  entry(62, 0x9003, 2, 20, 200);
  entry(74, 0x9011, 2, 7, 230);
  u16(120, 1);
  entry(122, 0x11, 5, 1, 250);
  bytes.write(`${taken}\0`, 12 + 200, "latin1");
  bytes.write(`${offset}\0`, 12 + 230, "latin1");
  u32(250, facing[0]);
  u32(254, facing[1]);
  return bytes;
}

const read = (bytes) => readTags(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length));

// Published: the layout of Exif 2.32 (JEITA CP-3451) in both orders of bytes.
test("a photo says when it was taken and which way it looks", () => {
  for (const little of [true, false]) {
    assert.deepEqual(read(photo({ little })), { taken: "2027-06-10T06:15:02.000Z", facing: 212.5 });
  }
});

test("a direction that is none, and a time that is none, are left out", () => {
  assert.deepEqual(read(photo({ little: true, facing: [1, 0], taken: "0000:00:00 00:00:00" })), {});
  assert.deepEqual(read(photo({ little: true, facing: [7200, 10], taken: "soon" })), {});
});

test("a file of any bytes does no harm", () => {
  const good = photo({ little: true });
  for (let cut = 0; cut < good.length; cut += 3) assert.ok(read(good.subarray(0, cut)));
  let seed = 7;
  for (let turn = 0; turn < 3000; turn++) {
    const bytes = Buffer.from(good);
    for (let change = 0; change < 4; change++) {
      seed = (seed * 48271) % 2147483647;
      bytes[seed % bytes.length] = seed >> 8;
    }
    assert.ok(read(bytes));
  }
  assert.deepEqual(read(Buffer.from("\x89PNG\r\n\x1a\n")), {});
});

const queued = (id, kind, more = {}) => ({ id, state: "waits", made: 1, note: { id, about: "hall.walls/base", kind, ...more }, ...(more.top ?? {}) });

test("a tap counts at once, and no longer once it is taken back", () => {
  const started = queued("1", "started");
  const back = queued("2", "remark", { replaces: "1" });
  const far = (all) => now({ say: "can start", is: "next" }, "layer", byThing(all).get("hall.walls/base") ?? [], 0);
  assert.equal(far([started]).is, "in-hand");
  assert.equal(far([started, queued("3", "done")]).is, "done");
  assert.deepEqual(far([started, back]), { say: "can start", is: "next" });
});

test("what the server has told of already does not count again, and what it refused not at all", () => {
  const sent = { ...queued("1", "done"), state: "sent", sent: 100 };
  assert.equal(now({ say: "to be done again" }, "layer", [sent], 200).is, undefined);
  assert.equal(now({ say: "can start" }, "layer", [sent], 50).is, "done");
  assert.equal(now({ say: "can start" }, "layer", [{ ...sent, state: "refused" }], 50).is, undefined);
});

test("a day is said as people say it", () => {
  assert.equal(day("2027-06-10"), "Thu 10 June");
  assert.equal(day("soon"), "soon");
});
