import { backend } from '../backend';
import type { HeldJob, Stamp } from '../backend/model';
import { sharedJob, sharedJobs, shareJob, type SharedJob } from '../backend/paired';
import type { Card } from '../backend/store';
import { app } from './app.svelte';
import { paired } from './paired.svelte';
import { shelf } from './shelf.svelte';
import { why } from './why';

/** How a job here stands to the same job on the machine that pairs devices. */
export type Standing = 'same' | 'newer_here' | 'newer_there' | 'both_changed' | 'only_here';

export const STANDING_SAYS: Record<Standing, string> = {
  same: 'The same on all devices',
  newer_here: 'Newer here',
  newer_there: 'Newer on another device',
  both_changed: 'Changed here and on another device',
  only_here: 'On this device only',
};

/** The jobs that paired devices hold together. */
class Together {
  /** By the id of the job here. */
  standings = $state.raw<Record<string, Standing>>({});
  /** Jobs of other devices that are not here yet. */
  elsewhere = $state.raw<SharedJob[]>([]);
  trouble = $state('');
  busy = $state(false);
  /** What the last round did. */
  did = $state('');

  get possible(): boolean {
    return paired.served && paired.list !== null;
  }

  /** Looks how the jobs here stand to those there, and changes nothing. */
  async look(): Promise<void> {
    this.did = '';
    await this.#try(() => this.#look());
  }

  /** Sends what is newer here, and takes in what is newer there; where both changed both are merged. */
  async bringTogether(): Promise<void> {
    await this.#try(async () => {
      await this.#look();
      const open = app.id;
      try {
        for (const { id } of shelf.jobs) if (this.standings[id] !== 'same') await this.#bring(id);
        for (const there of this.elsewhere) await shelf.takeIn(await sharedJob(there.id));
      } finally {
        // Also where a round was cut short: nobody goes on measuring into another yard.
        if (app.id !== open) await (open === null ? app.close() : app.openKept(open));
      }
      await this.#look();
      const asked = app.conflicts.length;
      this.did = asked > 0 ? 'Brought together; some entries are to be asked about.' : 'Brought together.';
    });
  }

  async #bring(id: string): Promise<void> {
    if (app.id !== id) await app.openKept(id);
    const held = await app.handOver(this.#ownName());
    // Another window may have it: then it stays as it is until that one brings it together.
    if (!held) return;
    await app.mergeIn(await shareJob(held));
  }

  async #look(): Promise<void> {
    await paired.look();
    if (!this.possible) return;
    const there = await sharedJobs();
    await shelf.look();
    const standings: Record<string, Standing> = {};
    for (const card of shelf.jobs) {
      const shared = there.find(({ id }) => id === shelf.sharedId(card.id));
      standings[card.id] = shared ? await this.#standing(card, shared.seen) : 'only_here';
    }
    this.standings = standings;
    this.elsewhere = there.filter(({ id }) => shelf.ofShared(id) === null);
  }

  async #standing(card: Card, there: Stamp[]): Promise<Standing> {
    const held = await this.#heldOf(card.id);
    if (!held) return 'newer_here';
    return (await backend.call('compare_jobs', { here: held.history.seen, there })).compared;
  }

  #heldOf(id: string): Promise<HeldJob | null> {
    return id === app.id ? app.held(this.#ownName()) : shelf.heldOf(id);
  }

  #ownName(): string {
    const { list } = paired;
    return list?.devices.find(({ id }) => id === list.this)?.name ?? '';
  }

  async #try(what: () => Promise<void>): Promise<void> {
    if (this.busy) return;
    this.busy = true;
    this.trouble = '';
    try {
      await what();
    } catch (error) {
      this.trouble = `The jobs of the other devices can’t be reached (${why(error)}). Nothing is lost: what you enter stays here and goes over later.`;
    } finally {
      this.busy = false;
    }
  }
}

export const together = new Together();
