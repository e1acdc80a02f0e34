import { backend } from '../backend';
import type { Came, Deletion, HeldJob, MergeAnswer, Stamp } from '../backend/model';
import { sharedJob, sharedJobs, shareJob, type SharedJob } from '../backend/paired';
import type { Card } from '../backend/store';
import { app } from './app.svelte';
import { broughtSays } from './brought';
import { deletions } from './deletions.svelte';
import { paired } from './paired.svelte';
import { photoArrivals } from './photo-arrivals.svelte';
import { bringPhotos } from './photos';
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

/** What was found of a job here. */
interface Found {
  standing: Standing;
  /** How many of its entries wait for somebody to say which holds. */
  asked: number;
  /** The photos that it names. */
  photos: string[];
}

/** A job of other devices that is not here. */
interface Elsewhere extends SharedJob {
  /** Somebody deleted it: it comes back when somebody wishes it. */
  deletion: Deletion | null;
}

/** After an edit others may follow. */
const AFTER_EDIT_MS = 1500;
/** Another device may bring several things, one after the other. */
const AFTER_CHANGE_MS = 250;
/** After a round that did not get through. */
const AGAIN_MS = 30_000;

/** The jobs that paired devices hold together: brought together by itself whenever they may differ and the machine that pairs
 * them is reached. */
class Together {
  /** By the id of the job here. */
  found = $state.raw<Record<string, Found | undefined>>({});
  /** How many photos of a job have not come yet, by its id. */
  photosMissing = $state.raw<Record<string, number | undefined>>({});
  elsewhere = $state.raw<Elsewhere[]>([]);
  trouble = $state('');
  busy = $state(false);
  /** What the last round that did something did. */
  did = $state('');
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** Something may have become different during the round. */
  #again = false;
  /** What was found of jobs that are not in hand, with what it was found from. */
  #known: Record<string, { from: string; found: Found } | undefined> = {};

  get possible(): boolean {
    return paired.served && paired.list !== null;
  }

