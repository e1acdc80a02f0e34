import type { Component } from 'svelte';
import { Attempt } from '../state/attempt.svelte';
import type { PagePath } from '../state/page-table';
import MapSide from './map/MapSide.svelte';

/** A page that is about one item is told which; a list with pages for its items takes both parts. */
export type View =
  Component<Record<string, never>> | Component<{ which?: string }> | Component<{ which: string }>;

/** The page that a job opens with. */
export type FirstPage = 'map';

type Others = Record<Exclude<PagePath, FirstPage>, View>;

/** What draws each page. All but the first is loaded once that is shown, or when it is first gone to. */
class Views {
  #others = $state.raw<Others | null>(null);
  /** The menu of the job, which comes with them. */
  menu = $state.raw<Component<{ close: () => void }> | null>(null);
  #loading = new Attempt();

  /** None while it is on its way. */
  of(page: PagePath): View | null {
    return page === 'map' ? MapSide : (this.#others?.[page] ?? null);
  }

  get loaded(): boolean {
    return this.#others !== null;
  }

  /** Why the pages could not be loaded. */
  get problem(): string {
    return this.#loading.problem && 'This page is not on the device yet, and there is no signal to fetch it.';
  }

  async load(): Promise<void> {
    if (this.#others) return;
    await this.#loading.run(async () => {
      const { OTHER_VIEWS, JobMenu } = await import('./other-views');
      [this.#others, this.menu] = [OTHER_VIEWS, JobMenu];
    });
  }
}

export const views = new Views();
