import { backend } from '../backend';
import type { Job } from '../backend/model';
import { app } from './app.svelte';
import { readFile } from './files';
import { keepPhotos } from './photos';
import { route } from './route.svelte';
import { shelf } from './shelf.svelte';
import { why } from './why';

/** Opens a file: as a job of its own, or, where another device handed it over with its history, as the same job that is
 * perhaps here already. Rejects with `Refused` where it is none. */
export async function openFile(file: File): Promise<void> {
  const { text, photos } = await readFile(file);
  const job = await backend.call('open_job', { text });
  await keepPhotos(photos);
  await openHanded(job);
}

/** Opens what came as a file, in a link or as codes. */
export async function openHanded(job: Job): Promise<void> {
  const { mastwright_history: history } = job;
  if (history) await app.openHeld({ job, history });
  else await app.openJob(job);
}

/** Whether that would be brought together with a job that is here. */
export function isHere(job: Job): boolean {
  const card = job.mastwright_history && shelf.ofShared(job.mastwright_history.job);
  return !!card && card.binned_at === null;
}

/** What a system hands over that starts this app to open a file (W3C, Web App Launch Handler; not in the DOM's types). */
interface LaunchQueue {
  setConsumer(take: (launch: { files?: { getFile(): Promise<File> }[] }) => void): void;
}

/** Opens the files that the app is started with, once it is on the home screen and told the system that it opens them. */
export function openHandedFiles(): void {
  const queue = (window as { launchQueue?: LaunchQueue }).launchQueue;
  queue?.setConsumer((launch) => void openAll(launch.files ?? []));
}

async function openAll(handed: { getFile(): Promise<File> }[]): Promise<void> {
  for (const one of handed) {
    let name = 'The file';
    try {
      const file = await one.getFile();
      name = file.name;
      await openFile(file);
      route.go('map');
    } catch (error) {
      app.trouble = `${name} can’t be opened: ${why(error)}`;
    }
  }
}
