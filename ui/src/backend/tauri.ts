import { invoke } from '@tauri-apps/api/core';
import { opened, type Backend } from './backend';

/** The app's window: the native engine, and the job on disk. */
export function tauriBackend(): Backend {
  return {
    name: 'tauri',
    async call(operation, request) {
      return opened(await invoke<string>('call', { operation, request: JSON.stringify(request) }));
    },
    load: () => invoke<string | null>('load_job'),
    save: (text) => invoke<void>('save_job', { text }),
    notice: () => invoke<string | null>('storage_notice'),
  };
}
