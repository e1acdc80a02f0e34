import { pageAt, type FoundPage } from './page-table';

export const TABS = ['measure', 'parts', 'map', 'build', 'checks'] as const;
export type Tab = (typeof TABS)[number];

/** What the browser's history keeps of one step. */
interface Step {
  /** Counts up from the first page that was opened. */
  depth: number;
  /** Address of the page from which this one was opened; null for the first one. */
  from: string | null;
  /** How many sheets lie open over the page: each is a step of its own, which Back takes off. */
  sheets: number;
}

interface OpenSheet {
  close: () => void;
  gone: boolean;
}

/**
 * Where in the app the user is, as `#/measure/soil`: with the slash an address is a page and no place within this one,
 * for a browser's reader too, kept in the address and in the browser's history: so the phone's back gesture closes
 * what was opened last, and leads from each page to the one it was opened from.
 */
class Route {
  path = $state.raw<string[]>(read());
  /** Counts the pages that were gone to: each begins with the focus on its heading. */
  arrivals = $state(0);
  /** Where the page that was arrived at was scrolled to when it was left. */
  top = 0;
  /** Tells how far the page in hand is scrolled. */
  scrolled: () => number = () => 0;

  #step: Step;
  #tops = new Map<number, number>();
  #sheets: OpenSheet[] = [];
  /** A step back was asked of the browser, which takes it a moment later. */
  #stepping = false;
  #afterStep: (() => void)[] = [];

  constructor() {
    // After a reload no sheet is open.
    this.#step = this.#write({ ...(stepOf(history.state) ?? { depth: 0, from: null }), sheets: 0 });
    addEventListener('popstate', () => this.#moved());
    addEventListener('hashchange', () => this.#moved());
    addEventListener('click', (event) => event instanceof MouseEvent && this.#clicked(event));
  }

  get tab(): Tab {
    const first = this.page.page.split('/')[0];
    return TABS.find((tab) => tab === first) ?? 'map';
  }

  get page(): FoundPage {
    return pageAt(this.path);
  }

  /** The address in hand. */
  get address(): string {
    return this.path.map(encodeURIComponent).join('/');
  }

  go(path: string): void {
    this.#whenStill(() => {
      const next = { depth: this.#step.depth + 1, from: this.address, sheets: 0 };
      this.#tops.set(this.#step.depth - this.#step.sheets, this.scrolled());
      if (this.#step.sheets > 0) {
        // The page takes the place of the sheet in the history.
        this.#write({ ...next, depth: this.#step.depth }, path);
        this.#closeSheets(0);
      } else if (path !== this.address) {
        history.pushState(next, '', `#/${path}`);
        this.#step = next;
      }
      this.#arrive(0);
    });
  }

  /** Goes without leaving a step for the back gesture, the focus staying where it is. */
  replace(path: string): void {
    this.#whenStill(() => {
      this.#write(this.#step, path);
      this.path = read();
    });
  }

