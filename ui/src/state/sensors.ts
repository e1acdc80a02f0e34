import type { GravitySign } from '../backend/model';

/** Why a sensor can't be read, or how far asking for it is. */
export type Stage = 'off' | 'asking' | 'waiting' | 'on' | 'none' | 'refused' | 'insecure';

/** A device without the sensor sends nothing, or empty readings; this long is waited for a real one. */
export const PATIENCE_MS = 2500;

interface AsksFirst {
  requestPermission?: () => Promise<'granted' | 'denied'>;
}

/** Asks for leave to read a sensor. Must be called from a tap: iPhones ask only then. */
export async function askFor(event: unknown): Promise<'granted' | 'none' | 'refused' | 'insecure'> {
  // Browsers hide the sensors, or send nothing, on pages that did not come by https.
  if (!isSecureContext) return 'insecure';
  if (event === undefined) return 'none';
  try {
    const { requestPermission } = event as AsksFirst;
    if (requestPermission && (await requestPermission.call(event)) !== 'granted') return 'refused';
  } catch {
    return 'refused';
  }
  return 'granted';
}

/** iPhones and iPads (which may call themselves a Mac with a touch screen) report gravity upside down. */
export function gravitySign(): GravitySign {
  const apple = /iPhone|iPad|iPod/.test(navigator.userAgent);
  const padAsMac = navigator.userAgent.includes('Macintosh') && navigator.maxTouchPoints > 1;
  return apple || padAsMac ? 'down' : 'up';
}
