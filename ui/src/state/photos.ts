import { backend } from '../backend';
import type { Photo, PhotoFile } from '../backend/model';
import { sharedPhoto, sharedPhotos, sharePhoto } from '../backend/paired';
import { sha256 } from '../backend/sha256';
import { app } from './app.svelte';
import { freeId } from './ids';
import { jobDoc } from './job-doc';
import { photoArrivals } from './photo-arrivals.svelte';
import { jobAt } from './pointer';
import { withZone } from './survey-log';

/** The longer side of a kept photo: a peg's number can still be read on it, and a hundred of them fit into one file. */
const LONGER_SIDE_PX = 1600;
const QUALITY = 0.8;
/** As many as a job may have. */
export const MOST_PHOTOS = 100;

/** Makes a camera's photo small, and keeps nothing of it but the picture: where and by what it was taken is left out. */
export async function downscaled(file: Blob): Promise<Uint8Array<ArrayBuffer>> {
  const picture = await createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => null);
  if (!picture) throw new Error('This browser can’t read that picture. A JPEG or PNG will do.');
  const scale = Math.min(1, LONGER_SIDE_PX / Math.max(picture.width, picture.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  const jpeg = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', QUALITY));
  if (!jpeg) throw new Error('This browser could not make the picture smaller.');
  return new Uint8Array(await jpeg.arrayBuffer());
}

/** Keeps a photo and then names it in the job: what the job names is there. */
export async function addPhoto(file: Blob, shows: string): Promise<void> {
  if ((app.job?.photos.length ?? 0) >= MOST_PHOTOS)
    throw new Error(`A job has at most ${MOST_PHOTOS} photos.`);
  const id = app.id;
  const sha256 = await backend.store.putPhoto(await downscaled(file));
  const photos = app.job?.photos;
  // Another job may have been opened while the picture was made smaller.
  if (!photos || app.id !== id) return;
  const photo: Photo = {
    id: freeId(photos, 'photo'),
    sha256,
    shows,
    note: '',
    taken_at: withZone(new Date()),
  };
  jobDoc.set(jobAt('/photos'), [...photos, photo]);
}

/** Brings the photos that jobs name to the machine that all paired devices reach, and takes those that are missing here from
 * there. Each is a transfer of its own under the hash of what is in it: one that breaks off is begun anew the next time, and
 * nothing is sent twice. Tells which are not here, and what kept one from coming or going: the others do all the same. */
export async function bringPhotos(named: Iterable<string>): Promise<{ missing: string[]; slip: unknown }> {
  const there = new Set(await sharedPhotos());
  const missing: string[] = [];
  let slip: unknown = null;
  for (const name of new Set(named)) {
    const isHere = await backend.store.hasPhoto(name);
    try {
      if (isHere && !there.has(name)) await givePhoto(name);
      if (!isHere && !(there.has(name) && (await takePhoto(name)))) missing.push(name);
    } catch (error) {
      slip ??= error;
      if (!isHere) missing.push(name);
    }
  }
  return { missing, slip };
}

async function givePhoto(name: string): Promise<void> {
  const bytes = await backend.store.photo(name);
  if (bytes) await sharePhoto(name, bytes);
}

/** False where it did not come, or is another than its name says. */
async function takePhoto(name: string): Promise<boolean> {
  const bytes = await sharedPhoto(name);
  if (!bytes || (await sha256(bytes)) !== name) return false;
  await backend.store.putPhoto(bytes);
  photoArrivals.count += 1;
  return true;
}

/** An address of a photo for this page, to be given back; null where it is not on this device. */
export async function photoAddress(sha256: string): Promise<string | null> {
  const bytes = await backend.store.photo(sha256);
  return bytes && URL.createObjectURL(new Blob([bytes], { type: 'image/jpeg' }));
}

/** The photos of a job as they go into its file; those that are not here are left out. */
export async function photoFiles(photos: readonly Photo[]): Promise<PhotoFile[]> {
  const names = [...new Set(photos.map(({ sha256 }) => sha256))];
  const found = await Promise.all(
    names.map(async (sha256) => ({ sha256, bytes: await backend.store.photo(sha256) })),
  );
  return found.flatMap(({ sha256, bytes }) => (bytes ? [{ sha256, base64: base64Of(bytes) }] : []));
}

/** Keeps the photos that came with a file. */
export async function keepPhotos(photos: readonly PhotoFile[]): Promise<void> {
  for (const { base64 } of photos) await backend.store.putPhoto(bytesOf(base64));
}

const SOME = 0x8000;

function base64Of(bytes: Uint8Array): string {
  let binary = '';
  for (let at = 0; at < bytes.length; at += SOME)
    binary += String.fromCharCode(...bytes.subarray(at, at + SOME));
  return btoa(binary);
}

export function bytesOf(base64: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}
