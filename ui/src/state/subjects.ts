import type { FindingText, Job, Subject } from '../backend/model';
import { jobAt, type JobPath, type Pointer } from './pointer';

export function sameSubject(a: Subject | null | undefined, b: Subject | null | undefined): boolean {
  if (!a || !b || a.kind !== b.kind) return false;
  return ('id' in a ? a.id : '') === ('id' in b ? b.id : '');
}

export function subjectKey(subject: Subject): string {
  return 'id' in subject ? `${subject.kind}:${subject.id}` : subject.kind;
}

/** The subject of a key. */
export function keySubject(key: string): Subject {
  const cut = key.indexOf(':');
  return (cut < 0 ? { kind: key } : { kind: key.slice(0, cut), id: key.slice(cut + 1) }) as Subject;
}

/** What the items of a list of the job are to the survey log. */
const LIST_KINDS = {
  '/yard/marks': 'mark',
  '/yard/measurements': 'reading',
  '/yard/slopes': 'reading',
  '/yard/spot_heights': 'reading',
  '/yard/obstacles': 'obstacle',
  '/yard/overhead_lines': 'overhead_line',
  '/yard/buried_services': 'buried_service',
} as const satisfies Partial<Record<JobPath, Subject['kind']>>;

/** The page with the history of a thing. */
export function historyPageOf(subject: Subject): string {
  return `measure/log/${encodeURIComponent(subjectKey(subject))}`;
}

/** The page with the history of an item of a list; null for what has none. */
export function historyPage(list: string, id: unknown): string | null {
  const kind = list in LIST_KINDS ? LIST_KINDS[list as keyof typeof LIST_KINDS] : null;
  return kind && typeof id === 'string' ? historyPageOf({ kind, id } as Subject) : null;
}

const FIXED_NAMES: Partial<Record<Subject['kind'], string>> = {
  job: 'The whole job',
  ground: 'The ground',
  mast: 'The mast',
  base: 'The base',
  ring: 'The ring',
  boundary: 'The boundary',
};

/** What a subject is called. */
export function subjectName(subject: Subject, job: Job): string {
  if (!('id' in subject)) return FIXED_NAMES[subject.kind] ?? subject.kind;
  const { id } = subject;
  const named = (list: { id: string; name: string }[]) => list.find((item) => item.id === id)?.name;
  switch (subject.kind) {
    case 'leg':
      return `${capital(id)} leg`;
    case 'stake':
      return `Stake, ${id.replace('-', ' ')}`;
    case 'guy':
      return guyName(id, job);
    case 'mark':
      return `Mark ${id}`;
    case 'reading':
      return readingName(id, job);
    case 'obstacle':
      return named(job.yard.obstacles) ?? id;
    case 'overhead_line':
      return named(job.yard.overhead_lines) ?? id;
    case 'buried_service':
      return named(job.yard.buried_services) ?? id;
  }
}

/** A reading by its kind and its place in its list: nobody knows it by its name. */
function readingName(id: string, job: Job): string {
  const at = (list: { id: string }[]) => list.findIndex((one) => one.id === id) + 1;
  const [slope, height] = [at(job.yard.slopes), at(job.yard.spot_heights)];
  if (slope > 0) return `Slope reading ${slope}`;
  if (height > 0) return `Spot height ${height}`;
  const between = job.yard.measurements.find((one) => one.id === id);
  return between ? `Between ${between.from} and ${between.to}` : 'A reading';
}

/** The level of a guy, which is named by its level and its number. */
const levelOf = (id: string) => id.slice(0, id.lastIndexOf('-'));

function guyName(id: string, job: Job): string {
  const number = id.slice(id.lastIndexOf('-') + 1);
  const level = job.rig.guy_levels.find((one) => one.id === levelOf(id));
  return level ? `${level.name} ${number}` : `Guy ${number}`;
}

const capital = (word: string) => word.charAt(0).toUpperCase() + word.slice(1);

