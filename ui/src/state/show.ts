import type { Subject } from '../backend/model';
import { app } from './app.svelte';
import { mapState } from './map-view.svelte';
import { route } from './route.svelte';
import { wide } from './wide.svelte';

/** Brings a subject into the middle of the map, with what is known of it. */
export function show(subject: Subject): void {
  app.select(subject, true);
  mapState.lookAt = subject;
  // Where the map lies beside the page there is no need to leave the page.
  if (!wide.yes) route.go('map');
}
