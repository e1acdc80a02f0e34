import { backend } from '../backend';
import type { Capture, FieldError, Job } from '../backend/model';
import { app } from './app.svelte';
import { below, hasMissing, type Begun } from './doc';
import { begunDraft, draftOf, Draft, dropDraft } from './drafts.svelte';
import { jobDoc } from './job-doc';
import { withValue, type Pointer } from './pointer';

/** What is being added, and where. */
export interface Into<T> {
  /** Where in the job it will stand. */
  place: () => Pointer<T | null>;
  /** Its name among the drafts, where that is not its place: that of the list that it joins. None keeps no draft: it
   * goes with its page. */
  key?: (() => string) | null;
  /** Whether there is room for it: a thing that the job has already is edited there. */
  room?: () => boolean;
  /** What it begins as, where it is begun by being looked at. */
  fresh?: () => Begun<T>;
  /** Makes room in the job for it, to check it there. */
  prepare?: (job: Job) => Job;
  /** Puts it in, where that is more than putting it at its place. */
  put?: (value: T, captures: readonly Capture[]) => void;
}

/** The one way by which an item comes into the job: begun with numbers missing, kept beside the job while it is
 * entered, then put in whole with the texts and the captures of its numbers, or dropped. */
export class Adding<T> {
  readonly #into: Into<T>;
  /** The item, while it is on its way; it outlives the page, and a reload. */
  draft: Draft<T> | null = $derived.by(() => this.#begun());
  /** Why the engine would not have it there, once it was asked. */
  errors = $state.raw<FieldError[]>([]);

  constructor(into: Into<T>) {
    this.#into = into;
  }

  /** Everything in it is entered, and nothing that was typed is refused. */
  get isWhole(): boolean {
    return this.draft !== null && !hasMissing(this.draft.value) && !this.draft.hasRefused;
  }

  /** The same, and nothing is being typed into it: then it may go in by itself. */
  get isSettled(): boolean {
    return this.isWhole && !this.draft?.hasProblems;
  }

  /** The draft that was begun earlier, or a fresh one. `texts` are of numbers it begins with, by pointers within it. */
  begin(fresh: Begun<T>, texts: Readonly<Record<string, string>> = {}): void {
    const [place, prepare] = [this.#into.place(), this.#into.prepare];
    const begun =
      this.#key === null
        ? new Draft(fresh, place, null, prepare)
        : draftOf(this.#key, place, () => fresh, prepare);
    for (const [where, text] of Object.entries(texts)) begun.noteText(where, text);
    this.draft = begun;
  }

  /** Puts it in, if it is whole. */
  keep(): void {
    if (this.draft && this.isWhole) this.#putIn(this.draft);
  }

  /** Puts it in unless the engine finds something wrong with it there, and then says what. */
  async keepIfRight(): Promise<boolean> {
    const { draft } = this;
    // What was typed counts, also where it is still being read after a reload: until then an older number stands there.
    await draft?.leftTexts;
    if (!draft || !app.job || !this.isWhole) return false;
    const place = this.#into.place();
    const bare = { ...app.job, log: [] };
    const job = withValue(this.#into.prepare?.(bare) ?? bare, place, draft.value);
    const { errors } = await backend.call('check', { job });
    this.errors = errors.filter((error) => error.path.startsWith(place));
    if (this.errors.length > 0 || !app.job) return false;
    this.#putIn(draft);
    return true;
  }

  drop(): void {
    this.draft?.left();
    if (this.#key !== null) dropDraft(this.#key);
    // What is begun by being looked at is begun anew by the next look.
    if (!this.#into.fresh) this.draft = null;
  }

  #putIn({ value, texts, captures }: Draft<T>): void {
    const place = this.#into.place();
    this.drop();
    if (this.#into.put) this.#into.put(value, captures);
    else jobDoc.set(place, value, captures);
    for (const [where, text] of texts) jobDoc.noteText(place + where, text);
  }

  #begun(): Draft<T> | null {
    const { room, place, fresh, prepare } = this.#into;
    if (this.#key === null || (room && !room())) return null;
    return fresh
      ? draftOf<T>(this.#key, place(), fresh, prepare)
      : begunDraft<T>(this.#key, place(), prepare);
  }

  get #key(): string | null {
    const { key, place } = this.#into;
    return key === null ? null : (key?.() ?? place());
  }
}

/** An item for the end of a list of the job; `more` says what differs from any other. */
export function addingTo<T>(list: () => Pointer<T[]>, more: Partial<Into<T>> = {}): Adding<T> {
  const items = (): T[] => jobDoc.get(list()) ?? [];
  return new Adding<T>({
    place: () => `${list()}/${items().length}` as Pointer<T>,
    key: list,
    put: (value, captures) => jobDoc.set(list(), [...items(), value], below(`/${items().length}`, captures)),
    ...more,
  });
}
