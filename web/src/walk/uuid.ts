// Ids that are made where the note is written: UUID version 7 (RFC 9562, 5.7).

export function newId(at: number): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  for (let index = 5, rest = at; index >= 0; index--, rest = Math.floor(rest / 256)) bytes[index] = rest % 256;
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x70;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}
