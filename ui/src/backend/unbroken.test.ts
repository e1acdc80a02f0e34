import { expect, it } from 'vitest';
import { opened, unbroken } from './backend';

it.each([
  [`5' 7 1/2"`, `5'_7_1/2"`],
  [`1/8"`, `1/8"`],
  [`cut 3 3/4" off`, `cut 3_3/4" off`],
  [`13' 2"; 4 m`, `13'_2"; 4 m`],
  [`at 45° 2 guys`, `at 45° 2 guys`],
])('%s keeps together', (text, kept) => {
  expect(JSON.parse(unbroken(JSON.stringify(text)))).toBe(kept.replaceAll('_', '\u00a0'));
});

it('what goes into the job or a file is left as it is', () => {
  const job = JSON.stringify({ ok: { name: `1 1/2" pipe` } });
  for (const operation of [
    'demo',
    'blank',
    'read_kept',
    'file_text',
    'open_job',
    'job_text',
    'import_geojson',
  ])
    expect(opened(job, operation), operation).toEqual({ name: `1 1/2" pipe` });
  expect(opened(job, 'plan')).toEqual({ name: `1\u00a01/2" pipe` });
});

it('no name turns the figures behind it round, and the job keeps it as it is', () => {
  const answer = JSON.stringify({ ok: { text: 'Oak\u202e too near: 12 ft\u2066' } });
  expect(opened(answer, 'plan')).toEqual({ text: 'Oak\ufffd too near: 12 ft\ufffd' });
  expect(opened(answer, 'read_kept')).toEqual({ text: 'Oak\u202e too near: 12 ft\u2066' });
});