/** The page on which a subject is entered. */
export function subjectPage(subject: Subject, job: Job): string | null {
  const at = (list: { id: string }[]) =>
    'id' in subject ? list.findIndex((item) => item.id === subject.id) : -1;
  const page = (where: string, index: number) => (index < 0 ? null : `measure/${where}/${index}`);
  switch (subject.kind) {
    case 'obstacle':
      return page('things', at(job.yard.obstacles));
    case 'overhead_line':
      return page('wires', at(job.yard.overhead_lines));
    case 'buried_service':
      return page('buried', at(job.yard.buried_services));
    case 'mark':
      return page('marks', at(job.yard.marks));
    case 'reading': {
      const slope = at(job.yard.slopes);
      if (slope >= 0) return `measure/slopes/${slope}`;
      return page('heights', at(job.yard.spot_heights)) ?? page('between', at(job.yard.measurements));
    }
    case 'boundary':
      return 'measure/boundary';
    case 'ground':
      return 'measure/slopes';
    case 'base':
    case 'leg':
      return 'parts/base';
    case 'stake':
      return 'parts/stakes';
    case 'guy': {
      const level = job.rig.guy_levels.findIndex((one) => one.id === levelOf(subject.id));
      return level < 0 ? 'parts/guys' : `parts/guys/${level}`;
    }
    case 'mast':
      return 'parts/tubes';
    case 'ring':
      return 'parts/strands';
    case 'job':
      return null;
  }
}

/** Findings about the whole job, by the page on which what they ask for is entered. */
const RULE_PAGES: Record<string, string | undefined> = {
  true_north_unknown: 'measure/place',
  declination_out_of_date: 'measure/place',
  buried_services_unknown: 'measure/buried',
  buried_answer_none: 'measure/buried',
  buried_answer_old: 'measure/buried',
  overhead_lines_unknown: 'measure/wires',
  raising_not_said: 'build/raising',
  hinge_unheld: 'build/raising',
  stop_guy_not_fast: 'build/raising',
  guy_too_short_until_plumb: 'build/raising',
  base_faces_elsewhere: 'build/raising',
  stop_guys_not_set_before: 'build/raising',
  side_guys_not_set_before: 'build/raising',
  far_guys_set_before: 'build/raising',
  raising_step_missing: 'build/raising',
  raising_no_such_guy: 'build/raising',
  raising_strand_thickness_unknown: 'parts/strands',
  back_leg_in_the_way: 'parts/base',
  edge_stake_has_no_place: 'build/raising',
  no_stop_guy: 'build/raising',
  side_not_held: 'build/raising',
};

/** What stands in the way of turning the mast up is mended by another way, wherever its part is entered. */
const OF_RAISING = /^(tilt|lay_down|slack_rope|loose_end)_/;

/** The page on which something can be done about a finding. */
export const findingPage = (
  { rule, subject }: Pick<FindingText, 'rule' | 'subject'>,
  job: Job,
): string | null => RULE_PAGES[rule] ?? (OF_RAISING.test(rule) ? 'build/raising' : subjectPage(subject, job));

/** Pointer of a subject whose points can be dragged on the map. */
export function subjectPointer(subject: Subject, job: Job): Pointer<unknown> | null {
  if (subject.kind === 'boundary') return jobAt('/yard/boundary');
  const page = subjectPage(subject, job)?.match(/^measure\/(things|wires|buried|marks|heights)\/(\d+)$/);
  const lists = {
    things: 'obstacles',
    wires: 'overhead_lines',
    buried: 'buried_services',
    marks: 'marks',
    heights: 'spot_heights',
  } as const;
  return page ? jobAt(`/yard/${lists[page[1] as keyof typeof lists]}/${Number(page[2])}`) : null;
}

export function findingsOf(findings: FindingText[], subject: Subject): FindingText[] {
  return findings.filter((f) => sameSubject(f.subject, subject) || sameSubject(f.against, subject));
}
