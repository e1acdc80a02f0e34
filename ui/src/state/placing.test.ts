import { expect, it } from 'vitest';
import type { Job, Plan } from '../backend/model';
import { bearingTo, nudged, wholeTurn, withFront } from './placing';

const job = {
  units: { system: 'imperial', inch_fraction: 16 },
  placement: { mast: { by: 'coordinates', east_m: 1, north_m: 2 }, front_bearing_deg: 10, guy_turn_deg: 0 },
} as Job;
const plan = { mast: { east_m: 9, north_m: 9 } } as Plan;

it('reckons bearings clockwise from north', () => {
  expect(bearingTo([0, 0], [0, 1])).toBe(0);
  expect(bearingTo([0, 0], [1, 0])).toBe(90);
  expect(wholeTurn(bearingTo([0, 0], [-1, 0]))).toBe(270);
});

it('keeps bearings within a whole turn', () => {
  expect(wholeTurn(-0.04)).toBe(0);
  expect(wholeTurn(359.97)).toBe(0);
  expect(withFront(job, 725).placement.front_bearing_deg).toBe(5);
});

it('nudges by four inches, to and fro without drift', () => {
  const there = nudged(job, plan, 1, 0);
  expect(there.placement.mast).toEqual({ by: 'coordinates', east_m: 1.1016, north_m: 2 });
  expect(nudged(there, plan, -1, 0).placement.mast).toEqual(job.placement.mast);
});
