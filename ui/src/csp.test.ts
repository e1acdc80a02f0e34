import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { CONTENT } from '../csp';

test('the app’s own window has the same policy as the page', () => {
  const settings = JSON.parse(readFileSync('../src-tauri/tauri.conf.json', 'utf8'));
  expect(settings.app.security.csp).toBe(CONTENT);
});
