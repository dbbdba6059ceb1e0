// A photo as it is kept: upright, shrunk, without the tags that say where it was taken and with which device. When it
// was taken and which way it looks are kept beside it.

import { HEAD, readTags } from "./exif";
import type { Photo } from "./store";

const LONGEST_SIDE = 2048;
const QUALITY = 0.82;

/** A photo that was taken or chosen, ready to be kept. Throws an error with a sentence where it cannot be read. */
export async function shrunk(file: File, job: string): Promise<Photo> {
  const { taken = new Date(file.lastModified).toISOString(), facing } = readTags(await file.slice(0, HEAD).arrayBuffer());
  const bytes = await jpeg(file);
  const key = [...new Uint8Array(await crypto.subtle.digest("SHA-256", bytes))]
    .map((byte) => byte.toString(16).padStart(2, "0"))
    .join("");
  return { id: `${job}/${key}`, job, key, bytes, taken, ...(facing === undefined ? {} : { facing }), made: Date.now(), state: "waits" };
}

async function jpeg(file: File): Promise<ArrayBuffer> {
  let picture: ImageBitmap;
  try {
    picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  } catch {
    throw new Error(`${file.name || "The file"} cannot be read as a picture here; take it as JPEG or PNG.`);
  }
  const scale = Math.min(1, LONGEST_SIDE / Math.max(picture.width, picture.height));
  const sheet = document.createElement("canvas");
  sheet.width = Math.max(1, Math.round(picture.width * scale));
  sheet.height = Math.max(1, Math.round(picture.height * scale));
  const pen = sheet.getContext("2d");
  if (!pen) throw new Error("This browser cannot shrink pictures.");
  // What is seen through in a drawing or a screenshot would turn black.
  pen.fillStyle = "#fff";
  pen.fillRect(0, 0, sheet.width, sheet.height);
  pen.drawImage(picture, 0, 0, sheet.width, sheet.height);
  picture.close();
  const blob = await new Promise<Blob | null>((done) => sheet.toBlob(done, "image/jpeg", QUALITY));
  if (!blob) throw new Error("The picture could not be shrunk; there may be too little memory.");
  return blob.arrayBuffer();
}

/** A small picture of a photo, drawn and not linked, so that nothing but the page's own files is ever shown. */
export async function thumb(bytes: ArrayBuffer): Promise<HTMLCanvasElement> {
  const picture = await createImageBitmap(new Blob([bytes], { type: "image/jpeg" }), { resizeHeight: 112 });
  const sheet = document.createElement("canvas");
  [sheet.width, sheet.height] = [picture.width, picture.height];
  sheet.getContext("2d")?.drawImage(picture, 0, 0);
  picture.close();
  return sheet;
}
