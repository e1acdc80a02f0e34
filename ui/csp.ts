import type { Plugin } from 'vite';

/** What the built page may load and run: its own files and nothing else (W3C Content Security Policy Level 3).
 *
 * It stands in the page itself, so that it holds on any host of files; what only a header can say (`frame-ancestors`)
 * is left to the host. The development server is left alone: it needs inline styles and a socket. */
const POLICY: Record<string, string[]> = {
  'default-src': ["'none'"],
  // WebAssembly is compiled, JavaScript never from a text.
  'script-src': ["'self'", "'wasm-unsafe-eval'"],
  'worker-src': ["'self'"],
  'style-src': ["'self'"],
  'img-src': ["'self'", 'data:', 'blob:'],
  'font-src': ["'self'"],
  'manifest-src': ["'self'"],
  // The second and the third are how the app's own window asks its engine.
  'connect-src': ["'self'", 'ipc:', 'http://ipc.localhost'],
  'base-uri': ["'none'"],
  'form-action': ["'none'"],
};

/** As it stands in the page, and in `tauri.conf.json` for the app's own window. */
export const CONTENT = Object.entries(POLICY)
  .map(([directive, sources]) => `${directive} ${sources.join(' ')}`)
  .join('; ');

export function contentSecurityPolicy(): Plugin {
  return {
    name: 'content-security-policy',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler: () => [
        {
          tag: 'meta',
          attrs: { 'http-equiv': 'Content-Security-Policy', content: CONTENT },
          injectTo: 'head-prepend',
        },
        { tag: 'meta', attrs: { name: 'referrer', content: 'same-origin' }, injectTo: 'head-prepend' },
      ],
    },
  };
}