  /** The things that pages are about stand elsewhere now: the page in hand, and the one that it was opened from. */
  carry(to: (address: string) => string): void {
    const [address, { from }] = [to(this.address), this.#step];
    const next = from === null ? null : to(from);
    if (address === this.address && next === from) return;
    this.#whenStill(() => {
      this.#write({ ...this.#step, from: next }, address);
      this.path = read();
    });
  }

  /** Back to where this page was opened from; to the page given where it was opened by its address alone. */
  back(otherwise: string): void {
    this.#whenStill(() => {
      const { from, depth } = this.#step;
      if (from === null) {
        this.#write(this.#step, otherwise);
        this.#arrive(0);
        return;
      }
      // At once: what this page showed may be gone from the job by now.
      this.path = parse(from);
      this.arrivals += 1;
      this.top = this.#tops.get(depth - 1) ?? 0;
      this.#stepBack();
    });
  }

  /** To another page in the place of this one, which is done with: back where it was opened from there. */
  leaveFor(path: string): void {
    if (this.#step.from === path) this.back(path);
    else
      this.#whenStill(() => {
        this.#write(this.#step, path);
        this.#arrive(0);
      });
  }

  /** Gives an open sheet its step in the history, so that Back closes it. Returns what to do once it is closed. */
  openSheet(close: () => void): () => void {
    const sheet: OpenSheet = { close, gone: false };
    this.#whenStill(() => {
      if (sheet.gone) return;
      this.#sheets.push(sheet);
      const { depth, from, sheets } = this.#step;
      const next = { depth: depth + 1, from, sheets: sheets + 1 };
      history.pushState(next, '');
      this.#step = next;
    });
    return () => {
      sheet.gone = true;
      const at = this.#sheets.indexOf(sheet);
      if (at < 0) return;
      this.#sheets.splice(at, 1);
      this.#whenStill(() => {
        if (this.#step.sheets > this.#sheets.length) this.#stepBack();
      });
    };
  }

  #clicked(event: MouseEvent): void {
    const plain = event.button === 0 && !event.ctrlKey && !event.metaKey && !event.shiftKey && !event.altKey;
    const link = event.target instanceof Element ? event.target.closest('a[href^="#"]') : null;
    if (!plain || !link || event.defaultPrevented) return;
    event.preventDefault();
    this.go((link.getAttribute('href') ?? '').replace(/^#\/?/, ''));
  }

  /** The browser has moved in its history, or somebody typed an address. */
  #moved(): void {
    const step = stepOf(history.state);
    if (step === null) {
      // A link to the page in hand, which the browser took for a new one.
      if (read().join('/') === this.path.join('/')) {
        this.#write(this.#step);
        return;
      }
      this.#step = this.#write({ depth: this.#step.depth + 1, from: this.address, sheets: 0 });
      this.#closeSheets(0);
      this.#arrive(0);
      return;
    }
    const was = this.#step;
    if (step.depth === was.depth && !this.#stepping) return;
    this.#step = step;
    this.#closeSheets(step.sheets);
    if (this.#stepping) this.#stepped();
    else if (was.sheets === 0 || step.sheets === 0) this.#shown(was, step);
    // The step of a sheet that is not open any more shows nothing new.
    if (step.sheets > this.#sheets.length && !this.#stepping) this.#stepBack();
  }

  #shown(was: Step, step: Step): void {
    if (read().join('/') === this.path.join('/')) return;
    if (step.depth > was.depth) this.#tops.set(was.depth, this.scrolled());
    this.#arrive(this.#tops.get(step.depth) ?? 0);
  }

  #arrive(top: number): void {
    this.top = top;
    this.path = read();
    this.arrivals += 1;
  }

  #stepBack(): void {
    this.#stepping = true;
    history.back();
  }

  #stepped(): void {
    this.#stepping = false;
    if (read().join('/') !== this.path.join('/')) this.path = read();
    for (const next of this.#afterStep.splice(0)) this.#whenStill(next);
  }

  #whenStill(act: () => void): void {
    if (this.#stepping) this.#afterStep.push(act);
    else act();
  }

  /** Closes the sheets above the first `left`. */
  #closeSheets(left: number): void {
    for (const sheet of this.#sheets.splice(left).reverse()) sheet.close();
  }

  #write(step: Step, path?: string): Step {
    history.replaceState(step, '', path === undefined ? undefined : `#/${path}`);
    this.#step = step;
    return step;
  }
}

function stepOf(state: unknown): Step | null {
  if (state === null || typeof state !== 'object' || !('depth' in state)) return null;
  return state as Step;
}

function read(): string[] {
  return parse(location.hash);
}

/** An address without its slash is one from before. */
function parse(address: string): string[] {
  return address.replace(/^#\/?/, '').split('/').filter(Boolean).map(decodeURIComponent);
}

export const route = new Route();
