import { backend } from '../backend';
import type { Job, SitingAnswer, SitingPlaceText, SitingWishes } from '../backend/model';
import { app } from './app.svelte';
import { jobAt, withValue } from './pointer';
import { whyNot } from './why';

/** Where the mast can stand: what was found, and the search under way. It goes on while other pages are looked at. */
class PlacesState {
  answer = $state.raw<SitingAnswer | null>(null);
  progress = $state.raw<{ done: number; of: number } | null>(null);
  problem = $state('');
  /** Only places from which the falling mast reaches nothing. */
  clearOfFall = $state(false);
  /** Whether the base is turned as well, or only the guys. */
  turnBase = $state(false);
  /** Whether what was found lies on the map. */
  onMap = $state(false);
  #of = $state.raw<Job | null>(null);
  #stop: AbortController | null = null;

  /** Whether the yard or the parts have changed since the answer; another place of the mast changes nothing of it. */
  get stale(): boolean {
    const of = this.#of;
    const job = app.job;
    return of !== null && job !== null && (of.yard !== job.yard || of.rig !== job.rig);
  }

  get running(): boolean {
    return this.progress !== null;
  }

  async look(): Promise<void> {
    const job = app.job;
    if (!job || this.running) return;
    this.problem = '';
    this.progress = { done: 0, of: 1 };
    this.#stop = new AbortController();
    const wishes: Partial<SitingWishes> = {
      clear_of_fall: this.clearOfFall,
      ...(this.turnBase ? { base_turns: 4 } : {}),
    };
    try {
      const told = (progress: { done: number; of: number; partial: SitingAnswer | null }) => {
        this.progress = progress;
        if (progress.partial) this.#found(progress.partial, job);
      };
      const request = { job, wishes: wishes as SitingWishes };
      this.#found(await backend.watch('siting', request, told, this.#stop.signal), job);
    } catch (error) {
      if (!(error instanceof DOMException && error.name === 'AbortError')) this.problem = whyNot(error);
    } finally {
      this.progress = null;
    }
  }

  cancel(): void {
    this.#stop?.abort();
  }

  /** Puts the mast with its turns where a place has it. */
  take(place: SitingPlaceText): void {
    if (app.job) app.commit(withValue(app.job, jobAt('/placement'), place.placement));
  }

  #found(answer: SitingAnswer, job: Job): void {
    this.answer = answer;
    this.#of = job;
  }
}

export const places = new PlacesState();
