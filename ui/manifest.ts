import type { ManifestOptions } from 'vite-plugin-pwa';

/** What a browser needs to know to put Mastwright on the home screen (W3C Web Application Manifest). Every address is
 * relative, so that it holds wherever the files are served from. */
export const manifest: Partial<ManifestOptions> = {
  name: 'Mastwright',
  short_name: 'Mastwright',
  description: 'Survey a yard, plan a guyed mast, and stake it out.',
  lang: 'en',
  dir: 'ltr',
  start_url: './',
  scope: './',
  display: 'standalone',
  // As the page's own ground in daylight.
  background_color: '#f7f1e4',
  theme_color: '#f7f1e4',
  categories: ['utilities'],
  // A job's file is opened by a tap on it (W3C, Web Application Manifest, incubations: file handlers).
  file_handlers: [{ action: './', accept: { 'application/json': ['.json'] } }],
  launch_handler: { client_mode: 'focus-existing' },
  icons: [
    { src: 'icons/icon-192.png', sizes: '192x192', type: 'image/png', purpose: 'any' },
    { src: 'icons/icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any' },
    { src: 'icons/masked-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
  ],
};
