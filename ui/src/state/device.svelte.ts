import { backend } from '../backend';
import type { Offline } from '../backend/offline';

/** Whether the browser promised to keep what is entered. */
type Promised = 'unasked' | 'yes' | 'no' | 'unknown';

/** What Chromium tells a page that can be put on the home screen; not in the standard's DOM types. */
interface InstallAsked extends Event {
  prompt(): Promise<unknown>;
}

/** What this device does for Mastwright: keeps it for use without a signal, keeps the jobs, shows it as an app. */
class Device {
  offline = $state<Offline | 'inside'>(backend.name === 'tauri' ? 'inside' : 'fetching');
  promised = $state<Promised>(backend.name === 'tauri' ? 'yes' : 'unasked');
  /** Puts a newer Mastwright in place and loads the page again. */
  newer = $state.raw<(() => void) | null>(null);
  /** Another window did so: here runs the older one. */
  replaced = $state(false);
  /** Puts Mastwright on the home screen, where the browser offers that. */
  install = $state.raw<(() => void) | null>(null);

  start(): void {
    addEventListener('beforeinstallprompt', (event) => {
      // Offered in the menu, not over the work.
      event.preventDefault();
      this.install = () => {
        this.install = null;
        void (event as InstallAsked).prompt();
      };
    });
    addEventListener('appinstalled', () => (this.install = null));
    void this.#lookUp();
    void backend.keepOffline({
      state: (is) => (this.offline = is),
      newer: (use) => (this.newer = use),
      replaced: () => {
        this.newer = null;
        this.replaced = true;
      },
    });
  }

  /** Asks the browser not to clear what is kept here when it runs short of room; once there is something of one's own. */
  async askToKeep(): Promise<void> {
    if (this.promised !== 'unasked') return;
    this.promised = 'unknown';
    try {
      this.promised = (await navigator.storage.persist()) ? 'yes' : 'no';
    } catch {
      // No such question in this browser, or not at this address.
    }
  }

  /** What was promised at an earlier visit still holds. */
  async #lookUp(): Promise<void> {
    try {
      if (this.promised === 'unasked' && (await navigator.storage.persisted())) this.promised = 'yes';
    } catch {
      this.promised = 'unknown';
    }
  }
}

export const device = new Device();
