import { asked, Database, done } from './database';
import { Conflict, type Card, type Hold, type OldSave, type Store } from './store';

/** How long a window that is being reloaded may still hold its own job. */
const PATIENCE_MS = 1500;

interface VersionRecord {
  job: string;
  n: number;
  at: number;
  text: string;
}

/** The browser's own database, and its locks against other windows. */
export function browserStore(): Store {
  const database = new Database();

  return {
    canTake: true,
    async start() {
      const db = await database.open();
      const reading = db.transaction(['cards', 'saves']);
      const cards = asked(reading.objectStore('cards').getAll()) as Promise<Card[]>;
      const old = asked(reading.objectStore('saves').getAll()) as Promise<OldSave[]>;
      return { device: await deviceOf(db), cards: await cards, old: await old };
    },
    async cards() {
      const db = await database.open();
      return (await asked(db.transaction('cards').objectStore('cards').getAll())) as Card[];
    },
    async create(card, text) {
      const db = await database.open();
      const writing = db.transaction(['cards', 'versions'], 'readwrite', { durability: 'strict' });
      writing.objectStore('cards').add(card);
      writing
        .objectStore('versions')
        .put({ job: card.id, n: 0, at: card.made_at, text } satisfies VersionRecord);
      return taken(done(writing));
    },
    hold,
    async read(job) {
      const db = await database.open();
      const reading = db.transaction(['versions', 'journal', 'aside']);
      const versions = asked(reading.objectStore('versions').getAll(all(job))) as Promise<VersionRecord[]>;
      const journal = asked(reading.objectStore('journal').getAll(all(job))) as Promise<{ line: string }[]>;
      const aside = asked(reading.objectStore('aside').getAll(all(job))) as Promise<VersionRecord[]>;
      return {
        versions: (await versions).map(({ n, at }) => ({ n, at })),
        journal: (await journal).map(({ line }) => line),
        aside: (await aside).map(({ n }) => asideName(n)),
      };
    },
    async version(job, n) {
      const db = await database.open();
      return textOf(await asked(db.transaction('versions').objectStore('versions').get([job, n])));
    },
    async aside(job, name) {
      const db = await database.open();
      const n = Number(/\d+/.exec(name)?.[0]);
      return textOf(await asked(db.transaction('aside').objectStore('aside').get([job, n])));
    },
    append(job, n, line) {
      const write = (db: IDBDatabase) => {
        const writing = db.transaction('journal', 'readwrite', { durability: 'strict' });
        writing.objectStore('journal').add({ job, n, line });
        // Without waiting for anything: so it is done even where the page goes away this very moment.
        writing.commit();
        return done(writing);
      };
      const open = database.ready;
      return open ? refusing(() => write(open)) : database.open().then(write);
    },
    async snapshot(job, { n, at }, text, drop, journalFrom) {
      const db = await database.open();
      // One transaction: either all of it happens or nothing does.
      const writing = db.transaction(['versions', 'journal'], 'readwrite', { durability: 'strict' });
      const versions = writing.objectStore('versions');
      versions.put({ job, n, at, text } satisfies VersionRecord);
      for (const old of drop) if (old !== n) versions.delete([job, old]);
      writing.objectStore('journal').delete(IDBKeyRange.bound([job, -1], [job, journalFrom]));
      await done(writing);
    },
    async putCard(card) {
      const db = await database.open();
      const writing = db.transaction('cards', 'readwrite', { durability: 'strict' });
      // A copy without what the screens wrap around it.
      writing.objectStore('cards').put({ ...card });
      await done(writing);
    },
    async setAside(job, n) {
      const db = await database.open();
      const writing = db.transaction(['versions', 'aside'], 'readwrite', { durability: 'strict' });
      const versions = writing.objectStore('versions');
      const record: unknown = await asked(versions.get([job, n]));
      versions.delete([job, n]);
      if (record) writing.objectStore('aside').put(record);
      await done(writing);
      return asideName(n);
    },
    async remove(job) {
      const db = await database.open();
      const stores = ['cards', 'versions', 'journal', 'aside'] as const;
      const writing = db.transaction(stores, 'readwrite', { durability: 'strict' });
      writing.objectStore('cards').delete(job);
      for (const name of stores.slice(1)) writing.objectStore(name).delete(all(job));
      await done(writing);
    },
    async forgetOld() {
      const db = await database.open();
      const writing = db.transaction('saves', 'readwrite', { durability: 'strict' });
      writing.objectStore('saves').clear();
      await done(writing);
    },
    refresh: () => database.forget(),
    onCleared: (then) => database.onCleared(then),
  };
}

/** Locks need a page from a secure address. Elsewhere the numbers of the edits alone tell of another writer. */
async function hold(job: string, take: boolean, lost: () => void): Promise<Hold | null> {
  if (!('locks' in navigator)) return { letGo: () => undefined };
  const name = `mastwright:${job}`;
  if (take) return request(name, { steal: true }, lost);
  return request(name, { signal: AbortSignal.timeout(PATIENCE_MS) }, lost);
}

function request(name: string, options: LockOptions, lost: () => void): Promise<Hold | null> {
  return new Promise((answer, failed) => {
    let ours = false;
    let over = false;
    const held = navigator.locks.request(
      name,
      options,
      () =>
        new Promise<void>((end) => {
          ours = true;
          answer({
            letGo: () => {
              over = true;
              end();
            },
          });
        }),
    );
    held.catch((error: unknown) => {
      if (ours && !over) lost();
      else if (error instanceof DOMException && /Timeout|Abort/.test(error.name)) answer(null);
      else if (!ours) failed(error as Error);
    });
  });
}

async function deviceOf(db: IDBDatabase): Promise<string> {
  const known: unknown = await asked(db.transaction('meta').objectStore('meta').get('device'));
  if (typeof known === 'string') return known;
  const letters = 'abcdefghijkmnpqrstuvwxyz23456789';
  const drawn = crypto.getRandomValues(new Uint8Array(7));
  const device = Array.from(drawn, (byte) => letters[byte % 32]).join('');
  const writing = db.transaction('meta', 'readwrite', { durability: 'strict' });
  writing.objectStore('meta').put(device, 'device');
  await done(writing);
  return device;
}

/** False where the id was taken. */
async function taken(writing: Promise<void>): Promise<boolean> {
  try {
    await writing;
    return true;
  } catch (error) {
    if (error instanceof Conflict) return false;
    throw error;
  }
}

/** A closed database throws at once instead of rejecting. */
function refusing(write: () => Promise<void>): Promise<void> {
  try {
    return write();
  } catch (error) {
    return Promise.reject(error as Error);
  }
}

const all = (job: string) => IDBKeyRange.bound([job], [job, []]);
const asideName = (n: number) => `job-${String(n).padStart(8, '0')}.json.unreadable`;

function textOf(record: unknown): string | null {
  const text = (record as VersionRecord | undefined)?.text;
  return typeof text === 'string' ? text : null;
}
