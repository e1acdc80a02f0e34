import mapUrl from '../wasm/map_bg.wasm?url';

/** Names the build: the bundler puts a mark of what is in it into its name. */
export const MODULE_NAME = mapUrl;

let compiled: Promise<WebAssembly.Module> | null = null;

/** The module of the first map, compiled while it still comes in, and once for every worker. The page itself fetches it,
 * because a worker could only begin after the page's script and its own. */
export function mapModule(): Promise<WebAssembly.Module> {
  compiled ??= WebAssembly.compileStreaming(fetch(mapUrl)).catch((error: unknown) => {
    // Without a signal just now: the next worker tries again.
    compiled = null;
    throw error;
  });
  return compiled;
}
