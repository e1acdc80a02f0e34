import type { Job } from '../backend/model';
import { app } from './app.svelte';
import type { Doc } from './doc';
import { valueAt, withAppended, withoutItem, withValue } from './pointer';
import { typedTexts } from './typed.svelte';

/** The job as the fields edit it. */
export const jobDoc: Doc = {
  get units() {
    return app.units;
  },
  get: (pointer) => valueAt(app.job, pointer),
  set: (pointer, value) => change((job) => withValue(job, pointer, value)),
  shown: (pointer) => typedTexts.acceptedText(pointer) ?? app.shownTexts[pointer] ?? '',
  typed: (pointer) => typedTexts.get(pointer),
  keepTyped: (pointer, typed) => typedTexts.put(pointer, typed),
  accept(pointer, value, text) {
    typedTexts.accepted(pointer, text);
    change((job) => withValue(job, pointer, value));
  },
  trial: (pointer, value) => withValue(app.job, pointer, value),
  noteText: (pointer, text) => typedTexts.accepted(pointer, text),
  removeFrom: (list, index) => removeItem(list, index),
  mayMiss: false,
  field: (pointer) => pointer,
};

export function appendItem(list: string, value: unknown): void {
  change((job) => withAppended(job, list, value));
}

export function removeItem(list: string, index: number): void {
  typedTexts.itemRemoved(list, index);
  change((job) => withoutItem(job, list, index));
}

function change(to: (job: Job) => Job): void {
  if (app.job) app.commit(to(app.job));
}
