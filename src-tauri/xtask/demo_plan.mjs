// Prints the demo's plan by the engine that was built for the browser. Usage: node demo_plan.mjs FOLDER
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const folder = process.argv[2];
const { call, initSync } = await import(pathToFileURL(join(folder, 'engine.js')).href);
initSync({ module: readFileSync(join(folder, 'engine_bg.wasm')) });

const job = answer('demo', {});
process.stdout.write(answer('plan_text', { job }).text);

function answer(operation, request) {
  const told = JSON.parse(call(operation, JSON.stringify(request)));
  if (!told.ok) throw new Error(JSON.stringify(told.error));
  return told.ok;
}
