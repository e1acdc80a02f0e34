import type { Plugin } from 'vite';

/** What the browser fetches beside the page's script, not after it: what the demo is shown by, and the first map's module. The
 * module is ten times as long as all else and not needed to show the demo: it gives way. */
const FIRST = [
  { name: /(^|\/)first-answers-[^/]+\.json$/, type: 'application/json' },
  { name: /(^|\/)map_bg-[^/]+\.wasm$/, type: 'application/wasm', fetchpriority: 'low' },
];

export function preloadFirst(): Plugin {
  return {
    name: 'preload-first',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler: (_html, { bundle }) =>
        FIRST.map(({ name, ...how }) => {
          const file = Object.keys(bundle ?? {}).find((one) => name.test(one));
          if (!file) throw new Error(`No built file is named like ${name}.`);
          const attrs = { rel: 'preload', as: 'fetch', href: `./${file}`, crossorigin: true, ...how };
          return { tag: 'link', attrs, injectTo: 'head' as const };
        }),
    },
  };
}
