// Small photos with the tags that a phone writes: time, direction, place and device (Exif 2.32, JEITA CP-3451).

import type { Page } from "@playwright/test";

/** A picture of a colour of its own, 2400 × 600 as the sensor has it and held upright, taken at 7:15 and some seconds. */
export async function jpegWithTags(page: Page, index: number): Promise<Buffer> {
  const data = await page.evaluate((index) => {
    const sheet = document.createElement("canvas");
    [sheet.width, sheet.height] = [2400, 600];
    const pen = sheet.getContext("2d")!;
    pen.fillStyle = `hsl(${(index * 47) % 360} 60% 50%)`;
    pen.fillRect(0, 0, 2400, 600);
    pen.fillStyle = "#fff";
    pen.fillRect(20 * index, 100, 200, 300);
    return sheet.toDataURL("image/jpeg", 0.7);
  }, index);
  const jpeg = Buffer.from(data.split(",")[1]!, "base64");
  const tags = exif(index);
  const segment = Buffer.alloc(4);
  segment.writeUInt16BE(0xffe1, 0);
  segment.writeUInt16BE(tags.length + 2, 2);
  return Buffer.concat([jpeg.subarray(0, 2), segment, tags, jpeg.subarray(2)]);
}

type Entry = [tag: number, type: number, count: number, value: number | Buffer];
const [ASCII, SHORT, LONG, RATIONAL] = [2, 3, 4, 5];

function exif(index: number): Buffer {
  const text = (words: string): Buffer => Buffer.from(`${words}\0`, "latin1");
  const ratio = (...numbers: number[]): Buffer => {
    const bytes = Buffer.alloc(4 * numbers.length);
    numbers.forEach((number, at) => bytes.writeUInt32LE(number, 4 * at));
    return bytes;
  };
  const ascii = (tag: number, words: string): Entry => [tag, ASCII, words.length + 1, text(words)];
  const second = String(index % 60).padStart(2, "0");
  const [root, inside, gps] = [8, 300, 500];
  const whole = Buffer.alloc(800);
  whole.write("II*\0", 0, "latin1");
  whole.writeUInt32LE(root, 4);
  write(whole, root, [ascii(0x10f, "Mirror Works"), [0x112, SHORT, 1, 6], [0x8769, LONG, 1, inside], [0x8825, LONG, 1, gps]]);
  write(whole, inside, [ascii(0x9003, `2027:06:10 07:15:${second}`), ascii(0x9011, "+01:00")]);
  write(whole, gps, [ascii(0x1, "N"), [0x2, RATIONAL, 3, ratio(52, 1, 7, 1, 30, 1)], ascii(0x10, "T"), [0x11, RATIONAL, 1, ratio(2125, 10)]]);
  return Buffer.concat([Buffer.from("Exif\0\0", "latin1"), whole]);
}

/** Writes one directory; what is longer than four bytes stands behind it. */
function write(whole: Buffer, at: number, entries: Entry[]): void {
  whole.writeUInt16LE(entries.length, at);
  let behind = at + 6 + 12 * entries.length;
  entries.forEach(([tag, type, count, value], index) => {
    const here = at + 2 + 12 * index;
    whole.writeUInt16LE(tag, here);
    whole.writeUInt16LE(type, here + 2);
    whole.writeUInt32LE(count, here + 4);
    if (typeof value === "number") {
      if (type === SHORT) whole.writeUInt16LE(value, here + 8);
      else whole.writeUInt32LE(value, here + 8);
    } else if (value.length <= 4) value.copy(whole, here + 8);
    else {
      whole.writeUInt32LE(behind, here + 8);
      value.copy(whole, behind);
      behind += value.length;
    }
  });
}
