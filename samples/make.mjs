/**
 * Makes the invented campaign in this folder again: `node samples/make.mjs`. Needs nothing but Node.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { simulateCampaign } from './lib/campaign.mjs';
import { campaignFiles, SAMPLE_SEED } from './lib/files.mjs';

const here = dirname(fileURLToPath(import.meta.url));
const files = campaignFiles(simulateCampaign({ seed: SAMPLE_SEED }));
let bytes = 0;
for (const [path, text] of files) {
  const target = join(here, path);
  mkdirSync(dirname(target), { recursive: true });
  writeFileSync(target, text);
  bytes += Buffer.byteLength(text);
}
console.log(`${files.size} files, ${(bytes / 1e6).toFixed(2)} MB, seed ${SAMPLE_SEED}`);
