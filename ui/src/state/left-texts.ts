import { app } from './app.svelte';
import { jobDoc } from './job-doc';
import { given, valueAt, tokens } from './pointer';
import { takeLeft } from './reading';
import { typedTexts } from './typed.svelte';

/** Takes in what stood in the job's fields when the app was closed over it: it was typed, so it counts. */
export async function takeLeftTexts(): Promise<void> {
  if (!app.job) return;
  for (const [pointer, { text }] of typedTexts.all()) {
    const here = valueAt(app.job, given(pointer));
    if (!hasPlace(pointer)) typedTexts.put(pointer, null);
    else if (typeof here === 'string') {
      typedTexts.put(pointer, null);
      if (text.trim() !== here) jobDoc.set(given<string>(pointer), text.trim());
    } else await takeLeft(jobDoc, given<number>(pointer), text);
  }
}

/** Whether the job still has what the field is a part of. */
function hasPlace(pointer: string): boolean {
  const owner = tokens(pointer).slice(0, -1);
  const value = valueAt(app.job, given(owner.map((token) => `/${token}`).join('')));
  return value !== null && typeof value === 'object';
}
