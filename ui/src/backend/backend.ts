import type { OfflineTold } from './offline';
import type { Store } from './store';
import type { FieldError, Operations, PaperOperations, Progress, WatchedOperations } from './types';

export type Request<Name extends keyof Operations> = Operations[Name]['request'];
export type Answer<Name extends keyof Operations> = Operations[Name]['answer'];

export type Question<Name extends keyof WatchedOperations> = WatchedOperations[Name]['request'];
export type Found<Name extends keyof WatchedOperations> = WatchedOperations[Name]['answer'];

export type Sheets = PaperOperations['sheets'];

/** What the screens need from whatever computes and keeps the job. */
export interface Backend {
  readonly name: 'tauri' | 'wasm';
  /** Runs one operation of the api; rejects with `Refused` where the answer names errors. */
  call<Name extends keyof Operations>(operation: Name, request: Request<Name>): Promise<Answer<Name>>;
  /** Runs one operation that takes long enough to be watched. `signal` stops it: then it rejects with an
   * `AbortError` and tells no more progress; what was told until then stays what is known. */
  watch<Name extends keyof WatchedOperations>(
    operation: Name,
    request: Question<Name>,
    onProgress: (progress: Progress<Found<Name>>) => void,
    signal: AbortSignal,
  ): Promise<Found<Name>>;
  /** The sheets to print, a picture a page; rejects with `Refused` as `call`. */
  sheets(request: Sheets['request']): Promise<Sheets['answer']>;
  /** The same as one PDF. */
  sheetsPdf(request: Sheets['request']): Promise<Uint8Array<ArrayBuffer>>;
  /** Resolves once what a first map and a drag ask for is computed here; until then the demo alone is answered. */
  ready(): Promise<void>;
  /** Resolves once every operation is answered; until then what a first map and a drag ask for is. */
  whole(): Promise<void>;
  /** Asks in advance, and keeps, what the next start will ask before the engine is there. An engine that is there at once has no
   * need of it. */
  foresee?(questions: (ask: Backend['call']) => Promise<void>): Promise<void>;
  /** Puts a file where the system keeps what was downloaded, and says where; a browser does that by itself. */
  saveFile?(bytes: Uint8Array<ArrayBuffer>, name: string): Promise<string>;
  /** Sees to it that the app works without a signal. */
  keepOffline(told: OfflineTold): Promise<void>;
  /** Where the jobs are kept. */
  readonly store: Store;
}

/** Why a watched operation that was stopped has no answer. */
export function stopped(): DOMException {
  return new DOMException('Stopped.', 'AbortError');
}

/** The engine's answer that something in the request can't be used, field by field. */
export class Refused extends Error {
  constructor(
    readonly errors: FieldError[],
    /** How many more there are. */
    readonly unlisted = 0,
  ) {
    super(errors.map((e) => `${e.field || e.path}: given ${e.given}; allowed: ${e.allowed}`).join('\n'));
    this.name = 'Refused';
  }
}

type Envelope<A> = { ok: A } | { error: { errors: FieldError[]; unlisted: number } };

/** Answers that become a part of the job or of a file: they are taken as they stand. */
const VERBATIM: ReadonlySet<string> = new Set([
  'read_kept',
  'open_job',
  'note_history',
  'merge_jobs',
  'settle_conflict',
  'demo',
  'blank',
  'file_text',
  'job_text',
  'job_codes',
  'code_picture',
  'read_codes',
  'find_codes',
  'sheets',
  'log_readings',
  'log_csv',
  'points_file',
  'calls_calendar',
  'look_into_geojson',
  'import_geojson',
] satisfies (keyof Operations | keyof WatchedOperations | keyof PaperOperations)[]);

/** A space within a length such as 5' 7 1/2", as it stands in JSON. */
const WITHIN_LENGTH = /(\d'?) (?=\d+(?: \d+\/\d+|\/\d+)?\\")/g;

/** A text for the screen whose lengths do not break between feet, inches and their fraction. */
export const unbroken = (json: string) => json.replace(WITHIN_LENGTH, '$1\u00a0');

/** Marks that turn the direction of writing (Unicode Standard Annex 9): in a name they would turn the figures behind it. */
const TURNS = /[\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

/** A text for the screen in which no name turns the writing round, as on paper and on the terminal. */
export const unturned = (json: string) => json.replace(TURNS, '\ufffd');

/** The same of both, of words that came with what is taken as it stands. */
export const forScreen = <A>(words: A): A => JSON.parse(unbroken(unturned(JSON.stringify(words)))) as A;

/** Opens the envelope that every operation answers in. */
export function opened<A>(text: string, operation: string): A {
  const envelope = JSON.parse(VERBATIM.has(operation) ? text : unbroken(unturned(text))) as Envelope<A>;
  if ('error' in envelope) throw new Refused(envelope.error.errors, envelope.error.unlisted);
  return envelope.ok;
}
