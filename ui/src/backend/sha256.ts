/** FIPS 180-4, by the browser itself, which has it for pages from a secure address alone. */
export async function sha256(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  if (!('subtle' in crypto)) throw new Error('Photos can be kept at an https address alone.');
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(hash, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
