/** JSON pointers (RFC 6901) into immutable documents: every change makes a new document that shares the rest. */
import type { Job } from '../backend/model';

export type Json = unknown;

declare const holds: unique symbol;

/** A JSON pointer to a place that holds a `V`. It is a string; only `within`, `JOB` and the root of a document make one,
 * so that a name mistyped on the way, or a value of another type, does not compile. */
export type Pointer<V> = string & { readonly [holds]: V };

/** Every way into a `T`, spelt as a pointer below it: of the items of a list with a number, of alternatives (a fix, a
 * shape) those of each. The names come from the Rust types, by way of `backend/types.ts`. `Index` is another spelling of
 * the numbers. */
export type Path<T, Index extends string | number = number> = T extends readonly (infer Item)[]
  ? `/${Index}` | `/${Index}${Path<Item, Index>}`
  : T extends object
    ? { [Name in keyof T & string]: `/${Name}` | `/${Name}${Path<T[Name], Index>}` }[keyof T & string]
    : never;

/** What stands at a path of a `T`. */
export type At<T, P extends string> = P extends `/${infer Name}/${infer Rest}`
  ? At<Member<T, Name>, `/${Rest}`>
  : P extends `/${infer Name}`
    ? Member<T, Name>
    : never;

type Member<T, Name extends string> = T extends readonly (infer Item)[]
  ? Item
  : T extends object
    ? Name extends keyof T
      ? T[Name]
      : never
    : never;

/** The log is written by the engine alone: nobody edits a place of it. */
type Edited = Omit<Job, 'log'>;

/** Every pointer into the job, and what it points to. */
export type JobPath = Path<Edited>;

/** The same with `*` for any item of a list. */
export type JobPattern = Path<Edited, '*'> | '/log';

/** The whole job. */
export const JOB = '' as Pointer<Job>;

/** A place within another. */
export function within<T, P extends Path<T>>(pointer: Pointer<T>, path: P): Pointer<At<T, P>> {
  return `${pointer}${path}` as Pointer<At<T, P>>;
}

/** A place of the job. */
export function jobAt<P extends JobPath>(path: P): Pointer<At<Edited, P>> {
  return path as string as Pointer<At<Edited, P>>;
}

/** The whole of a document that is not the job. */
export const rootOf = <T>() => '' as Pointer<T>;

/** A pointer that the engine gave: the caller says what the engine gives it for. */
export const given = <V>(pointer: string) => pointer as Pointer<V>;

export function tokens(pointer: string): string[] {
  if (pointer === '') return [];
  return pointer
    .slice(1)
    .split('/')
    .map((token) => token.replaceAll('~1', '/').replaceAll('~0', '~'));
}

/** What stands there; nothing where there is no such place, such as that of an item that is gone. */
export function valueAt<V>(document: Json, pointer: Pointer<V>): V | undefined {
  let here: Json = document;
  for (const token of tokens(pointer)) {
    if (here === null || typeof here !== 'object') return undefined;
    here = (here as Record<string, Json>)[token];
  }
  return here as V | undefined;
}

/** The document with the value at `pointer` replaced by what `change` makes of it. */
export function changedAt<D, V>(document: D, pointer: Pointer<V>, change: (old: V) => NoInfer<V>): D {
  return changed(document, tokens(pointer), change as (old: Json) => Json) as D;
}

export function withValue<D, V>(document: D, pointer: Pointer<V>, value: NoInfer<V>): D {
  return changedAt(document, pointer, () => value);
}

export function withAppended<D, V>(document: D, list: Pointer<V[]>, value: NoInfer<V>): D {
  return changedAt(document, list, (old) => [...((old as V[] | null) ?? []), value]);
}

export function withoutItem<D, V>(document: D, list: Pointer<V[]>, index: number): D {
  return changedAt(document, list, (old) => old.filter((_, i) => i !== index));
}

function changed(here: Json, path: string[], change: (old: Json) => Json): Json {
  const [token, ...rest] = path;
  if (token === undefined) return change(here);
  if (Array.isArray(here)) {
    const index = Number(token);
    // One past the end is a new item, as RFC 6902 has it for `add`.
    if (index === here.length) return [...here, changed(undefined, rest, change)];
    return here.map((item, i) => (i === index ? changed(item, rest, change) : item));
  }
  const object = (here ?? {}) as Record<string, Json>;
  return { ...object, [token]: changed(object[token], rest, change) };
}

/** Where a pointer lies after item `removed` of a list is gone; null where it lay inside that item. */
export function afterRemoval(pointer: string, listPointer: string, removed: number): string | null {
  if (!pointer.startsWith(`${listPointer}/`)) return pointer;
  const [index, ...rest] = pointer.slice(listPointer.length + 1).split('/');
  const place = Number(index);
  if (place === removed) return null;
  if (place < removed) return pointer;
  return [listPointer, place - 1, ...rest].join('/');
}
