// Reads [[operation, request], …] from standard input, asks the wasm engine, prints the answers as a JSON list.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';

const { call } = createRequire(import.meta.url)(join(resolve(process.argv[2]), 'engine.js'));
const asked = JSON.parse(readFileSync(0, 'utf8'));
process.stdout.write(JSON.stringify(asked.map(([operation, request]) => call(operation, request))));
