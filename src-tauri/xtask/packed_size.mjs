// How long a file is once packed as a web server packs it: brotli at its highest. Usage: node packed_size.mjs FILE
import { readFileSync } from 'node:fs';
import { brotliCompressSync, constants } from 'node:zlib';

const bytes = readFileSync(process.argv[2]);
const params = {
  [constants.BROTLI_PARAM_QUALITY]: 11,
  [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length
};
console.log(brotliCompressSync(bytes, { params }).length);
