/** Does something once the page has nothing else to do. Not every browser says when that is. */
export function whenIdle(work: () => void): void {
  if ('requestIdleCallback' in window) requestIdleCallback(work, { timeout: 1000 });
  else setTimeout(work, 200);
}
