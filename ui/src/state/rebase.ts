import type { Json } from './pointer';

type Members = Record<string, Json>;

/** The new document with the parts of the old one in it that say the same: so what did not change is found without looking
 * into it. */
export function sharing<T>(old: T, fresh: T): T {
  return shared(old, fresh) as T;
}

function shared(old: Json, fresh: Json): Json {
  if (Object.is(old, fresh)) return old;
  if (Array.isArray(old) && Array.isArray(fresh)) {
    const before = byKey(old);
    const items = fresh.map((item: Json, i) =>
      shared(before ? before.get(keyOf(item) ?? '') : (old as Json[])[i], item),
    );
    return items.length === old.length && items.every((item, i) => Object.is(item, old[i])) ? old : items;
  }
  if (!isMembers(old) || !isMembers(fresh)) return fresh;
  const names = Object.keys(fresh);
  const members = Object.fromEntries(names.map((name) => [name, shared(old[name], fresh[name])]));
  const isSame =
    names.length === Object.keys(old).length &&
    names.every((name) => Object.hasOwn(old, name) && Object.is(members[name], old[name]));
  return isSame ? old : members;
}

/**
 * An earlier state, with what came from elsewhere since in it: `base` is what stood here when that came, `merged` what stands
 * here since. What was changed elsewhere is as it is now, all else as it was then; so undo takes back what was done here, and
 * nothing that another device wrote. `merged` shares with `base` what both have (`sharing`).
 */
export function rebased<T>(earlier: T, base: T, merged: T): T {
  return onto(earlier, base, merged) as T;
}

function onto(earlier: Json, base: Json, merged: Json): Json {
  if (Object.is(base, merged)) return earlier;
  if (Object.is(earlier, base)) return merged;
  if (Array.isArray(earlier) && Array.isArray(base) && Array.isArray(merged))
    return listOnto(earlier, base, merged);
  // Half of one reading and half of another is one that nobody took; so are half a tree and half a wall.
  if (!isMembers(earlier) || !isMembers(base) || !isMembers(merged) || isOneOfKinds(merged)) return merged;
  const names = [...new Set([...Object.keys(merged), ...Object.keys(earlier)])];
  const members = names.map((name) => [name, onto(earlier[name], base[name], merged[name])] as const);
  return Object.fromEntries(members.filter(([, value]) => value !== undefined));
}

function listOnto(earlier: Json[], base: Json[], merged: Json[]): Json {
  const [was, stood, stands] = [byKey(earlier), byKey(base), byKey(merged)];
  // Without ids nobody can say which item is which.
  if (!was || !stood || !stands) return merged;
  const items = merged.filter((item) => {
    const key = keyOf(item) ?? '';
    // Added here since: it is gone again, unless somebody else went on with it.
    return was.has(key) || !stood.has(key) || !Object.is(stood.get(key), item);
  });
  const found = items.map((item) => {
    const key = keyOf(item) ?? '';
    return was.has(key) && stood.has(key) ? onto(was.get(key), stood.get(key), item) : item;
  });
  // Taken out here since: it is back where it stood.
  earlier.forEach((item, i) => {
    const key = keyOf(item) ?? '';
    if (stood.has(key) || stands.has(key)) return;
    const before = keyOf(earlier[i - 1]);
    const at = before === null ? -1 : found.findIndex((one) => keyOf(one) === before);
    found.splice(at < 0 && i > 0 ? found.length : at + 1, 0, item);
  });
  return found;
}

/** Where what lay at a pointer in the job before lies in the job after; null where it is gone. Items of lists are the same
 * where their ids are. */
export function carried(pointer: string, before: Json, after: Json): string | null {
  let [was, is] = [before, after];
  let found = '';
  for (const step of pointer.split('/').slice(1)) {
    const name = step.replaceAll('~1', '/').replaceAll('~0', '~');
    if (Array.isArray(was) && Array.isArray(is)) {
      const index = Number(name);
      const key = keyOf((was as Json[])[index]);
      // The place behind the last one is that of an item to come.
      const at =
        index === was.length ? is.length : key === null ? index : is.findIndex((item) => keyOf(item) === key);
      if (at < 0) return null;
      [was, is, found] = [(was as Json[])[index], (is as Json[])[at], `${found}/${at}`];
    } else {
      [was, is, found] = [memberOf(was, name), memberOf(is, name), `${found}/${step}`];
    }
  }
  return found;
}

const memberOf = (value: Json, name: string): Json => (isMembers(value) ? value[name] : undefined);

/** What an item of a list is told from others by. */
export function keyOf(item: Json): string | null {
  if (!isMembers(item)) return null;
  const key = item.id ?? item.guy ?? item.leg;
  return typeof key === 'string' ? key : null;
}

/** None where not every item has a key of its own. */
function byKey(items: readonly Json[]): Map<string, Json> | null {
  const found = new Map(items.map((item) => [keyOf(item), item]));
  return found.has(null) || found.size < items.length ? null : (found as Map<string, Json>);
}

/** A value of one of several kinds, each with fields of its own; or a reading, which is struck out as a whole, or is of a
 * guy or leg as it was built. */
const isOneOfKinds = (value: Members) =>
  ['by', 'kind', 'rule', 'struck', 'guy', 'leg'].some((name) => Object.hasOwn(value, name));

function isMembers(value: Json): value is Members {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
