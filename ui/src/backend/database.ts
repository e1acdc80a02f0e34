import { Conflict } from './store';

const NAME = 'mastwright';
const VERSION = 2;

/** The browser's database, opened when it is first needed and again whenever the handle was lost. */
export class Database {
  #open: IDBDatabase | null = null;
  #opening: Promise<IDBDatabase> | null = null;
  #cleared: () => void = () => undefined;

  /** The handle, if there is one already. */
  get ready(): IDBDatabase | null {
    return this.#open;
  }

  open(): Promise<IDBDatabase> {
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

  #connect(): Promise<IDBDatabase> {
    return new Promise((answer, failed) => {
      const request = indexedDB.open(NAME, VERSION);
      request.onupgradeneeded = () => upgrade(request.result);
      request.onerror = () => failed(request.error ?? new Error('The browser keeps no data here.'));
      request.onblocked = () =>
        failed(
          new Error('An older Mastwright is open in another window. Close it, then open this one again.'),
        );
      request.onsuccess = () => {
        const db = request.result;
        // A newer Mastwright in another window, or the user clearing what is kept: do not stand in the way.
        db.onversionchange = () => this.#lost(db);
        db.onclose = () => this.#lost(db);
        this.#open = db;
        answer(db);
      };
    });
  }

  #lost(db: IDBDatabase): void {
    db.close();
    if (this.#open !== db) return;
    this.forget();
    this.#cleared();
  }
}

function upgrade(db: IDBDatabase): void {
  const has = (name: string) => db.objectStoreNames.contains(name);
  // Saves of the first version stay until they were taken over.
  if (!has('saves')) db.createObjectStore('saves', { keyPath: 'at' });
  db.createObjectStore('cards', { keyPath: 'id' });
  db.createObjectStore('meta');
  for (const name of ['versions', 'journal', 'aside']) db.createObjectStore(name, { keyPath: ['job', 'n'] });
}

/** What a request is answered. */
export function asked<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((answer, failed) => {
    request.onsuccess = () => answer(request.result);
    request.onerror = () => failed(request.error ?? new Error('The browser refused to read or write.'));
  });
}

/** Resolves once all of a transaction is kept. */
export function done(transaction: IDBTransaction): Promise<void> {
  return new Promise((answer, failed) => {
    transaction.oncomplete = () => answer();
    // An error ends in an abort, too; so does a full disk, without an error before it.
    transaction.onabort = () => {
      const why = transaction.error;
      if (why?.name === 'ConstraintError') failed(new Conflict());
      else if (why?.name === 'QuotaExceededError') failed(new Error('The browser has no more room for it.'));
      else failed(why ?? new Error('The browser broke off the save.'));
    };
  });
}
