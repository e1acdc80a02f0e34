import { afterEach, expect, test } from 'vitest';
import { freeId, freeLetter, idsAreMadeOn, lettersAreFor } from './ids';

afterEach(() => {
  idsAreMadeOn('');
  lettersAreFor('');
});

test('ids hold device and count, and are taken by no other', () => {
  idsAreMadeOn('k7x2mab');
  expect(freeId([], 'slope')).toBe('slope-k7x2mab-1');
  expect(freeId([{ id: 'slope-1' }, { id: 'slope-k7x2mab-3' }], 'slope')).toBe('slope-k7x2mab-4');
});

test('two devices that began from one list never make the same id', () => {
  const list = [{ id: 'slope-1' }, { id: 'slope-2' }];
  const made = ['k7x2mab', 'b3c4d5e'].map((device) => {
    idsAreMadeOn(device);
    return freeId(list, 'slope');
  });
  expect(new Set(made).size).toBe(2);
});

test('letters of marks are plain where the job was made, and hold the device elsewhere', () => {
  idsAreMadeOn('k7x2mab');
  lettersAreFor('k7x2mab-4');
  expect(freeLetter([{ id: 'A' }])).toBe('B');
  lettersAreFor('b3c4d5e-1');
  expect(freeLetter([{ id: 'A' }])).toBe('B-k7');
});
