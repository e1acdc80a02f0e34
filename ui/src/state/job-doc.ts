import type { Capture, Job } from '../backend/model';
import { app } from './app.svelte';
import { below, type Doc } from './doc';
import { valueAt, withAppended, withoutItem, withValue, type Pointer } from './pointer';
import { typedTexts } from './typed.svelte';

/** The job as the fields edit it. */
export const jobDoc: Doc = {
  get units() {
    return app.units;
  },
  get: (pointer) => valueAt(app.job, pointer),
  set: (pointer, value, captures) => change((job) => withValue(job, pointer, value), pointer, captures),
  shown: (pointer) => typedTexts.acceptedText(pointer) ?? app.shownTexts[pointer] ?? '',
  typed: (pointer) => typedTexts.get(pointer),
  keepTyped: (pointer, typed) => typedTexts.put(pointer, typed),
  accept(pointer, value, text, captures) {
    typedTexts.accepted(pointer, text);
    change((job) => withValue(job, pointer, value), pointer, captures);
  },
  // A check needs no log, which may be long.
  trial: (pointer, value) => withValue(app.job && { ...app.job, log: [] }, pointer, value),
  preview(pointer, value) {
    if (app.job) app.preview(withValue(app.job, pointer, value));
  },
  cancelPreview: () => app.cancelPreview(),
  noteText: (pointer, text) => typedTexts.accepted(pointer, text),
  removeFrom: (list, index) => removeItem(list, index),
  mayMiss: false,
  field: (pointer) => pointer,
};

/** `captures` tells what an instrument put in, by pointers within the item. */
export function appendItem<V>(list: Pointer<V[]>, value: NoInfer<V>, captures?: readonly Capture[]): void {
  const count = (valueAt(app.job, list) ?? []).length;
  change((job) => withAppended(job, list, value), `${list}/${count}`, captures);
}

export function removeItem<V>(list: Pointer<V[]>, index: number): void {
  typedTexts.itemRemoved(list, index);
  change((job) => withoutItem(job, list, index));
}

function change(to: (job: Job) => Job, pointer = '', captures: readonly Capture[] = []): void {
  if (app.job) app.commit(to(app.job), { captures: below(pointer, captures) });
}
