import { LONGEST_CAMPAIGN_DAYS } from './clock.mjs';
import { randomStream } from './random.mjs';

const FIRST_START_S = 7.5 * 3600;
const BETWEEN_STARTS_S = 3.75 * 3600;

/**
 * One heating in the plan of the campaign.
 * @typedef {object} Slot
 * @property {string} id of the run
 * @property {import('./heater.mjs').Setting} setting
 * @property {number} number of the run within its setting, from 1
 * @property {number} settingIndex
 * @property {number} onS switch-on, local seconds since the first midnight
 */

/**
 * Every setting once a day in random order, a rest of two hours or more in between.
 * @param {number} seed
 * @param {string} heaterId
 * @param {readonly import('./heater.mjs').Setting[]} settings
 * @param {number} runsPerSetting
 * @returns {Slot[]} by setting, then by day
 */
export function planDays(seed, heaterId, settings, runsPerSetting) {
  if (settings.length < 1 || settings.length > 4) throw new RangeError('one to four settings fit into a day');
  if (!Number.isInteger(runsPerSetting) || runsPerSetting < 1 || runsPerSetting > LONGEST_CAMPAIGN_DAYS) {
    throw new RangeError(
      `runsPerSetting ${runsPerSetting} is not a whole number from 1 to ${LONGEST_CAMPAIGN_DAYS}`,
    );
  }
  const random = randomStream(seed, 'schedule');
  const slots = [];
  for (let day = 0; day < runsPerSetting; day++) {
    random.shuffled(settings.map((_, index) => index)).forEach((settingIndex, place) => {
      const number = day + 1;
      const setting = settings[settingIndex];
      const id = `${heaterId}-${setting.id}-${String(number).padStart(2, '0')}`;
      const onS = day * 86400 + FIRST_START_S + place * BETWEEN_STARTS_S + random.whole(0, 1200);
      slots.push({ id, setting, number, settingIndex, onS });
    });
  }
  return slots.sort((a, b) => a.settingIndex - b.settingIndex || a.number - b.number);
}
