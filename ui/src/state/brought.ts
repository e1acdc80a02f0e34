import type { Came } from '../backend/model';

/** What a round of bringing devices together did. */
export interface Brought {
  at: Date;
  /** What came, of all jobs. */
  came: readonly Came[];
  /** Names of jobs that are here for the first time. */
  taken: readonly string[];
  /** Jobs that somebody deleted, and that are in the bin here since. */
  went: readonly { name: string; device_name: string }[];
  /** Jobs that somebody wants back, and that came out of the bin here. */
  back: readonly string[];
  /** How many photos came. */
  photos: number;
  /** Whether anything went from here to the others. */
  sent: boolean;
  /** How many entries wait for somebody to say which holds. */
  asked: number;
}

/** In words: `Brought together with Laptop, 10:42: 2 readings from there.` */
export function broughtSays({ at, came, taken, went, back, photos, sent, asked }: Brought): string {
  const who = [...new Set(came.map(({ device_name }) => device_name || 'another device'))].sort();
  const time = at.toLocaleTimeString(undefined, { hour: '2-digit', minute: '2-digit' });
  const total = (of: 'readings' | 'others') => came.reduce((sum, one) => sum + one[of], 0);
  const [readings, others] = [total('readings'), total('others')];
  const counted = [
    readings > 0 && counts(readings, 'reading'),
    others > 0 && counts(others, readings > 0 ? 'other entry' : 'entry'),
    photos > 0 && counts(photos, 'photo'),
  ].filter((one) => one !== false);
  const called = (name: string) => `“${name || 'Job without a name'}”`;
  const jobs = [
    ...taken.map((name) => `${called(name)} is here now, too.`),
    ...went.map(
      ({ name, device_name }) =>
        `${called(name)} was deleted on ${device_name || 'another device'}: it lies in the bin here.`,
    ),
    ...back.map((name) => `${called(name)} is wanted back: it is out of the bin.`),
  ];
  const first =
    counted.length > 0
      ? `${listed(counted)} from there.`
      : jobs.length > 0
        ? ''
        : sent
          ? 'what was entered here is there now.'
          : 'nothing was new.';
  const waits = asked === 0 ? '' : `${counts(asked, 'entry')} written on both: say which holds.`;
  const head = `Brought together${who.length > 0 ? ` with ${listed(who)}` : ''}, ${time}`;
  return [first === '' ? `${head}.` : `${head}: ${first}`, ...jobs, waits].filter(Boolean).join(' ');
}

function counts(count: number, what: string): string {
  return `${count} ${count === 1 ? what : what.replace(/y$/, 'ie')}${count === 1 ? '' : 's'}`;
}

function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
