import type { LinkRow } from '../../parts/Links.svelte';

/** A part of the work, in the order in which it is done. */
export interface Phase {
  id: string;
  name: string;
  /** What is done in it. */
  says: string;
  /** Pages of it. */
  pages: LinkRow[];
  /** What the plan says for it: sections of the report by their ids. */
  sections: { id: string; title: string }[];
}

const WORKSHOP = 'build/workshop';

/** The step cards of a part of the day. */
const cardsOf = (part: string): LinkRow => ({
  to: `build/cards/${part}`,
  name: 'Step by step',
  says: 'One card, one thing to do',
});

export const PHASES: Phase[] = [
  {
    id: 'buy',
    name: 'Buy and cut',
    says: 'Tubes, timber, holes, drawings at full size',
    pages: [{ to: WORKSHOP, name: 'The workshop', says: 'Part by part' }],
    sections: [],
  },
  {
    id: 'pegs',
    name: 'Peg out',
    says: 'Who to call first, then every peg and anchor by tape',
    pages: [
      { to: 'build/calls', name: 'Calls to make first', says: 'Before anything is driven into the ground' },
      { to: 'build/peg-out', name: 'Peg after peg', says: 'Two tapes for each, then tapes that check' },
      { to: 'build/as-built', name: 'What really stands', says: 'Anchors as they came to be' },
    ],
    sections: [
      { id: 'peg', title: 'Pegs' },
      { id: 'guy', title: 'Guys' },
      { id: 'north', title: 'North' },
      { id: 'clearance', title: 'Clearances' },
    ],
  },
  {
    id: 'base',
    name: 'Set the base',
    says: 'What goes under each leg, stakes',
    pages: [
      cardsOf('base'),
      { to: 'build/as-built', name: 'What really stands', says: 'Legs and foot as they came to be' },
    ],
    sections: [
      { id: 'base', title: 'Base and foot' },
      { id: 'ground', title: 'Ground' },
      { id: 'as_built', title: 'As it stands' },
    ],
  },
  {
    id: 'raise',
    name: 'Raise',
    says: 'Which way it goes up, who holds what, plumb',
    pages: [
      cardsOf('raise'),
      { to: 'build/raising', name: 'How it goes up', says: 'The way, the ropes, the order' },
      { to: 'build/plumb', name: 'Plumb the mast', says: 'With the phone, both ways round' },
    ],
    sections: [{ id: 'mast', title: 'Mast' }],
  },
  {
    id: 'crank',
    name: 'Crank up',
    says: 'Tube after tube, pin after pin',
    pages: [
      cardsOf('crank'),
      {
        to: `${WORKSHOP}/stages`,
        name: 'Pins and stages',
        says: 'What goes up when, and where its pin sits',
      },
      { to: `${WORKSHOP}/lift`, name: 'Winch and lift', says: 'Turns, hand force, when to stop' },
      {
        to: 'build/tension',
        name: 'How tight the guys are',
        says: 'By tapping, phone or scale; what to take in',
      },
    ],
    sections: [],
  },
  {
    id: 'lights',
    name: 'Lights',
    says: 'The ring and the strands',
    pages: [
      cardsOf('lights'),
      { to: 'build/lights', name: 'Current and lead', says: 'Strand by strand, labels, the cord’s way' },
      { to: `${WORKSHOP}/circles`, name: 'Circles and ring', says: 'Holes, couplings, strands as bought' },
    ],
    sections: [{ id: 'ring', title: 'Ring of the lights' }],
  },
  {
    id: 'watch',
    name: 'Watch',
    says: 'When wind is forecast; plumb again',
    pages: [
      {
        to: 'build/season',
        name: 'The season’s diary',
        says: 'What to look at, what changed, the next round',
      },
      { to: 'build/cards', name: 'Come down in time', says: 'Cards, and the minutes of your rehearsal' },
      { to: 'checks/wind', name: 'Which wind it takes', says: 'And what gives way first' },
      { to: 'build/plumb', name: 'Plumb the mast', says: 'After wind, rain and frost' },
      { to: 'build/tension', name: 'How tight the guys are', says: 'After wind, rain and frost, too' },
    ],
    sections: [],
  },
  {
    id: 'down',
    name: 'Take down',
    says: 'The way it went up, backwards',
    pages: [
      {
        to: 'build/cards',
        name: 'Step by step',
        says: 'Run it down, lay it down: one card, one thing to do',
      },
      {
        to: 'build/packing',
        name: 'Packing list',
        says: 'Every piece with its length and weight, and what is forgotten',
      },
      {
        to: 'build/again',
        name: 'The same place again',
        says: 'Three tapes, the compass, what changed, last year’s lessons',
      },
      { to: 'build/raising', name: 'How it went up', says: 'The same way, ropes and helpers' },
      {
        to: `${WORKSHOP}/lift`,
        name: 'Winch and lift',
        says: 'The strap takes the load before a pin is drawn',
      },
    ],
    sections: [],
  },
];

/** Where a phase's page is; the workshop has one of its own. */
export const phaseAt = (id: string) => (id === 'buy' ? WORKSHOP : `build/phase/${id}`);
