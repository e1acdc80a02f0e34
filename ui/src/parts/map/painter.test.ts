import { beforeEach, expect, it, vi } from 'vitest';
import type { Scene, SceneShape } from '../../backend/model';
import { ScenePainter } from './painter';

/** As much of an SVG element as the painter uses, counting what is written to it. */
class FakeElement {
  static writes = 0;
  attributes: Record<string, string> = {};
  children: FakeElement[] = [];
  parent: FakeElement | null = null;
  #text = '';

  constructor(readonly tag: string) {}

  setAttribute(name: string, value: string) {
    FakeElement.writes += 1;
    this.attributes[name] = value;
  }

  append(child: FakeElement) {
    child.parent = this;
    this.children.push(child);
  }

  remove() {
    if (this.parent) this.parent.children = this.parent.children.filter((child) => child !== this);
  }

  get textContent() {
    return this.#text;
  }

  set textContent(text: string) {
    FakeElement.writes += 1;
    this.#text = text;
  }
}

beforeEach(() => {
  vi.stubGlobal('document', { createElementNS: (_: string, tag: string) => new FakeElement(tag) });
});

const guy = (east: number): SceneShape => ({
  role: 'guy',
  subject: { kind: 'guy', id: 'upper-1' },
  geometry: {
    kind: 'line',
    points: [
      [0, 0],
      [east, 0],
    ],
  },
});
const pipe: SceneShape = { ...guy(4), role: 'buried_potable_water' };
const label: SceneShape = {
  role: 'label',
  subject: null,
  geometry: { kind: 'words', at: [1, 1], text: '4.20 m', align: 'middle', turn_deg: 0 },
};

const scene = (...shapes: SceneShape[]): Scene => ({
  title: '',
  description: '',
  bounds: { min: [0, 0], max: [1, 1] },
  static_count: 0,
  shapes,
});

function painted(...shapes: SceneShape[]) {
  const [below, svg] = [new FakeElement('svg'), new FakeElement('svg')];
  const painter = new ScenePainter(below as unknown as SVGElement, svg as unknown as SVGElement);
  painter.look({ east: 0, north: 0, scale: 10, width: 100, height: 100 });
  painter.paint(scene(...shapes));
  const [world, signs, words] = svg.children as [FakeElement, FakeElement, FakeElement];
  return { painter, below: below.children[0] as FakeElement, world, signs, words };
}

it('puts lines into the world and words over it, at their place on the screen', () => {
  const { world, words } = painted(guy(4), label);
  expect(world.attributes.transform).toBe('matrix(10 0 0 -10 50 50)');
  expect(world.children.map((child) => child.attributes)).toEqual([{ class: 'r-guy', d: 'M0 0L4 0' }]);
  expect(words.children[0]?.textContent).toBe('4.20 m');
  expect(words.children[0]?.attributes.transform).toBe('translate(60 40) rotate(0)');
});

it('writes nothing where nothing changed, and only the path of a guy that moved', () => {
  const { painter, world } = painted(guy(4), pipe, label);
  const element = world.children[0];
  FakeElement.writes = 0;
  painter.paint(scene(guy(4), pipe, label));
  expect(FakeElement.writes).toBe(0);
  painter.paint(scene(guy(5), pipe, label));
  expect(FakeElement.writes).toBe(1);
  expect(world.children[0]).toBe(element);
});

it('draws a buried service on a casing', () => {
  const { world } = painted(pipe);
  expect(world.children.map((child) => child.attributes.class)).toEqual([
    'r-casing',
    'r-buried_potable_water',
  ]);
});

it('takes away what is gone and brings it back', () => {
  const { painter, world, words } = painted(guy(4), pipe, label);
  painter.paint(scene(guy(4)));
  expect([world.children.length, words.children.length]).toEqual([1, 0]);
  painter.paint(scene(guy(4), pipe, label));
  expect([world.children.length, words.children.length]).toEqual([3, 1]);
});

it('keeps what does not move with the mast in a picture below, and writes it once', () => {
  const { painter, below, world } = painted();
  painter.paint({ ...scene(pipe, guy(4)), static_count: 1 });
  expect(below.children.map((child) => child.attributes.class)).toEqual([
    'r-casing',
    'r-buried_potable_water',
  ]);
  expect(world.children.map((child) => child.attributes.class)).toEqual(['r-guy']);
  FakeElement.writes = 0;
  painter.paint({ ...scene(pipe, guy(5)), static_count: 1 });
  expect(FakeElement.writes).toBe(1);
  painter.paint({ ...scene({ ...pipe }, guy(5)), static_count: 0 });
  expect(below.children).toEqual([]);
});

it('draws neighbours of one role as one path', () => {
  const { world } = painted(guy(4), guy(5), { ...guy(6), role: 'ring' }, guy(7));
  expect(world.children.map((child) => child.attributes.d)).toEqual([
    'M0 0L4 0M0 0L5 0',
    'M0 0L6 0',
    'M0 0L7 0',
  ]);
});
