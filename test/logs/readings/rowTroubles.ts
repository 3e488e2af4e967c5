import { C, type Expected, elapsed } from './Expected.js';

// Written by hand from the files and not from the program.
export const rowTroubles: Record<string, Expected> = {
  'repeats.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1, 2],
    roles: ['time', 'power'],
    values: { powerW: [900, 901, 903] },
    warnings: [/1 of 4 rows repeat/],
  },
  'late-row.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1, 2, 3],
    roles: ['time', 'power'],
    values: { powerW: [900, 901, 902, 903] },
    warnings: [/1 of 4 rows were out of order/],
  },
  'newest-first.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1, 2, 3],
    roles: ['time', 'power'],
    values: { powerW: [900, 901, 902, 903] },
    warnings: [/turned round/],
  },
  'cut-last-row.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1],
    roles: ['time', 'power', 'temperature'],
    values: { powerW: [900, 901], temperatureK: [20 + C, 20.1 + C] },
    warnings: [/Line 4 \("2,90"\) is cut off/],
  },
  'cut-last-number.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1, 2],
    roles: ['time', 'power'],
    values: { powerW: [900.1, 901.2, 902.3] },
    warnings: [/last number of line 5 is cut off/],
  },
};
