/* Names made on the device. crypto.randomUUID is missing on plain http; getRandomValues is not. */

export type Fill = (bytes: Uint8Array<ArrayBuffer>) => void;

const LAST_MILLI = 2 ** 48 - 1;

const fromCrypto: Fill = (bytes) => {
  crypto.getRandomValues(bytes);
};

/**
 * A time-ordered UUID, version 7 of RFC 9562: 48 bits of time, 74 of chance.
 *
 * The time only keeps the server's index compact; a wrong clock does no harm.
 */
export function newId(now: number = Date.now(), fill: Fill = fromCrypto): string {
  const bytes = new Uint8Array(16);
  fill(bytes);
  const time = Math.floor(Math.min(Math.max(now, 0), LAST_MILLI));
  for (let place = 0; place < 6; place++) bytes[place] = Math.floor(time / 2 ** (40 - 8 * place)) % 256;
  bytes[6] = 0x70 | (bytes[6]! & 0x0f);
  bytes[8] = 0x80 | (bytes[8]! & 0x3f);
  const text = hex(bytes);
  return [text.slice(0, 8), text.slice(8, 12), text.slice(12, 16), text.slice(16, 20), text.slice(20)].join("-");
}

/** A name for this device, 64 bits of chance: the tie-break of its stamps. */
export function newDevice(fill: Fill = fromCrypto): string {
  const bytes = new Uint8Array(8);
  fill(bytes);
  return hex(bytes);
}

function hex(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
