import type { Backend } from './backend';
import { browserBackend } from './browser';
import { tauriBackend } from './tauri';

export { Refused, type Backend } from './backend';

/** Chosen once, at the start: inside the app's window the native engine, elsewhere the browser's. */
export const backend: Backend = '__TAURI_INTERNALS__' in window ? tauriBackend() : browserBackend();
