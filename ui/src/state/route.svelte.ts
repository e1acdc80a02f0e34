export const TABS = ['measure', 'parts', 'map', 'build', 'checks'] as const;
export type Tab = (typeof TABS)[number];

/** Where in the app the user is, kept in the address so that the phone's back gesture works: `#measure/slopes/2`. */
class Route {
  path = $state.raw<string[]>(read());

  constructor() {
    addEventListener('hashchange', () => (this.path = read()));
  }

  get tab(): Tab {
    const first = this.path[0];
    return TABS.find((tab) => tab === first) ?? 'map';
  }

  /** The part after the tab. */
  get rest(): string[] {
    return this.path.slice(1);
  }

  go(path: string): void {
    location.hash = path;
    this.path = read();
  }

  /** Goes without leaving a step for the back gesture. */
  replace(path: string): void {
    history.replaceState(null, '', `#${path}`);
    this.path = read();
  }
}

function read(): string[] {
  return location.hash.replace(/^#\/?/, '').split('/').filter(Boolean).map(decodeURIComponent);
}

export const route = new Route();
