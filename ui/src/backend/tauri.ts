import { Channel, invoke } from '@tauri-apps/api/core';
import { opened, stopped, type Backend } from './backend';
import { tauriStore } from './tauri-store';
import type { Progress } from './types';

/** The app's window: the native engine, and the jobs on disk. */
export function tauriBackend(): Backend {
  let last = 0;

  return {
    name: 'tauri',
    async call(operation, request) {
      return opened(await invoke<string>('call', { operation, request: JSON.stringify(request) }), operation);
    },
    async watch(operation, request, onProgress, signal) {
      if (signal.aborted) throw stopped();
      const id = ++last;
      const progress = new Channel<Progress<never>>();
      progress.onmessage = (told) => {
        if (!signal.aborted) onProgress(told);
      };
      const stop = () => void invoke('stop_watched', { id });
      signal.addEventListener('abort', stop, { once: true });
      try {
        const asked = { operation, request: JSON.stringify(request), id, progress };
        const text = await invoke<string>('call_watched', asked);
        if (signal.aborted) throw stopped();
        return opened(text, operation);
      } finally {
        signal.removeEventListener('abort', stop);
      }
    },
    async sheets(request) {
      const asked = { operation: 'sheets', request: JSON.stringify(request) };
      return opened(await invoke<string>('call_on_paper', asked), 'sheets');
    },
    async sheetsPdf(request) {
      try {
        return new Uint8Array(await invoke<ArrayBuffer>('sheets_pdf', { request: JSON.stringify(request) }));
      } catch (error) {
        // What is wrong with the job comes as the answer that names it.
        if (typeof error === 'string' && error.startsWith('{')) return opened(error, 'sheets');
        throw error;
      }
    },
    ready: () => Promise.resolve(),
    whole: () => Promise.resolve(),
    saveFile: (bytes, name) =>
      invoke<string>('save_file', bytes, { headers: { name: encodeURIComponent(name) } }),
    // Its files come with it.
    keepOffline: () => Promise.resolve(),
    store: tauriStore(),
  };
}
