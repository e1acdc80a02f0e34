import type { JobFate, HeldJob, Stamp } from './model';

/** The machine that serves these screens pairs devices, where it is `mastwright serve`: then they hear each other's live
 * readings, and hold the same jobs. */

/** What a device says it reads, in the words of its own screen. */
export interface LiveReading {
  what: string;
  shown: string;
  says: string;
}

export interface HeardReading {
  from: string;
  reading: LiveReading;
}

export interface PairedDevice {
  id: number;
  name: string;
  paired_at: string;
}

export interface WithdrawnDevice {
  id: number;
  name: string;
  withdrawn_at: string;
}

export interface DeviceList {
  this: number;
  devices: PairedDevice[];
  /** The last one first. */
  withdrawn: WithdrawnDevice[];
}

export interface Invitation {
  address: string;
  code: string;
  /** An SVG picture of the address, to be scanned. */
  picture: string;
  good_for_s: number;
}

/** Whether the machine that serves this page says that it pairs devices. */
export const servesDevices = (): boolean =>
  document.querySelector('meta[name="mastwright-serves"][content="devices"]') !== null;

/** The devices; null where this one is not paired, or no longer. */
export async function devices(): Promise<DeviceList | null> {
  const answer = await ask('devices');
  return answer.status === 401 ? null : ((await json(answer)) as DeviceList);
}

export async function invitation(): Promise<Invitation> {
  return (await json(await ask('invitation'))) as Invitation;
}

export async function withdraw(id: number): Promise<void> {
  await json(await ask(`devices/${id}`, { method: 'DELETE' }));
}

export async function say(reading: LiveReading): Promise<void> {
  const body = JSON.stringify(reading);
  await json(await ask('live', { method: 'POST', headers: { 'content-type': 'application/json' }, body }));
}

export interface Told {
  /** They are heard from now on; what went on before is not told. */
  hears(): void;
  reading(heard: HeardReading): void;
  /** Another device brought a job or a photo. */
  changed(): void;
  /** Who is paired is another, or the code to pair by. */
  devices(): void;
}

/** Hears the others until the returned function is called. The browser itself tries again where the network was gone. */
export function hear(told: Told): () => void {
  const events = new EventSource(new URL('live', document.baseURI));
  events.addEventListener('open', () => told.hears());
  events.addEventListener('reading', ({ data }: MessageEvent<string>) => {
    told.reading(JSON.parse(data) as HeardReading);
  });
  events.addEventListener('changed', () => told.changed());
  events.addEventListener('devices', () => told.devices());
  return () => events.close();
}

/** A job that the machine holds for all paired devices. */
export interface SharedJob {
  id: string;
  name: string;
  /** What is in it, by the last writing of each device. */
  seen: Stamp[];
}

export async function sharedJobs(): Promise<SharedJob[]> {
  return (await json(await ask('jobs'))) as SharedJob[];
}

/** A job as the machine holds it. */
export async function sharedJob(id: string): Promise<HeldJob> {
  return (await json(await ask(`jobs/${id}`))) as HeldJob;
}

/** Sends a job; what comes back has in it what the other devices wrote, too. */
export async function shareJob(held: HeldJob): Promise<HeldJob> {
  const how = { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(held) };
  const { job, history } = (await json(await ask(`jobs/${held.history.job}`, how))) as HeldJob;
  return { job, history };
}

/** What the machine knows of jobs that somebody deleted or wanted back, by their ids. */
export async function sharedFates(): Promise<Record<string, JobFate | undefined>> {
  return (await json(await ask('deleted'))) as Record<string, JobFate | undefined>;
}

export async function shareFate(id: string, fate: JobFate): Promise<void> {
  const how = { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(fate) };
  await json(await ask(`deleted/${id}`, how));
}

/** The photos that the machine has, by SHA-256. */
export async function sharedPhotos(): Promise<string[]> {
  return (await json(await ask('photos'))) as string[];
}

/** A photo of the machine; null where it does not have it. */
export async function sharedPhoto(sha256: string): Promise<Uint8Array<ArrayBuffer> | null> {
  const answer = await ask(`photos/${sha256}`);
  if (answer.status === 404) return null;
  if (!answer.ok) await json(answer);
  return new Uint8Array(await answer.arrayBuffer());
}

export async function sharePhoto(sha256: string, bytes: Uint8Array<ArrayBuffer>): Promise<void> {
  const how = { method: 'PUT', headers: { 'content-type': 'image/jpeg' }, body: bytes };
  await json(await ask(`photos/${sha256}`, how));
}

const ask = (path: string, how: RequestInit = {}): Promise<Response> =>
  fetch(new URL(path, document.baseURI), { cache: 'no-store', ...how });

async function json(answer: Response): Promise<unknown> {
  if (answer.status === 204) return null;
  const said: unknown = await answer.json();
  if (answer.ok) return said;
  throw new Error((said as { wrong?: string }).wrong ?? `The answer was ${answer.status}.`);
}
