/** One place of a document that changed: a new value, nothing any more, or a list that got shorter. */
export type Change =
  | { at: readonly Step[]; is: unknown }
  | { at: readonly Step[]; gone: true }
  | { at: readonly Step[]; length: number };

type Step = string | number;
type Members = Record<string, unknown>;

/** What turns one document into another. Parts that both share are not looked into, so that it costs no more than
 * what was changed. */
export function changesBetween(before: unknown, after: unknown, at: readonly Step[] = []): Change[] {
  if (Object.is(before, after)) return [];
  if (Array.isArray(before) && Array.isArray(after)) return ofLists(before, after, at);
  if (isMembers(before) && isMembers(after)) return ofMembers(before, after, at);
  return [{ at, is: after }];
}

/** The document with the changes in it; what did not change is shared. Throws where they are not changes of it. */
export function withChanges(document: unknown, changes: readonly Change[]): unknown {
  return changes.reduce((now, change) => changed(now, change.at, change), document);
}

function ofLists(before: readonly unknown[], after: readonly unknown[], at: readonly Step[]): Change[] {
  const changes = after.flatMap((item, index) =>
    index < before.length
      ? changesBetween(before[index], item, [...at, index])
      : [{ at: [...at, index], is: item }],
  );
  return after.length < before.length ? [...changes, { at, length: after.length }] : changes;
}

function ofMembers(before: Members, after: Members, at: readonly Step[]): Change[] {
  // What is undefined is not written, so it is not there.
  const has = (members: Members, name: string) => Object.hasOwn(members, name) && members[name] !== undefined;
  const gone = Object.keys(before)
    .filter((name) => has(before, name) && !has(after, name))
    .map((name): Change => ({ at: [...at, name], gone: true }));
  const changes = Object.keys(after)
    .filter((name) => has(after, name))
    .flatMap((name): Change[] =>
      has(before, name)
        ? changesBetween(before[name], after[name], [...at, name])
        : [{ at: [...at, name], is: after[name] }],
    );
  return [...gone, ...changes];
}

function changed(value: unknown, [step, ...rest]: readonly Step[], change: Change): unknown {
  if (step === undefined) return here(value, change);
  if (Array.isArray(value) && typeof step === 'number' && step <= value.length) {
    const copy: unknown[] = [...(value as unknown[])];
    copy[step] = changed(copy[step], rest, change);
    return copy;
  }
  if (isMembers(value) && typeof step === 'string') {
    if ('gone' in change && rest.length === 0) {
      return Object.fromEntries(Object.entries(value).filter(([name]) => name !== step));
    }
    return { ...value, [step]: changed(value[step], rest, change) };
  }
  throw new Error(`There is no ${step} to change.`);
}

function here(value: unknown, change: Change): unknown {
  if ('is' in change) return change.is;
  if ('length' in change && Array.isArray(value)) return value.slice(0, change.length);
  throw new Error('There is nothing to shorten or to take away.');
}

function isMembers(value: unknown): value is Members {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
