import { backend } from '../backend';
import type { FileAnswer } from '../backend/model';
import { saved } from './saved.svelte';

/** No more of a file goes to the engine, which refuses larger ones: nobody waits for a film to be read. */
const ENOUGH_BYTES = 33 * 1024 * 1024;

/**
 * What stands in a file, read by the engine as on every face: its text, and the photos beside a job; what is no UTF-8
 * text is refused in words. Rejects with `Refused`.
 */
export async function readFile(file: File): Promise<FileAnswer> {
  const beginning = file.size > ENOUGH_BYTES ? file.slice(0, 16) : file;
  const base64 = await toBase64(beginning);
  return backend.call('file_text', { base64, size_bytes: file.size });
}

/** The text of a file alone. */
export const readText = async (file: File): Promise<string> => (await readFile(file)).text;

/** By the browser's own encoder: `data:…;base64,` and then the bytes. */
function toBase64(blob: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result).replace(/^[^,]*,?/, ''));
    reader.onerror = () => reject(reader.error ?? new Error('The file can’t be read.'));
    reader.readAsDataURL(blob);
  });
}

/** Hands a text to the user as a file. */
export const saveText = (text: string, name: string, type: string): Promise<void> => save(text, name, type);

/** Hands bytes to the user as a file. */
export const saveBytes = (bytes: Uint8Array<ArrayBuffer>, name: string, type: string): Promise<void> =>
  save(bytes, name, type);

/** Into the system's own folder by the app, which says where; in a browser by the phone's share sheet where it takes
 * files, else as a download, which the browser tells itself. */
async function save(content: BlobPart, name: string, type: string): Promise<void> {
  const file = new File([content], name, { type });
  if (backend.saveFile) {
    saved.path = await backend.saveFile(new Uint8Array(await file.arrayBuffer()), name);
    return;
  }
  const touch = matchMedia('(pointer: coarse)').matches;
  if (touch && navigator.canShare?.({ files: [file] })) {
    try {
      await navigator.share({ files: [file], title: name });
      return;
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return;
    }
  }
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
