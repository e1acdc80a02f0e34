import type { Scene, SceneShape } from '../../backend/model';
import { toScreen, type View } from '../../state/view';
import { shiftInside } from './lettering';
import { pathData } from './path';

const SVG = 'http://www.w3.org/2000/svg';

/** Lettering on the screen; the engine is told what it measures in metres and keeps labels clear by it. */
export const TEXT_PX = 13;

/** Paints a scene into an SVG and keeps its elements for the next one: only attributes that changed are
 * touched, so that a dragged mast costs a few attributes a frame and no layout. */
export class ScenePainter {
  #ground: Pool;
  #signs: Pool;
  #words: Pool;
  #scene: Scene | null = null;
  #view: View | null = null;
  #textPx = TEXT_PX;
  readonly #world: SVGGElement;
  readonly #lettering: SVGGElement;

  constructor(svg: SVGElement) {
    this.#world = group(svg, 'world');
    this.#ground = new Pool(this.#world, 'path');
    this.#signs = new Pool(group(svg, 'signs'), 'use');
    this.#lettering = group(svg, 'words');
    this.#lettering.setAttribute('font-size', String(TEXT_PX));
    this.#words = new Pool(this.#lettering, 'text');
  }

  paint(scene: Scene): void {
    this.#scene = scene;
    this.#ground.begin();
    for (const shape of scene.shapes) {
      const data = pathData(shape.geometry);
      if (data === '') continue;
      if (shape.role.startsWith('buried_') && shape.role !== 'buried_zone') this.#line('casing', data);
      this.#line(shape.role, data);
    }
    this.#ground.end();
    this.#placeOverlay();
  }

  look(view: View, textPx = TEXT_PX): void {
    this.#view = view;
    if (textPx !== this.#textPx) this.#lettering.setAttribute('font-size', String(textPx));
    this.#textPx = textPx;
    const { width, height, scale, east, north } = view;
    const shift = `${width / 2 - east * scale} ${height / 2 + north * scale}`;
    this.#world.setAttribute('transform', `matrix(${scale} 0 0 ${-scale} ${shift})`);
    this.#placeOverlay();
  }

  #line(role: string, data: string): void {
    const slot = this.#ground.next();
    slot.set('class', `r-${role}`);
    slot.set('d', data);
  }

  #placeOverlay(): void {
    const view = this.#view;
    if (!this.#scene || !view) return;
    this.#signs.begin();
    this.#words.begin();
    for (const shape of this.#scene.shapes) {
      if (shape.geometry.kind === 'sign') this.#sign(shape.role, shape.geometry, view);
      else if (shape.geometry.kind === 'words') this.#word(shape.role, shape.geometry, view);
    }
    this.#signs.end();
    this.#words.end();
  }

  #sign(role: string, sign: Extract<SceneShape['geometry'], { kind: 'sign' }>, view: View): void {
    const slot = this.#signs.next();
    slot.set('class', `s-${role}`);
    slot.set('href', `#sign-${SIGNS.has(role) ? role : 'dot'}`);
    slot.set('transform', `${moved(view, sign.at)} rotate(${sign.turn_deg}) scale(${this.#textPx})`);
  }

  #word(role: string, words: Extract<SceneShape['geometry'], { kind: 'words' }>, view: View): void {
    const slot = this.#words.next();
    slot.set('class', `w-${role}`);
    slot.set('text-anchor', words.align);
    const [x] = toScreen(view, words.at);
    const shift =
      words.turn_deg === 0 ? shiftInside(x, words.text, words.align, this.#textPx, view.width) : 0;
    slot.set('transform', `${moved(view, words.at, shift)} rotate(${words.turn_deg})`);
    slot.text(words.text);
  }
}

/** Signs that `MapSigns.svelte` draws. */
export const SIGNS: ReadonlySet<string> = new Set([
  'mast_axis',
  'anchor',
  'conflict',
  'mark',
  'stake',
  'spot_height',
  'overhead_support',
  'north',
  'fall_line',
  'dimension',
]);

function moved(view: View, at: readonly [number, number], shift = 0): string {
  const [x, y] = toScreen(view, at);
  return `translate(${Math.round((x + shift) * 10) / 10} ${Math.round(y * 10) / 10})`;
}

function group(parent: SVGElement, name: string): SVGGElement {
  const g = document.createElementNS(SVG, 'g');
  g.setAttribute('class', name);
  parent.append(g);
  return g;
}

/** Elements of one kind, used again in their order. */
class Pool {
  #slots: Slot[] = [];
  #used = 0;
  #shown = 0;

  constructor(
    private readonly parent: SVGGElement,
    private readonly tag: string,
  ) {}

  begin(): void {
    this.#used = 0;
  }

  next(): Slot {
    let slot = this.#slots[this.#used];
    if (!slot) {
      slot = new Slot(document.createElementNS(SVG, this.tag) as SVGElement);
      this.#slots.push(slot);
    }
    if (this.#used >= this.#shown) {
      this.parent.append(slot.element);
      this.#shown = this.#used + 1;
    }
    this.#used += 1;
    return slot;
  }

  end(): void {
    for (let i = this.#used; i < this.#shown; i++) this.#slots[i]?.element.remove();
    this.#shown = Math.min(this.#shown, this.#used);
  }
}

/** An element with what was last written to it. */
class Slot {
  #written = new Map<string, string>();
  #text = '';

  constructor(readonly element: SVGElement) {}

  set(name: string, value: string): void {
    if (this.#written.get(name) === value) return;
    this.#written.set(name, value);
    this.element.setAttribute(name, value);
  }

  text(value: string): void {
    if (this.#text === value) return;
    this.#text = value;
    this.element.textContent = value;
  }
}
