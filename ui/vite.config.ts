import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  // Relative addresses, so that the same files serve from any folder of any host and from the app itself.
  base: './',
  clearScreen: false,
  plugins: [svelte()],
  // The engine is one ES module with its .wasm beside it; a classic worker could not import it.
  worker: { format: 'es' },
  build: { outDir: 'dist', emptyOutDir: true, target: 'es2022', assetsInlineLimit: 0 },
  server: { port: 5173, strictPort: true },
  preview: { port: 4173, strictPort: true },
  test: { include: ['src/**/*.test.ts'], environment: 'node' },
});
