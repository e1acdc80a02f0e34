import { backend } from '../backend';

/** Looks for codes in what a camera shows (Shape Detection API; not in the DOM's types). */
interface Detector {
  detect(from: HTMLVideoElement): Promise<{ rawValue: string }[]>;
}
interface DetectorKind {
  new (options: { formats: string[] }): Detector;
  getSupportedFormats?(): Promise<string[]>;
}

/** A code of 61 modules that fills three quarters of the picture has eight pixels a module then; from seven on it is read. */
const MOST_PIXELS_ACROSS = 1280;

/** Reads the texts of the codes in a camera's picture: by the browser, where it does that, else by the engine. */
export async function codeReader(): Promise<(video: HTMLVideoElement) => Promise<string[]>> {
  const detector = await byTheBrowser();
  if (detector) return async (video) => (await detector.detect(video)).map(({ rawValue }) => rawValue);
  const canvas = document.createElement('canvas');
  const pen = canvas.getContext('2d', { willReadFrequently: true });
  if (!pen) throw new Error('This browser gives no picture of its camera.');
  return (video) => byTheEngine(video, canvas, pen);
}

async function byTheBrowser(): Promise<Detector | null> {
  const Kind = (window as { BarcodeDetector?: DetectorKind }).BarcodeDetector;
  try {
    const formats = (await Kind?.getSupportedFormats?.()) ?? [];
    return Kind && formats.includes('qr_code') ? new Kind({ formats: ['qr_code'] }) : null;
  } catch {
    return null;
  }
}

async function byTheEngine(
  video: HTMLVideoElement,
  canvas: HTMLCanvasElement,
  pen: CanvasRenderingContext2D,
): Promise<string[]> {
  const shrink = Math.min(1, MOST_PIXELS_ACROSS / Math.max(video.videoWidth, video.videoHeight, 1));
  const [width, height] = [Math.round(video.videoWidth * shrink), Math.round(video.videoHeight * shrink)];
  if (width === 0 || height === 0) return [];
  [canvas.width, canvas.height] = [width, height];
  pen.drawImage(video, 0, 0, width, height);
  const grey_base64 = base64(grey(pen.getImageData(0, 0, width, height).data));
  const never = new AbortController().signal;
  return (await backend.watch('find_codes', { width, height, grey_base64 }, () => undefined, never)).texts;
}

/** Luma of red, green and blue by their weights in Recommendation ITU-R BT.601, in 256ths. */
export function grey(pixels: Uint8ClampedArray): Uint8Array {
  const grey = new Uint8Array(pixels.length / 4);
  for (let i = 0; i < grey.length; i += 1) {
    const [red = 0, green = 0, blue = 0] = [pixels[4 * i], pixels[4 * i + 1], pixels[4 * i + 2]];
    grey[i] = (77 * red + 150 * green + 29 * blue) >> 8;
  }
  return grey;
}

function base64(bytes: Uint8Array): string {
  let letters = '';
  for (let i = 0; i < bytes.length; i += 0x8000) {
    letters += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
  }
  return btoa(letters);
}
