import type { Answer, Capture, Instrument, Job, LogEntry, Request } from '../backend/model';

/** How a change came about; a value that no capture names came from `instrument`. */
export interface By {
  instrument?: Instrument;
  /** By pointers into the job as it stands after the change. */
  captures?: readonly Capture[];
}

/** The log of one opened job. It only grows: undo takes no entry away. */
export interface LogBook {
  entries: LogEntry[];
}

export type LogAnswer = Answer<'log_readings'>;
/** Which places are open is for the app to say. */
export type LogRequest = Omit<Request<'log_readings'>, 'open'>;

interface Note {
  book: LogBook;
  job: Job;
  by: By;
  at: Date;
}

/** Edits that follow each other this quickly, such as nudges of a point, are one reading. */
const QUIET_MS = 1500;

/**
 * Keeps the survey log up to the job, whichever way the job was changed. The engine says what the log lacks; since
 * it compares the job with the log and not with the job before, nothing that was missed once stays missed.
 */
export class SurveyLog {
  #waiting: Note[] = [];
  #timer: ReturnType<typeof setTimeout> | undefined;
  #busy: Promise<void> | null = null;

  constructor(
    private readonly ask: (request: LogRequest) => Promise<LogAnswer>,
    private readonly who: () => string,
    private readonly added: (book: LogBook, answer: LogAnswer) => void,
  ) {}

  /** Notes that the job stands like this now. */
  note(book: LogBook, job: Job, by: By = {}): void {
    const last = this.#waiting.at(-1);
    if (last && alike(last, book, by)) this.#waiting.pop();
    this.#waiting.push({ book, job, by, at: new Date() });
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.flush(), QUIET_MS);
  }

  /** Writes everything noted so far. */
  flush(): Promise<void> {
    clearTimeout(this.#timer);
    this.#busy ??= this.#write().finally(() => (this.#busy = null));
    return this.#busy;
  }

  async #write(): Promise<void> {
    for (let note = this.#waiting.shift(); note; note = this.#waiting.shift()) {
      const { book, job, by, at } = note;
      try {
        const answer = await this.ask({
          job: { ...job, log: book.entries },
          taken_at: withZone(at),
          who: this.who(),
          instrument: by.instrument ?? 'typed',
          captures: [...(by.captures ?? [])],
        });
        book.entries = [...book.entries, ...answer.entries];
        this.added(book, answer);
      } catch {
        // A job that can't be read yet is not logged; what it holds comes with the next change that can.
      }
    }
  }
}

/** Captured values belong to their own change; all else that comes quickly is one. */
function alike(last: Note, book: LogBook, by: By): boolean {
  const plain = !last.by.captures?.length && !by.captures?.length;
  return plain && last.book === book && last.by.instrument === by.instrument;
}

/** `2026-05-01T18:30:00+02:00`: the hour on the wall, with the zone of this phone at that time. */
export function withZone(at: Date): string {
  const minutes = -at.getTimezoneOffset();
  const wall = new Date(at.getTime() + minutes * 60_000).toISOString().slice(0, 19);
  const two = (n: number) => String(Math.floor(Math.abs(n))).padStart(2, '0');
  return `${wall}${minutes < 0 ? '-' : '+'}${two(minutes / 60)}:${two(minutes % 60)}`;
}
