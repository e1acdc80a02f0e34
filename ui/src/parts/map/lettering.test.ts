import { beforeEach, expect, it, vi } from 'vitest';
import { shiftInside } from './lettering';

// Without a canvas a letter counts 0.62 of its height: ten letters of 10 px are 62 px long.
beforeEach(() => vi.stubGlobal('document', {}));
const shift = (x: number, align: 'start' | 'middle' | 'end') => shiftInside(x, 'ten letter', align, 10, 200);

it('leaves a text that is wholly inside', () => {
  expect([shift(100, 'start'), shift(100, 'middle'), shift(100, 'end')]).toEqual([0, 0, 0]);
});

it('moves a text off either edge', () => {
  expect(shift(40, 'end')).toBeCloseTo(26);
  expect(shift(190, 'middle')).toBeCloseTo(-25);
  expect(shift(190, 'start')).toBeCloseTo(-56);
});

it('leaves what lies outside the picture', () => {
  expect([shift(-1, 'end'), shift(201, 'start')]).toEqual([0, 0]);
});
