import type { Workbox } from 'workbox-window';

/** How far this page gets without a signal. */
export type Offline =
  /** This browser, or this address, lets nothing be kept for it. */
  | 'never'
  /** The files are being fetched. */
  | 'fetching'
  /** All of it is on this device. */
  | 'ready'
  /** The files could not all be fetched; the next visit tries again. */
  | 'failed';

export interface OfflineTold {
  state(is: Offline): void;
  /** A newer Mastwright lies ready; `use` puts it in place and loads the page again. */
  newer(use: () => void): void;
  /** Another window has put a newer Mastwright in place: this one still runs the older. */
  replaced(): void;
}

/** How often a page that stays open asks whether there is a newer Mastwright. */
const ASK_AGAIN_MS = 60 * 60 * 1000;

/**
 * Hears of another window that puts a newer Mastwright in place while this page has not got as far as `keepOffline`. A page
 * that is kept already changes hands for no other reason. What comes back ends it.
 */
export function hearReplaced(replaced: () => void): () => void {
  const workers = 'serviceWorker' in navigator ? navigator.serviceWorker : null;
  if (!workers?.controller) return () => undefined;
  workers.addEventListener('controllerchange', replaced);
  return () => workers.removeEventListener('controllerchange', replaced);
}

/** Keeps the whole app on this device, once the page itself is loaded. Browsers allow it at https addresses whose
 * certificate they trust, and at localhost. `unheard` ends what `hearReplaced` began. */
export async function keepOffline(told: OfflineTold, unheard: () => void): Promise<void> {
  if (!window.isSecureContext || !('serviceWorker' in navigator)) {
    unheard();
    return told.state('never');
  }
  // Long enough to be a file of its own, which nobody's first map waits for.
  const kind = await import('workbox-window').catch(() => null);
  unheard();
  if (!kind) return told.state('failed');
  const worker = new kind.Workbox(new URL('sw.js', document.baseURI).href, { updateViaCache: 'none' });
  let asked = false;
  worker.addEventListener('installed', ({ isUpdate }) => {
    if (!isUpdate) told.state('ready');
  });
  worker.addEventListener('waiting', () =>
    told.newer(() => {
      asked = true;
      worker.messageSkipWaiting();
    }),
  );
  worker.addEventListener('controlling', ({ isUpdate, isExternal }) => {
    if (asked) location.reload();
    else if (isUpdate || isExternal) told.replaced();
  });
  told.state('fetching');
  try {
    const registration = await worker.register();
    if (!registration) return told.state('never');
    if (registration.active) told.state('ready');
    registration.installing?.addEventListener('statechange', (event) => {
      const { state } = event.target as ServiceWorker;
      if (state === 'redundant' && !registration.active) told.state('failed');
    });
    askAgain(worker);
  } catch (error) {
    // A certificate that was only clicked through, a private window, or no signal just now.
    told.state(error instanceof DOMException && error.name === 'SecurityError' ? 'never' : 'failed');
  }
}

function askAgain(worker: Workbox): void {
  let last = Date.now();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'visible' || Date.now() - last < ASK_AGAIN_MS) return;
    last = Date.now();
    // Without a signal there is nothing to be told.
    worker.update().catch(() => undefined);
  });
}
