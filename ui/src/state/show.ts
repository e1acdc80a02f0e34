import type { Subject } from '../backend/model';
import { app } from './app.svelte';
import { mapState } from './map-view.svelte';
import { route } from './route.svelte';
import { wide } from './wide.svelte';

/** Shows the whole yard on the map. */
export function showWhole(): void {
  mapState.whole = true;
  mapState.fitAsked += 1;
  toMap();
}

/** Brings a subject into the middle of the map, with what is known of it. */
export function show(subject: Subject): void {
  app.select(subject, true);
  mapState.lookAt = subject;
  toMap();
}

/** Where the map lies beside the page there is no need to leave the page. */
function toMap(): void {
  if (!wide.yes) route.go('map');
}
