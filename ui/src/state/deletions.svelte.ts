import { backend } from '../backend';
import type { Deletion, FateSays } from '../backend/model';
import { shareFate, sharedFates } from '../backend/paired';
import type { Card } from '../backend/store';
import { app } from './app.svelte';
import { NO_FATE, sameFate } from './fate';
import { shelf } from './shelf.svelte';

/** What a round did about jobs that were deleted. */
export interface FollowedDeletions {
  /** Those that are in the bin here since, by name. */
  went: { name: string; device_name: string }[];
  /** Those that came out of it, because somebody wants them back. */
  back: string[];
}

/** Jobs that somebody deleted on one of the paired devices. Here they go into the bin, where nothing is lost by it; where
 * somebody wrote something that the deletion knew nothing of, or looks at the job, it is asked about. */
class Deletions {
  /** What waits for somebody to say, by the id of the job here. */
  asked = $state.raw<Record<string, Deletion | undefined>>({});
  /** The deletions that nobody took back, by the name that all devices know the job by. */
  #open: Record<string, Deletion | undefined> = {};

  of(shared: string): Deletion | null {
    return this.#open[shared] ?? null;
  }

  /** Brings what is known of them together with the other devices, and follows them. */
  async bring(): Promise<FollowedDeletions> {
    const there = await sharedFates();
    await shelf.look();
    const followed: FollowedDeletions = { went: [], back: [] };
    const asked: Record<string, Deletion | undefined> = {};
    for (const shared of new Set([...Object.keys(shelf.fates), ...Object.keys(there)])) {
      const here = shelf.fates[shared];
      const card = shelf.ofShared(shared);
      const seen = card && (await this.#seen(card));
      const request = { here: here ?? NO_FATE, there: there[shared] ?? NO_FATE, seen: seen ?? [] };
      const { fate, says, deletion } = await backend.call('job_fate', request);
      if (!sameFate(fate, request.there)) await shareFate(shared, fate);
      // What somebody said of it meanwhile stands, and goes over with the next round.
      if (JSON.stringify(shelf.fates[shared]) === JSON.stringify(here)) shelf.noteFate(shared, fate);
      else continue;
      this.#open[shared] = deletion ?? undefined;
      if (card && (await this.#follow(card, seen === null ? 'asks' : says, deletion, followed)))
        asked[card.id] = deletion ?? undefined;
    }
    this.asked = asked;
    app.deletion = asked[app.id ?? ''] ?? null;
    return followed;
  }

  /** It stays, on all devices. */
  async keep(card: Card): Promise<void> {
    shelf.wantBack(shelf.sharedId(card.id));
    this.#settled(card);
  }

  /** It goes here, too; what was written here since goes with it, into the bin. */
  async agree(card: Card, deviceName: string): Promise<void> {
    if (card.id === app.id) await app.close();
    await shelf.binAsDeleted(card.id, await shelf.noteDeletion(card.id, deviceName));
    this.#settled(card);
  }

  #settled({ id }: Card): void {
    const { [id]: _, ...others } = this.asked;
    this.asked = others;
    if (app.deletion && id === app.id) app.deletion = null;
  }

  /** Whether it has to be asked about. */
  async #follow(
    card: Card,
    says: FateSays,
    deletion: Deletion | null,
    followed: FollowedDeletions,
  ): Promise<boolean> {
    if (says === 'stays') {
      if (!card.deletion) return false;
      await shelf.bin(card.id, false);
      followed.back.push(card.name);
      return false;
    }
    if (card.binned_at !== null || !deletion) return false;
    if (says === 'asks' || card.id === app.id) return true;
    try {
      await shelf.binAsDeleted(card.id, deletion);
    } catch {
      // Another window has it in hand.
      return true;
    }
    followed.went.push({ name: card.name, device_name: deletion.device_name });
    return false;
  }

  /** What is in the job here; null where nobody can tell. */
  async #seen({ id }: Card): Promise<Deletion['seen'] | null> {
    const held = await (id === app.id ? app.held() : shelf.heldOf(id)).catch(() => null);
    return held?.history.seen ?? null;
  }
}

export const deletions = new Deletions();
