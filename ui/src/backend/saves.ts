/** How many saves are kept; the newest one is loaded, the others are there for the day something goes wrong. */
const KEPT = 20;
/** A save within this time of the one before it takes its place, so that the kept ones reach back further. */
const SAME_SITTING_MS = 60_000;
const STORE = 'saves';

interface Save {
  at: number;
  text: string;
}

let opening: Promise<IDBDatabase> | null = null;

function database(): Promise<IDBDatabase> {
  opening ??= new Promise((done, failed) => {
    const request = indexedDB.open('mastwright', 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE, { keyPath: 'at' });
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error ?? new Error('The browser keeps no data here.'));
  });
  return opening;
}

function settled<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error ?? new Error('The browser refused to read or write.'));
  });
}

export async function loadNewest(): Promise<string | null> {
  const store = (await database()).transaction(STORE).objectStore(STORE);
  const cursor = await settled(store.openCursor(null, 'prev'));
  return cursor ? (cursor.value as Save).text : null;
}

export async function saveNewest(text: string): Promise<void> {
  const transaction = (await database()).transaction(STORE, 'readwrite');
  const store = transaction.objectStore(STORE);
  const keys = (await settled(store.getAllKeys())) as number[];
  const now = Math.max(Date.now(), (keys.at(-1) ?? 0) + 1);
  const sittingBegan = keys.at(-2) ?? 0;
  const newest = keys.at(-1);
  if (newest !== undefined && now - sittingBegan < SAME_SITTING_MS) store.delete(newest);
  for (const old of keys.slice(0, Math.max(0, keys.length + 1 - KEPT))) store.delete(old);
  store.put({ at: now, text } satisfies Save);
  await new Promise<void>((done, failed) => {
    transaction.oncomplete = () => done();
    transaction.onerror = () => failed(transaction.error ?? new Error('The browser could not save the job.'));
  });
}
