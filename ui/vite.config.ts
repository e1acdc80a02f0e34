import { svelte } from '@sveltejs/vite-plugin-svelte';
import { VitePWA } from 'vite-plugin-pwa';
import { defineConfig } from 'vitest/config';
import { contentSecurityPolicy } from './csp';
import { manifest } from './manifest';
import { preloadFirst } from './preload';

export default defineConfig({
  // Relative addresses, so that the same files serve from any folder of any host and from the app itself.
  base: './',
  clearScreen: false,
  plugins: [
    svelte(),
    contentSecurityPolicy(),
    preloadFirst(),
    VitePWA({
      manifest,
      // Registered by `backend/offline.ts`, in a browser only: the app's own window has its files with it.
      injectRegister: false,
      // A newer Mastwright waits until somebody asks for it: nothing is reloaded under an entry.
      registerType: 'prompt',
      workbox: {
        // Everything: who stands in the yard without a signal prints, too.
        globPatterns: ['**/*.{html,js,css,wasm,json,svg,png,woff2}'],
        globIgnores: ['icons/**'],
        maximumFileSizeToCacheInBytes: 20 * 1024 * 1024,
        navigateFallback: 'index.html',
        cleanupOutdatedCaches: true,
        // The very first visit is answered from here, too, as soon as all is fetched.
        clientsClaim: true,
      },
    }),
  ],
  // The engine is one ES module with its .wasm beside it; a classic worker could not import it.
  worker: { format: 'es' },
  build: { outDir: 'dist', emptyOutDir: true, target: 'es2022', assetsInlineLimit: 0 },
  server: { port: 5173, strictPort: true },
  preview: { port: 4173, strictPort: true },
  test: { include: ['src/**/*.test.ts'], environment: 'node' },
});
