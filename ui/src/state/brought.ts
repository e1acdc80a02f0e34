import type { Came } from '../backend/model';

/** What a round of bringing devices together did. */
export interface Brought {
  at: Date;
  /** What came, of all jobs. */
  came: readonly Came[];
  /** Names of jobs that are here for the first time. */
  taken: readonly string[];
  /** How many photos came. */
  photos: number;
  /** Whether anything went from here to the others. */
  sent: boolean;
  /** How many entries wait for somebody to say which holds. */
  asked: number;
}

/** In words: `Brought together with Laptop, 10:42: 2 readings from there.` */
export function broughtSays({ at, came, taken, photos, sent, asked }: Brought): string {
  const who = [...new Set(came.map(({ device_name }) => device_name || 'another device'))].sort();
  const time = at.toLocaleTimeString(undefined, { hour: '2-digit', minute: '2-digit' });
  const total = (of: 'readings' | 'others') => came.reduce((sum, one) => sum + one[of], 0);
  const [readings, others] = [total('readings'), total('others')];
  const counted = [
    readings > 0 && counts(readings, 'reading'),
    others > 0 && counts(others, readings > 0 ? 'other entry' : 'entry'),
    photos > 0 && counts(photos, 'photo'),
  ].filter((one) => one !== false);
  const new_jobs = taken.map((name) => `“${name || 'Job without a name'}” is here now, too.`);
  const first =
    counted.length > 0
      ? `${listed(counted)} from there.`
      : taken.length > 0
        ? ''
        : sent
          ? 'what was entered here is there now.'
          : 'nothing was new.';
  const waits = asked === 0 ? '' : `${counts(asked, 'entry')} written on both: say which holds.`;
  const head = `Brought together${who.length > 0 ? ` with ${listed(who)}` : ''}, ${time}`;
  return [first === '' ? `${head}.` : `${head}: ${first}`, ...new_jobs, waits].filter(Boolean).join(' ');
}

function counts(count: number, what: string): string {
  return `${count} ${count === 1 ? what : what.replace(/y$/, 'ie')}${count === 1 ? '' : 's'}`;
}

function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
