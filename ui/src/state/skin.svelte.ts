import { keep, kept } from './kept';

export const SKINS = [
  { id: 'auto', name: 'As the phone' },
  { id: 'daylight', name: 'Daylight' },
  { id: 'lantern', name: 'Lantern (dark)' },
  { id: 'sun', name: 'Full sun' },
] as const;
export type SkinId = (typeof SKINS)[number]['id'];

/** Which set of colours is on; `auto` follows the phone's own light or dark. */
class Skin {
  chosen = $state<SkinId>(kept<SkinId>('skin') ?? 'auto');
  #dark = matchMedia('(prefers-color-scheme: dark)');

  constructor() {
    this.#dark.addEventListener('change', () => this.#paint());
    this.#paint();
  }

  choose(id: SkinId): void {
    this.chosen = id;
    keep('skin', id);
    this.#paint();
  }

  #paint(): void {
    const auto = this.#dark.matches ? 'lantern' : 'daylight';
    document.documentElement.dataset.skin = this.chosen === 'auto' ? auto : this.chosen;
  }
}

export const skin = new Skin();
