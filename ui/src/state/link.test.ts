import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { expect, it } from 'vitest';
import { packed, unpacked } from './link';

const text = JSON.stringify({ name: 'Hang über dem Bach – 梅', notes: 'x'.repeat(5000) });

it('is what zlib unpacks, and unpacks what zlib packed', async () => {
  const data = await packed(text);
  expect(data).toMatch(/^[\w-]+$/);
  expect(inflateRawSync(Buffer.from(data, 'base64url')).toString('utf8')).toBe(text);
  expect(await unpacked(deflateRawSync(text, { level: 9 }).toString('base64url'))).toBe(text);
});

it('refuses what was cut off, is no such thing, or swells without end', async () => {
  const data = await packed(text);
  for (const wrong of ['', 'a', '%%%', data.slice(0, -4)])
    await expect(unpacked(wrong), wrong).rejects.toThrow();
  const swells = deflateRawSync(Buffer.alloc(40 * 1024 * 1024)).toString('base64url');
  await expect(unpacked(swells)).rejects.toThrow(/larger/);
});
