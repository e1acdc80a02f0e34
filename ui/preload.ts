import type { Plugin } from 'vite';

/** The browser fetches the first map's module beside the page's script, not after it and after a worker's. */
export function preloadFirstModule(): Plugin {
  return {
    name: 'preload-first-module',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler: (_html, { bundle }) => {
        const name = Object.keys(bundle ?? {}).find((file) => /(^|\/)map_bg-[^/]+\.wasm$/.test(file));
        if (!name) throw new Error('The module of the first map is not among the built files.');
        const attrs = {
          rel: 'preload',
          as: 'fetch',
          type: 'application/wasm',
          href: `./${name}`,
          crossorigin: true,
        };
        return [{ tag: 'link', attrs, injectTo: 'head' }];
      },
    },
  };
}
