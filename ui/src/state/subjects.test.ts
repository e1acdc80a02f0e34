import { expect, it } from 'vitest';
import type { Job } from '../backend/model';
import { findingPage } from './subjects';

const job = {} as Job;

it.each([
  ['true_north_unknown', 'measure/place'],
  ['declination_out_of_date', 'measure/place'],
  ['buried_services_unknown', 'measure/buried'],
])('what %s asks of the whole job is entered on %s', (rule, page) => {
  expect(findingPage({ rule, subject: { kind: 'job' } }, job)).toBe(page);
});

it.each([
  ['tilt_near_post', 'build/raising'],
  ['lay_down_blocked', 'build/raising'],
  ['loose_end_on_ground', 'build/raising'],
  ['slack_rope_over_thing', 'build/raising'],
  ['raising_strand_thickness_unknown', 'parts/strands'],
  ['back_leg_in_the_way', 'parts/base'],
  ['loose_strand_reach', 'parts/tubes'],
])('what turning up asks by %s is mended on %s', (rule, page) => {
  expect(findingPage({ rule, subject: { kind: 'mast' } }, job)).toBe(page);
});

it('another finding leads to its subject, and one of the whole job nowhere', () => {
  expect(findingPage({ rule: 'slope_too_steep', subject: { kind: 'base' } }, job)).toBe('parts/base');
  expect(findingPage({ rule: 'another', subject: { kind: 'job' } }, job)).toBeNull();
});
