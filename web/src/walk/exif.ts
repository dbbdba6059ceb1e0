// When a photo was taken and which way the camera looked, from the tags of a JPEG (Exif 2.32: JEITA CP-3451). Nothing
// else is read; the tags themselves are left behind when the photo is shrunk.

export type Tags = { taken?: string; facing?: number };

const EXIF_IFD = 0x8769;
const GPS_IFD = 0x8825;
const TAKEN = 0x9003;
const OFFSET = 0x9011;
const FACING = 0x11;
/** Tags stand at the head of the file. */
export const HEAD = 256 * 1024;

export function readTags(bytes: ArrayBuffer): Tags {
  try {
    return read(new DataView(bytes));
  } catch {
    // Tags that lead out of the file say nothing.
    return {};
  }
}

function read(view: DataView): Tags {
  const start = findTiff(view);
  if (start === undefined) return {};
  const little = view.getUint16(start) === 0x4949;
  const u16 = (at: number): number => view.getUint16(start + at, little);
  const u32 = (at: number): number => view.getUint32(start + at, little);
  const entry = (ifd: number, tag: number): number | undefined => {
    const count = Math.min(u16(ifd), 512);
    for (let index = 0; index < count; index++) {
      const at = ifd + 2 + 12 * index;
      if (u16(at) === tag) return at;
    }
    return undefined;
  };
  const text = (ifd: number, tag: number): string | undefined => {
    const at = entry(ifd, tag);
    if (at === undefined) return undefined;
    const length = Math.min(u32(at + 4), 64);
    const from = length > 4 ? u32(at + 8) : at + 8;
    let words = "";
    for (let index = 0; index < length; index++) {
      const code = view.getUint8(start + from + index);
      if (code === 0) break;
      words += String.fromCharCode(code);
    }
    return words;
  };
  const first = u32(4);
  const exif = entry(first, EXIF_IFD);
  const gps = entry(first, GPS_IFD);
  const tags: Tags = {};
  if (exif !== undefined) {
    const taken = moment(text(u32(exif + 8), TAKEN), text(u32(exif + 8), OFFSET));
    if (taken !== undefined) tags.taken = taken;
  }
  const facing = gps === undefined ? undefined : entry(u32(gps + 8), FACING);
  if (facing !== undefined) {
    const at = u32(facing + 8);
    const degrees = u32(at) / u32(at + 4);
    if (degrees >= 0 && degrees <= 360) tags.facing = Math.round((degrees % 360) * 10) / 10 % 360;
  }
  return tags;
}

/** Where the tags begin, if this is a JPEG that has some. */
function findTiff(view: DataView): number | undefined {
  if (view.byteLength < 4 || view.getUint16(0) !== 0xffd8) return undefined;
  let at = 2;
  while (at + 10 < view.byteLength) {
    const marker = view.getUint16(at);
    const isExif = marker === 0xffe1 && view.getUint32(at + 4) === 0x45786966;
    if (isExif) return at + 10;
    // Pixels begin here, or this is no JPEG: no tags follow.
    if (marker === 0xffda || marker >> 8 !== 0xff) return undefined;
    at += 2 + view.getUint16(at + 2);
  }
  return undefined;
}

/** `2027:06:10 07:15:02` with its zone; without one, the phone's own is meant. */
function moment(taken: string | undefined, offset: string | undefined): string | undefined {
  const parts = /^(\d{4}):(\d\d):(\d\d) (\d\d):(\d\d):(\d\d)/.exec(taken ?? "");
  if (!parts) return undefined;
  const [, year, month, day, hour, minute, second] = parts;
  const zone = /^[+-]\d\d:\d\d$|^Z$/.exec(offset?.trim() ?? "")?.[0] ?? "";
  const at = new Date(`${year}-${month}-${day}T${hour}:${minute}:${second}${zone}`);
  return Number.isNaN(at.getTime()) ? undefined : at.toISOString();
}
