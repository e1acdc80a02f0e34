import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction, type StoreNames } from 'idb';
import { Conflict, type Card, type OldSave } from './store';

const NAME = 'mastwright';
const VERSION = 3;

/** A version of a job, or one that was set aside. */
export interface VersionRecord {
  job: string;
  n: number;
  at: number;
  text: string;
}

interface Schema extends DBSchema {
  saves: { key: number; value: OldSave };
  cards: { key: string; value: Card };
  meta: { key: string; value: string };
  versions: { key: [string, number]; value: VersionRecord };
  journal: { key: [string, number]; value: { job: string; n: number; line: string } };
  aside: { key: [string, number]; value: VersionRecord };
  /** Shared by all jobs, each under its SHA-256. */
  photos: { key: string; value: Uint8Array<ArrayBuffer> };
}

export type Handle = IDBPDatabase<Schema>;
type Name = StoreNames<Schema>;

/** The browser's database, opened when it is first needed and again whenever the handle was lost. */
export class Database {
  #open: Handle | null = null;
  #opening: Promise<Handle> | null = null;
  #cleared: () => void = () => undefined;

  /** The handle, if there is one already. */
  get ready(): Handle | null {
    return this.#open;
  }

  open(): Promise<Handle> {
    // A failure is not kept: the next call tries anew.
    this.#opening ??= this.#connect().catch((error: unknown) => {
      this.#opening = null;
      throw error;
    });
    return this.#opening;
  }

  forget(): void {
    this.#open?.close();
    this.#open = this.#opening = null;
  }

  onCleared(then: () => void): void {
    this.#cleared = then;
  }

  async #connect(): Promise<Handle> {
    let db: Handle | null = null;
    // A newer Mastwright in another window, or the user clearing what is kept: do not stand in the way.
    const lost = () => db && this.#lost(db);
    db = await new Promise<Handle>((answer, failed) => {
      openDB<Schema>(NAME, VERSION, {
        upgrade,
        blocked: () =>
          failed(
            new Error('An older Mastwright is open in another window. Close it, then open this one again.'),
          ),
        blocking: lost,
        terminated: lost,
      }).then(answer, failed);
    });
    this.#open = db;
    return db;
  }

  #lost(db: Handle): void {
    db.close();
    if (this.#open !== db) return;
    this.forget();
    this.#cleared();
  }
}

function upgrade(db: Handle): void {
  const has = (name: Name) => db.objectStoreNames.contains(name);
  // Saves of the first version stay until they were taken over.
  if (!has('saves')) db.createObjectStore('saves', { keyPath: 'at' });
  if (!has('cards')) db.createObjectStore('cards', { keyPath: 'id' });
  if (!has('meta')) db.createObjectStore('meta');
  for (const name of ['versions', 'journal', 'aside'] as const)
    if (!has(name)) db.createObjectStore(name, { keyPath: ['job', 'n'] });
  if (!has('photos')) db.createObjectStore('photos');
}

export type Writing<Names extends Name[]> = IDBPTransaction<Schema, Names, 'readwrite'>;

/** Makes changes that are kept all or not at all; resolves once they outlive the program. `change` begins them at once. */
export async function kept<Names extends Name[]>(
  db: Handle,
  names: Names,
  change: (writing: Writing<Names>) => Promise<unknown>[],
): Promise<void> {
  const writing = db.transaction(names, 'readwrite', { durability: 'strict' });
  // A full disk ends in an abort without an error before it; either is told by the end of the transaction.
  const done = writing.done.catch((error: unknown) => {
    throw why(error);
  });
  let requests: Promise<unknown>[];
  try {
    requests = change(writing);
  } catch (error) {
    // It was broken off before anything could be asked of it.
    await done;
    throw why(error);
  }
  await Promise.all([done, ...requests.map((request) => request.catch(() => undefined))]);
}

function why(error: unknown): unknown {
  const name = error instanceof DOMException ? error.name : '';
  if (name === 'ConstraintError') return new Conflict();
  if (name === 'QuotaExceededError') return new Error('The browser has no more room for it.');
  return name === 'AbortError' ? new Error('The browser broke off the save.') : error;
}
