/** Room for the map beside the pages: a tablet lying down, a laptop. */
class Wide {
  #query = matchMedia('(min-width: 62rem)');
  yes = $state(this.#query.matches);

  /** Room for a picture beside the map, too: from 1280 pixels on. */
  #roomyQuery = matchMedia('(min-width: 1280px)');
  roomy = $state(this.#roomyQuery.matches);

  constructor() {
    this.#roomyQuery.addEventListener('change', () => (this.roomy = this.#roomyQuery.matches));
    this.#query.addEventListener('change', () => (this.yes = this.#query.matches));
  }
}

export const wide = new Wide();
