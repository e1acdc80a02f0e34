import { kept, type Database, type Handle } from './database';
import { sha256 } from './sha256';
import { Conflict, type Hold, type Store } from './store';

/** How long a window that is being reloaded may still hold its own job. */
const PATIENCE_MS = 1500;

/** The browser's own database, and its locks against other windows. */
export function browserStore(database: Database): Store {
  return {
    canTake: true,
    async start() {
      const db = await database.open();
      const [cards, old, device] = await Promise.all([db.getAll('cards'), db.getAll('saves'), deviceOf(db)]);
      return { device, cards, old };
    },
    cards: async () => (await database.open()).getAll('cards'),
    async create(card, text) {
      const db = await database.open();
      return taken(
        kept(db, ['cards', 'versions'], (writing) => [
          writing.objectStore('cards').add(card),
          writing.objectStore('versions').put({ job: card.id, n: 0, at: card.made_at, text }),
        ]),
      );
    },
    hold,
    async read(job) {
      const db = await database.open();
      const reading = db.transaction(['versions', 'journal', 'aside']);
      const [versions, journal, aside] = await Promise.all([
        reading.objectStore('versions').getAll(all(job)),
        reading.objectStore('journal').getAll(all(job)),
        reading.objectStore('aside').getAll(all(job)),
      ]);
      return {
        versions: versions.map(({ n, at }) => ({ n, at })),
        journal: journal.map(({ line }) => line),
        aside: aside.map(({ n }) => asideName(n)),
      };
    },
    async version(job, n) {
      const db = await database.open();
      return textOf(await db.get('versions', [job, n]));
    },
    async aside(job, name) {
      const db = await database.open();
      return textOf(await db.get('aside', [job, Number(/\d+/.exec(name)?.[0])]));
    },
    append(job, n, line) {
      const write = (db: Handle) =>
        kept(db, ['journal'], (writing) => {
          const request = writing.objectStore('journal').add({ job, n, line });
          // Without waiting for anything: so it is done even where the page goes away this very moment.
          writing.commit();
          return [request];
        });
      const open = database.ready;
      return open ? write(open) : database.open().then(write);
    },
    async snapshot(job, { n, at }, text, drop, journalFrom) {
      const db = await database.open();
      await kept(db, ['versions', 'journal'], (writing) => {
        const versions = writing.objectStore('versions');
        return [
          versions.put({ job, n, at, text }),
          ...drop.filter((old) => old !== n).map((old) => versions.delete([job, old])),
          writing.objectStore('journal').delete(IDBKeyRange.bound([job, -1], [job, journalFrom])),
        ];
      });
    },
    async putCard(card) {
      const db = await database.open();
      // A copy without what the screens wrap around it.
      await kept(db, ['cards'], (writing) => [writing.objectStore('cards').put({ ...card })]);
    },
    async setAside(job, n) {
      const db = await database.open();
      await kept(db, ['versions', 'aside'], (writing) => {
        const versions = writing.objectStore('versions');
        const moved = versions
          .get([job, n])
          .then((record) => record && writing.objectStore('aside').put(record));
        return [moved, versions.delete([job, n])];
      });
      return asideName(n);
    },
    async remove(job) {
      const db = await database.open();
      await kept(db, ['cards', 'versions', 'journal', 'aside'], (writing) => [
        writing.objectStore('cards').delete(job),
        writing.objectStore('versions').delete(all(job)),
        writing.objectStore('journal').delete(all(job)),
        writing.objectStore('aside').delete(all(job)),
      ]);
    },
    async forgetOld() {
      const db = await database.open();
      await kept(db, ['saves'], (writing) => [writing.objectStore('saves').clear()]);
    },
    async putPhoto(bytes) {
      const name = await sha256(bytes);
      const db = await database.open();
      await kept(db, ['photos'], (writing) => [writing.objectStore('photos').put(bytes, name)]);
      return name;
    },
    async photo(name) {
      return (await (await database.open()).get('photos', name)) ?? null;
    },
    async hasPhoto(name) {
      return (await (await database.open()).count('photos', name)) > 0;
    },
    async forgetOtherPhotos(named) {
      const db = await database.open();
      const others = (await db.getAllKeys('photos')).filter((name) => !named.includes(name));
      await kept(db, ['photos'], (writing) =>
        others.map((name) => writing.objectStore('photos').delete(name)),
      );
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

async function deviceOf(db: Handle): Promise<string> {
  const known = await db.get('meta', 'device');
  if (known !== undefined) return known;
  const letters = 'abcdefghijkmnpqrstuvwxyz23456789';
  const drawn = crypto.getRandomValues(new Uint8Array(7));
  const device = Array.from(drawn, (byte) => letters[byte % 32]).join('');
  await kept(db, ['meta'], (writing) => [writing.objectStore('meta').put(device, 'device')]);
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

const all = (job: string) => IDBKeyRange.bound([job], [job, []]);
const asideName = (n: number) => `job-${String(n).padStart(8, '0')}.json.unreadable`;

/** What is kept may be of another making. */
function textOf(record: { text: unknown } | undefined): string | null {
  return typeof record?.text === 'string' ? record.text : null;
}
