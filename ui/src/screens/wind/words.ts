import type { Report, ReportSection, Row } from '../../backend/model';

/** A section of the engine's report by its id. */
export const section = (report: Report | undefined, id: string): ReportSection | undefined =>
  report?.sections.find((one) => one.id === id);

export const rowOf = (rows: readonly Row[] | undefined, id: string): Row | undefined =>
  rows?.find((row) => row.id === id);

/** The first sentence, which is set large, and what follows it. */
export function split(text: string, mark: string): [string, string] {
  const at = text.indexOf(mark);
  return at < 0 ? [text, ''] : [text.slice(0, at), text.slice(at + mark.length)];
}
