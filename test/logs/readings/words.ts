import { C, type Expected, elapsed } from './Expected.js';

// Written by hand from the files and not from the program.
export const words: Record<string, Expected> = {
  'words-portuguese.csv': {
    layout: [';', ',', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10],
    roles: ['time', 'power', 'voltage', 'current'],
    values: { powerW: [900, 901], voltageV: [230, 231], currentA: [3.9, 3.9] },
  },
  'words-polish.csv': {
    layout: [';', ',', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10],
    roles: ['time', 'power', 'voltage', 'current'],
    values: { powerW: [900, 901], voltageV: [230, 231], currentA: [3.9, 3.9] },
  },
  'words-czech.csv': {
    layout: [';', ',', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10],
    roles: ['time', 'power', 'voltage', 'current', 'temperature'],
    values: {
      powerW: [900, 901],
      voltageV: [230, 231],
      currentA: [3.9, 3.9],
      temperatureK: [20.5 + C, 20.6 + C],
    },
  },
  'words-swedish.csv': {
    layout: [';', ',', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10],
    roles: ['time', 'power', 'voltage', 'current', 'energy'],
    values: { powerW: [900, 901], voltageV: [230, 231], currentA: [3.9, 3.9], energyJ: [3600, 12_600] },
  },
  'words-danish.csv': {
    layout: [';', ',', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10],
    roles: ['time', 'power', 'voltage', 'current', 'temperature'],
    values: {
      powerW: [900, 901],
      voltageV: [230, 231],
      currentA: [3.9, 3.9],
      temperatureK: [20.5 + C, 20.6 + C],
    },
  },
  'words-dutch.csv': {
    layout: [';', ',', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10],
    roles: ['time', 'power', 'voltage', 'current', 'energy'],
    values: { powerW: [900, 901], voltageV: [230, 231], currentA: [3.9, 3.9], energyJ: [360_000, 396_000] },
  },
  'words-spanish.csv': {
    layout: [';', ',', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10],
    roles: ['time', 'power', 'voltage', 'current', 'ignored'],
    values: { powerW: [900, 901], voltageV: [230, 231], currentA: [3.9, 3.9] },
  },
  'words-italian.csv': {
    layout: [';', ',', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10],
    roles: ['time', 'power', 'voltage', 'current', 'temperature'],
    values: {
      powerW: [900, 901],
      voltageV: [230, 231],
      currentA: [3.9, 3.9],
      temperatureK: [20.5 + C, 20.6 + C],
    },
  },
  'words-norwegian.csv': {
    layout: [';', ',', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 10],
    roles: ['time', 'power', 'voltage', 'current', 'energy'],
    values: { powerW: [900, 910], voltageV: [230, 231], currentA: [3.9, 3.9], energyJ: [360_000, 396_000] },
  },
};
