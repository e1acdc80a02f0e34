import type { Capture, Units } from '../backend/model';
import type { Pointer } from './pointer';

/** Stands in a new item where a number or a mark is still to be entered. */
export const MISSING = '?' as const;

/** A new item as it is begun: anything in it may still be missing, or not be there yet. */
export type Begun<T> = T extends readonly (infer Item)[]
  ? Begun<Item>[]
  : T extends object
    ? { [Name in keyof T]?: Begun<T[Name]> | typeof MISSING }
    : T | typeof MISSING;

/** A text in a number field that is not a number of the document yet. */
export interface Typed {
  text: string;
  /** What is allowed, once the engine has refused the text; empty while it is being typed. */
  problem: string;
}

/** A document that the fields edit: the job itself, or a new item on its way into the job. */
export interface Doc {
  readonly units: Units;
  /** What stands there. In a new item a number or a mark may be `MISSING` instead, and there the fields look for it. */
  get<V>(pointer: Pointer<V>): V | undefined;
  /** Replaces a value; one committed change. `captures` tells what an instrument put in, by pointers below this one. */
  set<V>(pointer: Pointer<V>, value: NoInfer<V>, captures?: readonly Capture[]): void;
  /** A number as the user would write it. */
  shown(pointer: string): string;
  typed(pointer: string): Typed | undefined;
  keepTyped(pointer: string, typed: Typed | null): void;
  /** Puts a number in that was read from `text`. */
  accept(pointer: Pointer<number | null>, value: number, text: string, captures?: readonly Capture[]): void;
  /** The whole job as it would be with the value there, to be checked. */
  trial<V>(pointer: Pointer<V>, value: NoInfer<V>): unknown;
  /** The text of a number that came in with a larger value, until the engine words it. */
  noteText(pointer: string, text: string): void;
  /** Shows a value while it is being typed, before it is a change of its own; only the job has a before. */
  preview?<V>(pointer: Pointer<V>, value: NoInfer<V>): void;
  /** Takes back what was shown. */
  cancelPreview?(): void;
  /** Makes a number missing again, where numbers may be missing. */
  clear?(pointer: Pointer<number | null>): void;
  removeFrom<V>(list: Pointer<V[]>, index: number): void;
  /** Whether numbers may be missing for now. */
  readonly mayMiss: boolean;
  /** The pointer within the job, by which the engine knows unit and range of a field. */
  field(pointer: string): string;
}

/** Captures seen from farther up: the pointer in front of each. */
export function below(pointer: string, captures: readonly Capture[]): Capture[] {
  return captures.map((capture) => ({ ...capture, path: pointer + capture.path }));
}

/** Whether anything in a value is still to be entered. */
export function hasMissing(value: unknown): boolean {
  if (value === MISSING) return true;
  if (value === null || typeof value !== 'object') return false;
  return Object.values(value).some(hasMissing);
}

/** What a part of a fix is called, where a list names what is still to be entered. */
const WORDS: readonly (readonly [RegExp, string])[] = [
  [/^(side|turn)$/, 'left or right'],
  [/^(from|to|toward)(_[abc])?$/, 'which mark'],
  [/^tape(_[abc])?_m$/, 'tape'],
  [/^bearing_deg$/, 'bearing'],
  [/^vertical_deg$/, 'angle of the tape'],
  [/^along_m$/, 'how far along'],
  [/^off_m$/, 'how far off the line'],
];

/** What in a value is still to be entered, each kind of thing once. */
export function missingWords(value: unknown): string[] {
  if (value === null || typeof value !== 'object') return [];
  const own = Object.entries(value).flatMap(([name, part]) => {
    if (part !== MISSING) return missingWords(part);
    const word = WORDS.find(([pattern]) => pattern.test(name))?.[1];
    return word ? [word] : [];
  });
  return [...new Set(own)];
}
