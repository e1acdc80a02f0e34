import { expect, it, vi } from 'vitest';
import { kept, scopeTo } from './kept';
import { renamed } from './renamed';
import { typedTexts } from './typed.svelte';

/** The browser's local storage: its texts are its own members, its methods are not. */
function storageOf(texts: Record<string, string>): object {
  const methods = {
    getItem: (key: string) => texts[key] ?? null,
    setItem: (key: string, text: string) => void (texts[key] = text),
    removeItem: (key: string) => void Reflect.deleteProperty(texts, key),
  };
  return new Proxy(texts, {
    get: (_, name: string) => Reflect.get(methods, name) as unknown,
  });
}

it('knows the places whose names changed, and no others', () => {
  expect(renamed('/rig/guy_levels/1/holdfast')).toBe('/rig/guy_levels/1/anchor');
  expect(renamed('/rig/guy_levels/0/holdfast/depth_m')).toBe('/rig/guy_levels/0/anchor/depth_m');
  expect(renamed('/rig/guy_levels/0/anchors/anchors/2')).toBe('/rig/guy_levels/0/anchor_layout/anchors/2');
  for (const same of ['/as_built/anchors/0', '/rig/guy_levels/0/anchor/depth_m', '/rig/guy_levels', '/notes'])
    expect(renamed(same)).toBe(same);
});

it('what was half entered before is found by the names of now', () => {
  const texts = {
    'mastwright:job:a:draft:/rig/guy_levels/0/holdfast': '{"value":{"kind":"plate"}}',
    'mastwright:job:a:draft:/yard/marks': '{}',
    'mastwright:job:b:draft:/rig/guy_levels/0/holdfast': '{"value":{"kind":"screw"}}',
    'mastwright:job:a:typed': '{"/rig/guy_levels/0/holdfast/depth_m":{"text":"2 f","problem":""}}',
  };
  vi.stubGlobal('localStorage', storageOf(texts));
  scopeTo('a');
  typedTexts.turn();
  expect(kept('draft:/rig/guy_levels/0/anchor')).toEqual({ value: { kind: 'plate' } });
  expect(kept('draft:/rig/guy_levels/0/holdfast')).toBeNull();
  expect(kept('draft:/yard/marks')).toEqual({});
  expect(typedTexts.get('/rig/guy_levels/0/anchor/depth_m')?.text).toBe('2 f');
  // Another job's are brought up when it is opened.
  scopeTo('b');
  expect(kept('draft:/rig/guy_levels/0/anchor')).toEqual({ value: { kind: 'screw' } });
});
