import type { Change } from './patch';

/** One edit as the journal keeps it. */
export interface Entry {
  /** Counts the edits of the job, without a gap. */
  n: number;
  /** Which sitting made it: each opening of a job is one. */
  by: string;
  /** The edit after which that sitting opened the job: what it saw when it began. */
  since: number;
  at: number;
  changes: Change[];
}

/** `n sum json`: the number for whoever trims the journal, the check sum for whoever reads it again. */
export function lineOf(entry: Entry): string {
  const json = JSON.stringify(entry);
  return `${entry.n} ${checkSum(json)} ${json}`;
}

/** None where the line is torn or damaged. */
export function entryOf(line: string): Entry | null {
  const [n, sum] = line.split(' ', 2);
  if (n === undefined || sum === undefined) return null;
  const json = line.slice(n.length + sum.length + 2);
  if (checkSum(json) !== sum) return null;
  const entry = JSON.parse(json) as Entry;
  return String(entry.n) === n ? entry : null;
}

/** The entries that lead on from edit `n`, in order and without a gap. Of two with one number the first counts: the
 * store gives what it confirmed before what was only on its way. */
export function leadingOn(n: number, entries: readonly Entry[]): Entry[] {
  const found: Entry[] = [];
  let last = entries.find((entry) => entry.n === n);
  for (;;) {
    const next = entries.find((entry) => entry.n === n + 1 && follows(entry, last, n));
    if (!next) return found;
    found.push(next);
    last = next;
    n += 1;
  }
}

/** A sitting goes on from its own edits, and begins from what it saw; never from an edit that it did not see. */
function follows(entry: Entry, last: Entry | undefined, n: number): boolean {
  return entry.since === n || last === undefined || entry.by === last.by;
}

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let c = byte;
  for (let bit = 0; bit < 8; bit += 1) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c >>> 0;
});

/** CRC-32 as in ISO 3309 (IEEE 802.3), over UTF-8, in eight hexadecimal digits. */
export function checkSum(text: string): string {
  let c = 0xffffffff;
  for (const byte of new TextEncoder().encode(text)) c = (TABLE[(c ^ byte) & 0xff] ?? 0) ^ (c >>> 8);
  return ((c ^ 0xffffffff) >>> 0).toString(16).padStart(8, '0');
}
