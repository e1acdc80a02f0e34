// What the engine that was just built for the browser answers when the demo is opened, word for word as the screens ask
// (ui/src/state: `openDemo`, then `Shelf.open`, then the first wish of `App`): they show it while the engine itself still comes in.
// Usage: node first_answers.mjs FOLDER, which has the first module and gets `first-answers.json`
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const folder = process.argv[2];
const { call_at_first, initSync } = await import(pathToFileURL(join(folder, 'map.js')).href);
initSync({ module: readFileSync(join(folder, 'map_bg.wasm')) });

/** Lettering of the map in metres: `FIRST_TEXT_M` of ui/src/state/foresight.ts. */
const TEXT_M = 0.65;
const asked = [];

const demo = ask('demo', {});
const { job } = ask('read_kept', { text: JSON.stringify(demo, null, 2) });
ask('first_plan', {
  job: { ...job, log: [] },
  map: { text_m: TEXT_M, static_kept: null, ties_for: null },
});
writeFileSync(join(folder, 'first-answers.json'), JSON.stringify(asked));

function ask(operation, request) {
  const question = JSON.stringify(request);
  const answer = call_at_first(operation, question);
  const told = JSON.parse(answer ?? 'null');
  if (!told?.ok) throw new Error(`${operation}: ${answer}`);
  asked.push([operation, question, answer]);
  return told.ok;
}
