import { backend, Refused } from '../backend';
import type { FieldError } from '../backend/model';
import type { Doc } from './doc';
import type { Pointer } from './pointer';
import { why } from './why';

/** What a text says in a number field: the number, or why the job can't have it there. */
export type Said = { value: number } | { problem: string };

/** Reads a text and asks whether the job allows the number in that field. */
export async function readNumber(doc: Doc, pointer: Pointer<number | null>, text: string): Promise<Said> {
  const field = doc.field(pointer);
  try {
    const { value } = await backend.call('read_entry', { field, text, units: doc.units });
    const { errors } = await backend.call('check', { job: doc.trial(pointer, value) });
    const here = errors.filter((error) => error.path === field);
    return here.length === 0 ? { value } : { problem: allowed(here) };
  } catch (error) {
    return { problem: error instanceof Refused ? allowed(error.errors) : why(error) };
  }
}

const allowed = (errors: FieldError[]) => `Allowed: ${errors.map((error) => error.allowed).join('; ')}`;

/** Takes in a text that was left in a field when the app was closed over it. */
export async function takeLeft(doc: Doc, pointer: Pointer<number | null>, text: string): Promise<void> {
  // Not at once: drafts are opened while the screen is being drawn.
  await Promise.resolve();
  const entered = text.trim();
  if (entered === '') return doc.keepTyped(pointer, null);
  const said = await readNumber(doc, pointer, entered);
  if (doc.typed(pointer)?.text !== text) return;
  if ('value' in said) doc.accept(pointer, said.value, entered);
  else doc.keepTyped(pointer, { text, problem: said.problem });
}
