import { tick } from 'svelte';
import { pageOf } from './pages';

/** Brings the field of a pointer into view on the page that a link has just opened: the field itself, else one of those
 * that make it up, such as the numbers of an anchor. */
export async function toField(pointer: string): Promise<void> {
  // The link changes the address first; the page follows it.
  await new Promise((done) => requestAnimationFrame(done));
  await tick();
  const at = CSS.escape(pointer);
  const field =
    document.querySelector<HTMLElement>(`[data-pointer="${at}"]`) ??
    document.querySelector<HTMLElement>(`[data-pointer^="${at}/"]`);
  field?.scrollIntoView({ block: 'center' });
  field?.focus({ preventScroll: true });
}

/** Address of the page on which a field is entered. */
export const fieldAddress = (pointer: string) => `#/${pageOf(pointer)}`;
