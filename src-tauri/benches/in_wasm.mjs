// The same measurements as engine.rs, in wasm under Node. Prints `name fastest_ms median_ms` lines.
// Usage: node in_wasm.mjs FOLDER, the folder that `cargo xtask bench` has the engine generated into.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';

const module = (name) => createRequire(import.meta.url)(join(resolve(process.argv[2]), name));
const { call } = module('engine.js');
const { call_on_paper, sheets_pdf } = module('paper.js');
const { cut_sixty, sixty_rows } = module('benches.js');
const job = JSON.parse(readFileSync(new URL('../../tests/data/yardstick-53a387c.json', import.meta.url), 'utf8'));

call('hold_job', JSON.stringify({ job, name: '1' }));
const placed = (east_m, static_kept) => ({
  held: '1',
  placement: { ...job.placement, mast: { by: 'coordinates', east_m, north_m: -2 } },
  map: { text_m: 0.5, static_kept },
});
const staticKey = JSON.parse(call('place', JSON.stringify(placed(0, null)))).ok.map_static;
measure('api_place_while_dragging', 'place', placed(0.5, staticKey));
measure('api_plan_while_dragging', 'plan', { job, map: { text_m: 0.5 }, profile: false, report: false });
measure('api_plan_with_everything', 'plan', { job, map: { text_m: 0.5 }, profile: true, report: true });

measure('api_spread_10_000_draws', 'spread', { job, draws: 10_000, seed: 1 }, 30);
measure('api_wind_capacity', 'wind_capacity', { job }, 60);
measure('api_siting_quick_rules_40_000_places', 'siting', { job: crowded(150), wishes: { step_m: 0.25 }, plans: 0 }, 15);
measure('api_siting_first_answer', 'siting', { job: crowded(150), plans: 0 }, 30);

/** As in engine.rs: a lawn of 50 m by 50 m with so many squares of a metre to stay off. */
function crowded(things) {
  const square = ([x, y], side) =>
    [[x, y], [x + side, y], [x + side, y + side], [x, y + side]].map(([east_m, north_m]) => ({ by: 'coordinates', east_m, north_m }));
  const G = 1.324717957244746;
  const place = (n) => [((0.5 + n / G) % 1) * 50, ((0.5 + n / (G * G)) % 1) * 50];
  const bed = (index) => ({ id: `t${index}`, name: `Bed ${index}`, shape: { kind: 'keep_off', outline: square(place(index), 1) } });
  const boundary = { outline: square([0, 0], 50) };
  const obstacles = Array.from({ length: things }, (_, index) => bed(index));
  return { ...job, yard: { ...job.yard, spot_heights: [], overhead_lines: [], buried_services: [], boundary, obstacles } };
}

const demo = JSON.parse(call('demo', '{}')).ok;
const placeOf = (index) => [0.6 * (((0.5 + index / 1.324717957244746) % 1) * 100) - 30, 0.6 * (((0.5 + index / 1.7548776662466927) % 1) * 100) - 30];
measureTurns('view_turn_of_the_demo', demo);
measureTurns('view_turn_among_150_things', builtUp(150));

/** The same things as `built_up` of engine.rs. */
function builtUp(things) {
  const at = ([east_m, north_m]) => ({ by: 'coordinates', east_m, north_m });
  const shapeOf = (index) => {
    const [x, y] = placeOf(index);
    const outline = [[x, y], [x + 3, y], [x + 3, y + 2], [x, y + 2]].map(at);
    if (index % 4 === 0) return { kind: 'building', outline, height_m: 2.6 };
    if (index % 4 === 1)
      return { kind: 'tree', at: at([x, y]), trunk_radius_m: 0.2, crown_radius_m: 1.6, crown_base_m: 1.8, height_m: 5 };
    if (index % 4 === 2)
      return { kind: 'barrier', what: 'hedge', line: [at([x, y]), at([x + 4, y + 3])], thickness_m: 0.5, height_m: 1.4 };
    return { kind: 'post', at: at([x, y]), radius_m: 0.1, height_m: 3 };
  };
  const obstacles = Array.from({ length: things }, (_, i) => ({ id: `t${i}`, name: `Thing ${i}`, shape: shapeOf(i) }));
  return { ...demo, yard: { ...demo.yard, obstacles } };
}

for (const operation of ['workshop', 'cards', 'shopping', 'circles'])
  measure(`api_${operation}_of_the_demo`, operation, { job: demo });
for (const row of sixty_rows())
  measureRuns(row, 9, () => {
    if (!cut_sixty(row)) throw new Error(`${row} is not proven`);
  });

const set = JSON.stringify({ job: demo, paper: 'a4', set: 'workshop' });
const { pages } = JSON.parse(call_on_paper('sheets', set)).ok;
if (pages.length < 12) throw new Error(`${pages.length} pages`);
measureRuns('pdf_of_the_workshop_sheets', 15, () => sheets_pdf(set));
console.log('pages of the workshop sheets:', pages.length);

/** Turns of the head, each another way. */
function measureTurns(name, job) {
  const stand = { job, standpoint: 'step', name: '1', look: { aspect: 1.2, text: 3.6 } };
  const first = call('stand', JSON.stringify(stand));
  if (!first.startsWith('{"ok"')) throw new Error(first.slice(0, 300));
  let toward_deg = 0;
  measure(name, 'look', () => {
    toward_deg = (toward_deg + 7) % 360;
    return { held: '1', look: { toward_deg, pitch_deg: 0, aspect: 1.2, text: 3.6 } };
  });
}

function measure(name, operation, request, runs = 300) {
  const asked = typeof request === 'function' ? request : () => request;
  const texts = Array.from({ length: runs }, () => JSON.stringify(asked()));
  measureRuns(name, runs, (run) => {
    const answer = call(operation, texts[run]);
    if (!answer.startsWith('{"ok"')) throw new Error(answer.slice(0, 300));
  });
}

function measureRuns(name, runs, work) {
  const times = [];
  for (let run = 0; run < runs; run += 1) {
    const start = performance.now();
    work(run);
    times.push(performance.now() - start);
  }
  // The first runs pay for compiling.
  const settled = times.slice(Math.floor(runs / 3)).sort((a, b) => a - b);
  console.log(name, settled[0].toFixed(3), settled[Math.floor(settled.length / 2)].toFixed(3));
}
