import { answersYaml } from './answers.mjs';

/** Chosen once, before any result was seen; it stays. */
export const SAMPLE_SEED = 20261005;

/** Ten digits are more than anything here is good for, and few enough to be read. */
const tenDigits = (_key, value) => (typeof value === 'number' ? Number(value.toPrecision(10)) : value);

/**
 * The campaign as files: path below samples/ and text.
 * @param {ReturnType<typeof import('./campaign.mjs').simulateCampaign>} campaign
 * @returns {Map<string, string>}
 */
export function campaignFiles(campaign) {
  const files = new Map();
  for (const run of campaign.runs) {
    files.set(`exports/${run.id}-power.csv`, run.powerCsv);
    files.set(`exports/${run.id}-temperature.csv`, run.temperatureCsv);
    files.set(`answers/${run.id}.yaml`, answersYaml(run));
  }
  for (const [path, text] of Object.entries(campaign.records)) files.set(`records/${path}`, text);
  files.set('truth.json', `${JSON.stringify(campaign.truth, tenDigits, 2)}\n`);
  return files;
}
