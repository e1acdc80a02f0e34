// Reads [[operation, request], …] from standard input, asks the wasm module that prints, prints the answers as a JSON
// list: a PDF's bytes as hexadecimal digits, what it refuses as the answer that names it.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join, resolve } from 'node:path';

const paper = createRequire(import.meta.url)(join(resolve(process.argv[2]), 'paper.js'));
const asked = JSON.parse(readFileSync(0, 'utf8'));

function pdf(request) {
  try {
    return Buffer.from(paper.sheets_pdf(request)).toString('hex');
  } catch (refused) {
    return String(refused);
  }
}

const answers = asked.map(([operation, request]) =>
  operation === 'pdf' ? pdf(request) : paper.call_on_paper(operation, request),
);
process.stdout.write(JSON.stringify(answers));
