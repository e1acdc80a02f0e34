import type { Deletion, JobFate } from '../backend/model';

/** Nobody deleted it. */
export const NO_FATE: JobFate = { deleted: [], kept: [] };

/** With one more deletion of it. */
export function withDeletion(fate: JobFate, deletion: Deletion): JobFate {
  return { ...fate, deleted: [...fate.deleted, deletion] };
}

/** Somebody wants it back: every deletion that is known of is taken back. */
export function takenBack(fate: JobFate): JobFate {
  const known = new Set(fate.kept.map(nameOf));
  const more = fate.deleted.map(({ by }) => by).filter((by) => !known.has(nameOf(by)));
  return more.length === 0 ? fate : { ...fate, kept: [...fate.kept, ...more] };
}

/** Whether both say the same, whatever the order. */
export function sameFate(a: JobFate, b: JobFate): boolean {
  return told(a) === told(b);
}

const nameOf = ({ at_ms, device }: Deletion['by']) => `${at_ms} ${device}`;

const told = ({ deleted, kept }: JobFate) =>
  JSON.stringify([
    deleted.map(({ by, seen }) => [nameOf(by), ...seen.map(nameOf).sort()].join('\n')).sort(),
    kept.map(nameOf).sort(),
  ]);
