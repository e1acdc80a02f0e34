/** JSON pointers (RFC 6901) into immutable documents: every change makes a new document that shares the rest. */

export type Json = unknown;

export function tokens(pointer: string): string[] {
  if (pointer === '') return [];
  return pointer
    .slice(1)
    .split('/')
    .map((token) => token.replaceAll('~1', '/').replaceAll('~0', '~'));
}

export function valueAt(document: Json, pointer: string): Json {
  let here: Json = document;
  for (const token of tokens(pointer)) {
    if (here === null || typeof here !== 'object') return undefined;
    here = (here as Record<string, Json>)[token];
  }
  return here;
}

/** The document with the value at `pointer` replaced by what `change` makes of it. */
export function changedAt<D>(document: D, pointer: string, change: (old: Json) => Json): D {
  return changed(document, tokens(pointer), change) as D;
}

export function withValue<D>(document: D, pointer: string, value: Json): D {
  return changedAt(document, pointer, () => value);
}

export function withAppended<D>(document: D, listPointer: string, value: Json): D {
  return changedAt(document, listPointer, (list) => [...((list as Json[] | null) ?? []), value]);
}

export function withoutItem<D>(document: D, listPointer: string, index: number): D {
  return changedAt(document, listPointer, (list) => (list as Json[]).filter((_, i) => i !== index));
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
