import type { Subject } from '../backend/model';
import { app } from './app.svelte';
import { mapState } from './map-view.svelte';
import { route } from './route.svelte';

/** Brings a subject into the middle of the map, with what is known of it. */
export function show(subject: Subject): void {
  app.select(subject, true);
  mapState.lookAt = subject;
  route.go('map');
}
