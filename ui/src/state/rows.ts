import type { Report, ReportSection, Row } from '../backend/model';

/** A section of the engine's report by its id. */
export const section = (report: Report | null | undefined, id: string): ReportSection | undefined =>
  report?.sections.find((one) => one.id === id);

export const rowOf = (rows: readonly Row[] | undefined, id: string): Row | undefined =>
  rows?.find((row) => row.id === id);

/** What of a row is set large, and what follows it. */
export const partsOf = (row: Row | undefined): { lead: string; rest: string } =>
  row?.cell.kind === 'parts' ? row.cell : { lead: row?.value ?? '', rest: '' };
