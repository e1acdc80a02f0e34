// Reads [[operation, request], …] from standard input, asks the wasm module that a browser loads first, prints the answers
// as a JSON list; `null` where it has no such operation.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';

const { call_at_first } = createRequire(import.meta.url)(join(resolve(process.argv[2]), 'map.js'));
const asked = JSON.parse(readFileSync(0, 'utf8'));
process.stdout.write(
  JSON.stringify(asked.map(([operation, request]) => call_at_first(operation, request) ?? null)),
);
