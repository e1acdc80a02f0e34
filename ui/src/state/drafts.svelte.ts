import { SvelteMap } from 'svelte/reactivity';
import type { Capture, Job, Units } from '../backend/model';
import { app } from './app.svelte';
import { below, MISSING, type Begun, type Doc, type Typed } from './doc';
import { keep, kept, keptBelow } from './kept';
import { takeLeft } from './reading';
import { route } from './route.svelte';
import { valueAt, withoutItem, withValue, afterRemoval, type Pointer } from './pointer';

interface KeptDraft {
  value: unknown;
  step: number;
  shown: Record<string, string>;
  typed: Record<string, Typed>;
  captures?: Capture[];
}

/** An item on its way into the job: its numbers may be missing, and it is kept until it is put in or dropped. */
export class Draft<T = unknown> implements Doc {
  /** The item itself: its fields lie within it. */
  readonly root = '' as Pointer<T>;
  #value = $state.raw<unknown>(null);
  #step = $state(0);
  #shown = new SvelteMap<string, string>();
  #typed = new SvelteMap<string, Typed>();
  #captures: Capture[] = [];
  /** Done when all texts are taken in that stood in its fields as the app was closed over it. */
  readonly leftTexts: Promise<unknown>;

  /** `place` is where in the job it will stand; `key` names it among the kept drafts, if it is kept. */
  constructor(
    value: Begun<T>,
    readonly place: Pointer<T | null>,
    private readonly key: string | null,
    /** Makes room in the job for it, to check it there. */
    private readonly prepare: (job: Job) => Job = (job) => job,
  ) {
    const before = key === null ? null : kept<KeptDraft>(`draft:${key}`);
    this.#value = before?.value ?? value;
    this.#step = before?.step ?? 0;
    for (const [at, text] of Object.entries(before?.shown ?? {})) this.#shown.set(at, text);
    for (const [at, typed] of Object.entries(before?.typed ?? {})) this.#typed.set(at, typed);
    this.#captures = before?.captures ?? [];
    // What was typed when the app was closed over it counts.
    const left = [...this.#typed].map(([at, { text }]) => takeLeft(this, at as Pointer<number>, text));
    this.leftTexts = Promise.all(left);
  }

  get units(): Units {
    return app.units;
  }

  /** The item, once nothing of it is missing: whoever takes it has asked. */
  get value(): T {
    return this.#value as T;
  }

  /** Which of its questions is being asked. */
  get step(): number {
    return this.#step;
  }

  set step(step: number) {
    this.#step = step;
    this.#keep();
  }

  /** Something was typed that is not in it. */
  get hasProblems(): boolean {
    return this.#typed.size > 0;
  }

  /** Something that was typed can't be used. */
  get hasRefused(): boolean {
    return [...this.#typed.values()].some((typed) => typed.problem !== '');
  }

  get<V>(pointer: Pointer<V>): V | undefined {
    return valueAt(this.#value, pointer);
  }

  set<V>(pointer: Pointer<V>, value: NoInfer<V>, captures: readonly Capture[] = []): void {
    this.#value = withValue(this.#value, pointer, value);
    // What was captured there before is not there any more.
    const elsewhere = this.#captures.filter(
      ({ path }) => path !== pointer && !path.startsWith(`${pointer}/`),
    );
    this.#captures = [...elsewhere, ...below(pointer, captures)];
    this.#keep();
  }

  shown(pointer: string): string {
    const value = valueAt(this.#value, pointer as Pointer<unknown>);
    // The text of a number that stood here before is not the missing one's.
    if (value === MISSING) return '';
    return this.#shown.get(pointer) ?? (typeof value === 'number' ? inItsUnit(pointer, value) : '');
  }

  typed(pointer: string): Typed | undefined {
    return this.#typed.get(pointer);
  }

  keepTyped(pointer: string, typed: Typed | null): void {
    if (typed) this.#typed.set(pointer, typed);
    else this.#typed.delete(pointer);
    this.#keep();
  }

  accept(pointer: Pointer<number | null>, value: number, text: string, captures?: readonly Capture[]): void {
    this.#shown.set(pointer, text);
    this.#typed.delete(pointer);
    this.set(pointer, value, captures);
  }

  clear(pointer: Pointer<number | null>): void {
    this.#shown.delete(pointer);
    this.set(pointer as Pointer<unknown>, MISSING);
  }

  readonly mayMiss = true;

  /** Texts of the numbers entered so far, by pointer. */
  get texts(): [string, string][] {
    return [...this.#shown];
  }

  /** What an instrument put in, by pointers within the item. */
  get captures(): readonly Capture[] {
    return this.#captures;
  }

  trial<V>(pointer: Pointer<V>, value: NoInfer<V>): unknown {
    const job = app.job && this.prepare({ ...app.job, log: [] });
    return withValue(job, this.place, withValue(this.#value, pointer, value) as T);
  }

  noteText(pointer: string, text: string): void {
    this.#shown.set(pointer, text);
  }

  removeFrom<V>(list: Pointer<V[]>, index: number): void {
    move(this.#shown, list, index);
    move(this.#typed, list, index);
    this.#captures = this.#captures.flatMap((capture) => {
      const path = afterRemoval(capture.path, list, index);
      return path === null ? [] : [{ ...capture, path }];
    });
    this.#value = withoutItem(this.#value, list, index);
    this.#keep();
  }

  field(pointer: string): string {
    return this.place + pointer;
  }

  /** It was put in or dropped: nobody is entering it any more. */
  left(): void {
    if (inHand?.draft === this) inHand = null;
  }

  #keep(): void {
    inHand = { draft: this, arrivals: route.arrivals };
    if (this.key === null) return;
    const draft: KeptDraft = {
      value: this.#value,
      step: this.#step,
      shown: Object.fromEntries(this.#shown),
      typed: Object.fromEntries(this.#typed),
      captures: this.#captures,
    };
    keep(`draft:${this.key}`, draft);
  }
}

/** The draft that was last changed, and the page that was arrived at then. */
let inHand: { draft: object; arrivals: number } | null = null;

/** Whether somebody is entering an item on the page in hand: it is begun, and neither put in nor dropped nor left. */
export const isDraftInHand = () => inHand !== null && inHand.arrivals === route.arrivals;

/** Something came into the job from elsewhere: the drafts go on where their things now lie. `to` says where that is; what
 * was begun in a thing that is gone stays kept under its old name, and is nobody's. */
export function carryDrafts(to: (pointer: string) => string | null): void {
  const moved = (at: string) => (at.startsWith('/') ? (to(at) ?? at) : at);
  // Those whose place is another now are made anew from what is kept of them.
  for (const [key, { place }] of open) if (moved(key) !== key || moved(place) !== place) open.delete(key);
  const drafts = keptBelow<KeptDraft>('draft:').map(([key, draft]) => [key.slice(6), draft] as const);
  const others = drafts.filter(([key]) => moved(key) !== key);
  for (const [key] of others) keep(`draft:${key}`, null);
  for (const [key, draft] of others) keep(`draft:${moved(key)}`, draft);
}

// Looked up by name only; what the screens follow is inside each draft.
// eslint-disable-next-line svelte/prefer-svelte-reactivity
const open = new Map<string, Draft>();

/** The draft of that name: the one begun earlier, or a fresh one. */
export function draftOf<T>(
  key: string,
  place: Pointer<T | null>,
  fresh: () => Begun<T>,
  prepare?: (job: Job) => Job,
): Draft<T> {
  // A key names one place and so one type of item.
  let draft = open.get(key) as Draft<T> | undefined;
  if (!draft) {
    draft = new Draft(fresh(), place, key, prepare);
    open.set(key, draft as Draft);
  }
  return draft;
}

/** Whether a draft of that name was begun and is neither kept nor dropped. */
export function isBegun(key: string): boolean {
  return open.has(key) || kept(`draft:${key}`) !== null;
}

/** Whether anything was entered in the draft of that name. */
export function isEntered(key: string): boolean {
  return kept(`draft:${key}`) !== null;
}

/** The draft of that name if one was begun. */
export function begunDraft<T>(
  key: string,
  place: Pointer<T | null>,
  prepare?: (job: Job) => Job,
): Draft<T> | null {
  return isBegun(key) ? draftOf<T>(key, place, () => null as Begun<T>, prepare) : null;
}

/** Lets go of every draft, as when another job is opened; each job's drafts stay kept for it. */
export function closeDrafts(): void {
  open.clear();
  inHand = null;
}

export function dropDraft(key: string): void {
  open.get(key)?.left();
  open.delete(key);
  keep(`draft:${key}`, null);
}

function move<V>(texts: SvelteMap<string, V>, list: string, removed: number): void {
  const moved = [...texts].map(([at, text]) => [afterRemoval(at, list, removed), text] as const);
  texts.clear();
  for (const [at, text] of moved) if (at !== null) texts.set(at, text);
}

/** A number that nobody typed, such as a point put on the map; the engine words it once it is in the job. */
function inItsUnit(pointer: string, value: number): string {
  const unit = { m: ' m', mm: ' mm', deg: '°' }[pointer.split('_').at(-1) ?? ''] ?? '';
  return `${value}${unit}`;
}
