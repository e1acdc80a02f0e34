import { SIGNS } from '../../backend/key';
import type { Scene, SceneShape } from '../../backend/model';
import { toScreen, type View } from '../../state/view';
import { shiftInside } from './lettering';
import { pathData } from './path';

const SVG = 'http://www.w3.org/2000/svg';

/** Lettering on the screen; the engine is told what it measures in metres and keeps labels clear by it. */
export const TEXT_PX = 13;

/** Paints a scene and keeps its elements for the next one: only attributes that changed are touched, so that a
 * dragged mast costs a few attributes a frame. What does not move with the mast has a picture of its own below
 * the rest, which the browser need not look at while the mast is dragged. */
export class ScenePainter {
  readonly #static: Layer;
  readonly #moving: Layer;
  readonly #words: Words;
  /** The first static shape that was painted: they come and go together. */
  #painted: SceneShape | undefined;

  constructor(fixed: SVGElement, moving: SVGElement) {
    this.#static = new Layer(fixed);
    this.#moving = new Layer(moving);
    this.#words = new Words(moving);
  }

  paint({ shapes, static_count: count }: Scene): void {
    if (count === 0 || shapes[0] !== this.#painted) this.#static.paint(shapes.slice(0, count));
    this.#painted = shapes[0];
    const moving = shapes.slice(count);
    this.#moving.paint(moving);
    this.#words.paint(moving);
  }

  look(view: View, textPx = TEXT_PX): void {
    for (const part of [this.#static, this.#moving, this.#words]) part.look(view, textPx);
  }
}

/** Lines and areas in metres, and the signs upon them. */
class Layer {
  #shapes: readonly SceneShape[] = [];
  #view: View | null = null;
  #textPx = TEXT_PX;
  readonly #world: SVGGElement;
  readonly #ground: Pool;
  readonly #signs: Pool;

  constructor(svg: SVGElement) {
    this.#world = group(svg, 'world');
    this.#ground = new Pool(this.#world, 'path');
    this.#signs = new Pool(group(svg, 'signs'), 'use');
  }

  paint(shapes: readonly SceneShape[]): void {
    this.#shapes = shapes;
    this.#ground.begin();
    for (const [role, data] of runs(shapes)) {
      if (role.startsWith('buried_') && role !== 'buried_zone') this.#line('casing', data);
      this.#line(role, data);
    }
    this.#ground.end();
    this.#placeSigns();
  }

  look(view: View, textPx: number): void {
    this.#view = view;
    this.#textPx = textPx;
    const { width, height, scale, east, north } = view;
    const shift = `${width / 2 - east * scale} ${height / 2 + north * scale}`;
    this.#world.setAttribute('transform', `matrix(${scale} 0 0 ${-scale} ${shift})`);
    this.#placeSigns();
  }

  #line(role: string, data: string): void {
    const slot = this.#ground.next();
    slot.set('class', `r-${role}`);
    slot.set('d', data);
  }

  #placeSigns(): void {
    if (!this.#view) return;
    this.#signs.begin();
    for (const { role, geometry } of this.#shapes) {
      if (geometry.kind !== 'sign') continue;
      const slot = this.#signs.next();
      slot.set('class', `s-${role}`);
      slot.set('href', `#sign-${SIGNS[role] ? role : 'dot'}`);
      const place = moved(this.#view, geometry.at);
      slot.set('transform', `${place} rotate(${geometry.turn_deg}) scale(${this.#textPx})`);
    }
    this.#signs.end();
  }
}

/** The paths of shapes, those of one role in a row as one: a browser looks at every path that changes, and a cone
 * has two dozen strands. */
function runs(shapes: readonly SceneShape[]): [string, string][] {
  const paths: [string, string][] = [];
  for (const { role, geometry } of shapes) {
    const data = pathData(geometry);
    if (data === '') continue;
    const last = paths.at(-1);
    if (last?.[0] === role) last[1] += data;
    else paths.push([role, data]);
  }
  return paths;
}

/** The lettering, over everything. */
class Words {
  #shapes: readonly SceneShape[] = [];
  #view: View | null = null;
  #textPx = TEXT_PX;
  readonly #lettering: SVGGElement;
  readonly #words: Pool;

  constructor(svg: SVGElement) {
    this.#lettering = group(svg, 'words');
    this.#lettering.setAttribute('font-size', String(TEXT_PX));
    this.#words = new Pool(this.#lettering, 'text');
  }

  paint(shapes: readonly SceneShape[]): void {
    this.#shapes = shapes;
    this.#place();
  }

  look(view: View, textPx: number): void {
    this.#view = view;
    if (textPx !== this.#textPx) this.#lettering.setAttribute('font-size', String(textPx));
    this.#textPx = textPx;
    this.#place();
  }

  #place(): void {
    if (!this.#view) return;
    this.#words.begin();
    for (const { role, geometry } of this.#shapes) {
      if (geometry.kind === 'words') this.#word(role, geometry, this.#view);
    }
    this.#words.end();
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