  /** From now on it happens by itself. */
  async start(): Promise<void> {
    const now = () => this.soon(0);
    app.onKept(() => this.soon(AFTER_EDIT_MS));
    addEventListener('online', now);
    document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && now());
    await paired.look();
    paired.follow(() => this.soon(AFTER_CHANGE_MS));
    now();
  }

  /** A round, after a while without another call. */
  soon(afterMs: number): void {
    if (this.busy && afterMs < AGAIN_MS) this.#again = true;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.bringTogether(), afterMs);
  }

  /** Sends what is newer here, and takes in what is newer there; where both changed both are merged. Quiet: it waits while
   * somebody is entering something, and nobody's page is changed for another. */
  async bringTogether(): Promise<void> {
    if (this.busy) return;
    clearTimeout(this.#timer);
    [this.busy, this.#again] = [true, false];
    try {
      await this.#round();
      this.trouble = '';
    } catch (error) {
      this.trouble = `The other devices can’t be reached (${why(error)}). Nothing is lost: what you enter stays here and goes over later.`;
      this.soon(AGAIN_MS);
    } finally {
      this.busy = false;
    }
    if (this.#again) this.soon(AFTER_CHANGE_MS);
  }

  /** What this device is called by the others. */
  get ownName(): string {
    const { list } = paired;
    return list?.devices.find(({ id }) => id === list.this)?.name ?? '';
  }

  /** Takes in a job of another device that was deleted: it is wanted back on all of them. */
  async takeIn({ id }: Elsewhere): Promise<void> {
    await shelf.takeIn(await sharedJob(id));
    await this.bringTogether();
  }

  async #round(): Promise<void> {
    await paired.look();
    // Who can't be asked may have paired this device.
    if (!this.possible && paired.trouble) throw new Error(paired.trouble);
    if (!this.possible) return;
    // First: what is deleted is not brought together any more.
    const { went, back } = await deletions.bring();
    await this.#look();
    const came: Came[] = [];
    const taken: string[] = [];
    let sent = false;
    for (const { id } of shelf.jobs) {
      const standing = this.found[id]?.standing;
      if (!standing || standing === 'same') continue;
      const answer = await this.#bring(id);
      came.push(...(answer?.came ?? []));
      sent ||= answer !== null && standing !== 'newer_there';
      if (id === app.id && answer && answer.came.length > 0) app.came = this.#says(answer.came, answer);
    }
    for (const there of this.elsewhere.filter(({ deletion }) => deletion === null)) {
      await shelf.takeIn(await sharedJob(there.id));
      taken.push(there.name);
    }
    await this.#look();
    const { photos, slip } = await this.#bringPhotos();
    const asked = Object.values(this.found).reduce((sum, one) => sum + (one?.asked ?? 0), 0);
    const did = [came, taken, went, back].some(({ length }) => length > 0);
    if (did || photos > 0 || sent || this.did === '')
      this.did = broughtSays({ at: new Date(), came, taken, went, back, photos, sent, asked });
    // The jobs are together all the same; the next round goes on with the photos.
    if (slip !== null) throw slip;
  }

  #says(came: readonly Came[], { conflicts }: MergeAnswer): string {
    const asked = conflicts.length;
    return broughtSays({
      at: new Date(),
      came,
      taken: [],
      went: [],
      back: [],
      photos: 0,
      sent: false,
      asked,
    });
  }

  async #bring(id: string): Promise<MergeAnswer | null> {
    if (app.id !== id) return shelf.bring(id, this.ownName, shareJob);
    const held = await app.handOver(this.ownName);
    // It went out of hand just now: the next round finds it.
    return held && app.mergeIn(await shareJob(held), true);
  }

  /** Tells how many came, and what kept some from it. */
  async #bringPhotos(): Promise<{ photos: number; slip: unknown }> {
    const named = Object.values(this.found).flatMap((found) => found?.photos ?? []);
    if (named.length === 0) return { photos: 0, slip: null };
    const before = photoArrivals.count;
    const brought = await bringPhotos(named);
    const missing = new Set(brought.missing);
    this.photosMissing = Object.fromEntries(
      Object.entries(this.found).map(([id, found]) => [
        id,
        found?.photos.filter((photo) => missing.has(photo)).length ?? 0,
      ]),
    );
    return { photos: photoArrivals.count - before, slip: brought.slip };
  }

  /** Looks how the jobs here stand to those there, and changes nothing. */
  async #look(): Promise<void> {
    const there = await sharedJobs();
    await shelf.look();
    const found: Record<string, Found | undefined> = {};
    for (const card of shelf.jobs) {
      const shared = there.find(({ id }) => id === shelf.sharedId(card.id));
      found[card.id] = await this.#foundOf(card, shared?.seen ?? null);
    }
    this.found = found;
    this.elsewhere = there
      .filter(({ id }) => shelf.ofShared(id) === null)
      .map((one) => ({ ...one, deletion: deletions.of(one.id) }));
  }

  /** What is known already of a job that did not change since is not asked for again. None for a demo that nobody worked on:
   * each device has its own. */
  async #foundOf(card: Card, there: Stamp[] | null): Promise<Found | undefined> {
    const inHand = card.id === app.id;
    const from = JSON.stringify([card.changed_at, there]);
    const known = this.#known[card.id];
    if (!inHand && known?.from === from) return known.found;
    if (there === null && card.demo && (await shelf.isUntouched(card, await backend.call('demo', {}))))
      return;
    const held = await (inHand ? app.held(this.ownName) : shelf.heldOf(card.id));
    const found = await this.#compared(held, there);
    this.#known[card.id] = inHand ? undefined : { from, found };
    return found;
  }

  async #compared(held: HeldJob | null, there: Stamp[] | null): Promise<Found> {
    if (!held) return { standing: there ? 'newer_here' : 'only_here', asked: 0, photos: [] };
    const { conflicts } = await backend.call('open_conflicts', { held });
    const photos = held.job.photos.map(({ sha256 }) => sha256);
    if (!there) return { standing: 'only_here', asked: conflicts.length, photos };
    const { compared } = await backend.call('compare_jobs', { here: held.history.seen, there });
    return { standing: compared, asked: conflicts.length, photos };
  }
}

export const together = new Together();
