import { C, type Expected, elapsed } from './Expected.js';

// Written by hand from the files and not from the program.
export const quotedForms: Record<string, Expected> = {
  'rfc-quoted-delimiter.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10],
    roles: ['time', 'power'],
    values: { powerW: [900.5, 901.5] },
  },
  'rfc-doubled-quotes.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10],
    roles: ['time', 'power', 'ignored'],
    values: { powerW: [900, 901] },
  },
  'rfc-line-breaks.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10, 20],
    roles: ['time', 'power', 'ignored'],
    values: { powerW: [900, 901, 902] },
  },
  'rfc-header-line-break.csv': {
    layout: [',', '.', 'utf-8', 1, 4],
    time: elapsed,
    timesS: [0, 10],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
  'rfc-no-final-break.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
  'rfc-no-header.csv': {
    options: {
      columns: { time: '1', power: '2', temperature: '3' },
      units: { time: 's', power: 'W', temperature: '°C' },
    },
    layout: [',', '.', 'utf-8', null, 1],
    time: elapsed,
    timesS: [0, 10],
    roles: ['time', 'power', 'temperature'],
    values: { powerW: [900, 901], temperatureK: [20.5 + C, 20.6 + C] },
  },
  'rfc-blanks-kept.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
};
