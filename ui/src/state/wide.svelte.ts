/** Room for the map beside the pages: a tablet lying down, a laptop. */
class Wide {
  #query = matchMedia('(min-width: 62rem)');
  yes = $state(this.#query.matches);

  constructor() {
    this.#query.addEventListener('change', () => (this.yes = this.#query.matches));
  }
}

export const wide = new Wide();
