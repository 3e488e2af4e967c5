/**
 * Fills samples/dairy, the finished workbook, from records, answers and exports: `node samples/fill.mjs` after
 * `npm run build`. The same bytes come out each time; a change in the protocol's text changes them.
 */
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { fillWorkbook } from './lib/fill.mjs';

const here = dirname(fileURLToPath(import.meta.url));
fillWorkbook(join(here, 'dairy'), (run) => console.log(run));
