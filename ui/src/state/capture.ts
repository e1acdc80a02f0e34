import type { Capture, Instrument, SampleSummary } from '../backend/model';
import { below, type Doc } from './doc';
import type { Pointer } from './pointer';

/** A value that an instrument put in, as the survey log takes it. */
export function captured(instrument: Instrument, samples: SampleSummary | null): Capture[] {
  return [{ path: '', instrument, samples }];
}

/** Several holds or sights as one: all samples and seconds, the worst of the deviations. */
export function together(summaries: readonly SampleSummary[]): SampleSummary | null {
  const deviations = summaries.map((one) => one.deviation_deg).filter((one) => one !== null);
  if (summaries.length === 0) return null;
  return {
    count: summaries.reduce((sum, one) => sum + one.count, 0),
    seconds: summaries.reduce((sum, one) => sum + one.seconds, 0),
    deviation_deg: deviations.length > 0 ? Math.max(...deviations) : null,
  };
}

export interface Entered<T> {
  /** The field below the item, such as `slope_deg`. */
  name: keyof T & string;
  value: number;
  text: string;
}

/** Puts several numbers of one reading in at once: one step to undo, one line of the log. */
export function acceptAll<T extends object>(
  doc: Doc,
  item: Pointer<T>,
  numbers: Entered<NoInfer<T>>[],
  captures: Capture[],
): void {
  if (doc.mayMiss) {
    for (const { name, value, text } of numbers)
      doc.accept(`${item}/${name}` as Pointer<number>, value, text, captures);
    return;
  }
  const values = Object.fromEntries(numbers.map(({ name, value }) => [name, value]));
  for (const { name, text } of numbers) {
    doc.keepTyped(`${item}/${name}`, null);
    doc.noteText(`${item}/${name}`, text);
  }
  doc.set(
    item,
    { ...(doc.get(item) as T), ...values },
    numbers.flatMap(({ name }) => below(`/${name}`, captures)),
  );
}
