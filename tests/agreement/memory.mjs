// How much memory the browser's engine takes to read what is too much: each file in an engine of its own, by the
// operations that the screens use. Linear memory never shrinks, so its size at the end is its peak.
// Usage: node memory.mjs FOLDER (of engine.js for Node), after `cargo xtask bench`.
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';

const engineFile = join(resolve(process.argv[2] ?? 'target/wasm-node'), 'engine.js');
const MEGABYTE = 1 << 20;

const demo = fresh().answer('demo', {});
const heights = (n, spot) => JSON.stringify({ ...demo, yard: { ...demo.yard, spot_heights: spots(n, spot) } });
const spots = (n, spot) => Array.from({ length: n }, (_, i) => spot(i));
const whole = (i) => ({
  id: `s${i}`, at: { by: 'coordinates', east_m: i % 1000, north_m: Math.floor(i / 1000) }, height_m: 0.5,
});

/** By name: the operations the screens call for it one after another, each given the answer of the one before. */
const cases = {
  'a plan of the demo': () => [['plan', () => ({ job: demo })]],
  'the wind of the demo': () => [['wind_capacity', () => ({ job: demo })]],
  '200,000 spot heights, the most of a job': () => opened(heights(200_000, whole)),
  'a million spot heights': () => opened(heights(1_000_000, whole)),
  'a million short ones': () => opened(heights(1_000_000, () => ({}))),
  'a map of five million pairs': () => {
    const pairs = '[1,2],'.repeat(5_000_000).slice(0, -1);
    const map = `{"type":"Polygon","coordinates":[[${pairs}]]}`;
    return [readOf(map), ['import_geojson', ({ text }) => ({ job: demo, text, mark: demo.yard.marks[0].id, uses: [] })]];
  },
};

for (const [name, calls] of Object.entries(cases)) {
  const engine = fresh();
  let said = { ok: {} };
  for (const [operation, request] of calls()) {
    said = JSON.parse(engine.call(operation, JSON.stringify(request(said.ok))));
    if (!said.ok) break;
  }
  const end = said.ok ? 'answered' : `refused: ${JSON.stringify(said.error).slice(0, 200)}`;
  console.log(`${name}: ${Math.round(engine.bytes() / MEGABYTE)} MB; ${end}`);
}

/** A file of a job. */
function opened(text) {
  return [readOf(text), ['open_job', ({ text }) => ({ text })]];
}

/** As `ui/src/state/files.ts`: of a file too large to be read only the beginning is handed on. */
function readOf(text) {
  const beginning = text.length > 33 * MEGABYTE ? text.slice(0, 16) : text;
  return ['file_text', () => ({ base64: btoa(beginning), size_bytes: text.length })];
}

/** An engine with a memory of its own. */
function fresh() {
  const require = createRequire(import.meta.url);
  delete require.cache[engineFile];
  // The module keeps its memory to itself: seen as it is made.
  let memory;
  const { Instance } = WebAssembly;
  WebAssembly.Instance = class extends Instance {
    constructor(...given) {
      super(...given);
      memory = this.exports.memory;
    }
  };
  const { call } = require(engineFile);
  WebAssembly.Instance = Instance;
  const answer = (operation, request) => JSON.parse(call(operation, JSON.stringify(request))).ok;
  return { call, answer, bytes: () => memory.buffer.byteLength };
}
