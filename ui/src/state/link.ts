/** A job inside a link, behind its `#`: so it goes from device to device by any messenger, and no server is told of it.
 * Deflated (RFC 1951), in base64url (RFC 4648, 5). */

/** Longer ones are cut off on their way by some messengers and codes. */
export const LONGEST_LINK = 16_000;

/** No job is larger, and a link can be made that swells without end. */
const MOST_BYTES = 33 * 1024 * 1024;

export async function packed(text: string): Promise<string> {
  const bytes = await through(text, new CompressionStream('deflate-raw'), Infinity);
  let letters = '';
  for (const byte of bytes) letters += String.fromCharCode(byte);
  return btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

/** Rejects where it is not whole, or no such text at all. */
export async function unpacked(data: string): Promise<string> {
  const letters = atob(data.replaceAll('-', '+').replaceAll('_', '/'));
  const bytes = Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
  const text = await through(bytes, new DecompressionStream('deflate-raw'), MOST_BYTES);
  return new TextDecoder('utf-8', { fatal: true }).decode(text);
}

async function through(
  given: BlobPart,
  stream: CompressionStream | DecompressionStream,
  most: number,
): Promise<Uint8Array> {
  const reader = new Blob([given]).stream().pipeThrough(stream).getReader();
  const parts: Uint8Array[] = [];
  let length = 0;
  for (let step = await reader.read(); !step.done; step = await reader.read()) {
    parts.push(step.value as Uint8Array);
    length += (step.value as Uint8Array).length;
    if (length > most) {
      await reader.cancel();
      throw new Error('It is larger than any job.');
    }
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
