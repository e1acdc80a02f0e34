import type { Deletion } from '../../backend/model';
import { shelf } from '../../state/shelf.svelte';
import { when } from './when';

/** Who deleted a job, and when. */
export function deletedSays({ by, device_name }: Deletion): string {
  const where = by.device === shelf.device ? 'here' : `on ${device_name || 'another device'}`;
  return `It was deleted ${where}, ${when(by.at_ms)}.`;
}
