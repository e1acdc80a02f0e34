import type { Deletion } from './types';

/** What the list of jobs shows of one. */
export interface Card {
  id: string;
  name: string;
  made_at: number;
  changed_at: number;
  opened_at: number;
  /** Since when it lies in the bin. */
  binned_at: number | null;
  /** By which it came into the bin, where somebody deleted it on another device. */
  deletion?: Deletion | null;
  /** Whether it began as the demo: an untouched one is opened again instead of making another. */
  demo?: boolean;
}

/** A whole job as it stood after edit `n`. */
export interface Version {
  n: number;
  at: number;
}

/** A save of the time when there was one job. */
export interface OldSave {
  at: number;
  text: string;
}

export interface AtStart {
  /** Names this installation in the ids of its jobs. */
  device: string;
  cards: Card[];
  /** Oldest first. */
  old: OldSave[];
}

/** All that is kept of one job but the texts of its versions. */
export interface KeptJob {
  /** Oldest first. */
  versions: Version[];
  /** Names of what could not be used and was set aside. */
  aside: string[];
  /** The journal's lines (see `state/entries.ts`), in no particular order. */
  journal: string[];
}

/** Somebody else wrote an edit of the same number. */
export class Conflict extends Error {
  constructor() {
    super('Another window changed this job.');
    this.name = 'Conflict';
  }
}

/**
 * Where jobs are kept: the browser's database or the app's folder. It keeps and hands out; what a line or a version
 * means is for `state/` to say, alike for both. Whatever writes resolves once it outlives the program, and only a
 * job that is held is written to.
 */
export interface Store {
  /** Whether a job can be taken from the window that has it. */
  readonly canTake: boolean;
  /** Removes half-written leftovers; tells what there is. */
  start(): Promise<AtStart>;
  cards(): Promise<Card[]>;
  /** Makes a job with its first version, number 0; false where the id is taken. */
  create(card: Card, text: string): Promise<boolean>;
  /** Takes a job for this window; null where another one has it. `lost` tells when it was taken away. */
  hold(job: string, take: boolean, lost: () => void): Promise<Hold | null>;
  read(job: string): Promise<KeptJob>;
  /** A version as text; null where it is not there or is no text. */
  version(job: string, n: number): Promise<string | null>;
  aside(job: string, name: string): Promise<string | null>;
  /** Adds a line to the journal; what can begin at once begins before this returns. Rejects with `Conflict` where that
   * number is taken. */
  append(job: string, n: number, line: string): Promise<void>;
  /** Keeps a whole version; only then lets the versions in `drop` go, and of the journal all up to `journalFrom`. */
  snapshot(job: string, version: Version, text: string, drop: number[], journalFrom: number): Promise<void>;
  putCard(card: Card): Promise<void>;
  /** Puts a version where it is in nobody's way; tells its name. */
  setAside(job: string, n: number): Promise<string>;
  /** Deletes a job for good. */
  remove(job: string): Promise<void>;
  forgetOld(): Promise<void>;
  /** Keeps a photo's bytes; tells the name by which jobs refer to it, its SHA-256. */
  putPhoto(bytes: Uint8Array<ArrayBuffer>): Promise<string>;
  /** A photo's bytes; null where it is not here. */
  photo(sha256: string): Promise<Uint8Array<ArrayBuffer> | null>;
  hasPhoto(sha256: string): Promise<boolean>;
  /** Deletes every photo but those named. */
  forgetOtherPhotos(named: string[]): Promise<void>;
  /** Forgets handles that may be broken; the next call opens them anew. */
  refresh(): void;
  /** Tells when what was kept may be gone, as when the user clears the site's data. */
  onCleared(then: () => void): void;
}

export interface Hold {
  letGo(): void;
}
