import { C, type Expected, elapsed } from './Expected.js';

// Written by hand from the files and not from the program.
export const elapsedForms: Record<string, Expected> = {
  'elapsed-ms.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['elapsed-ms', null, null],
    timesS: [0, 0.1, 0.3],
    roles: ['time', 'power'],
    values: { powerW: [900, 900, 800] },
  },
  'elapsed-hms.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['elapsed-hms', null, null],
    timesS: [0, 1, 2.5],
    roles: ['time', 'power'],
    values: { powerW: [900, 901, 902] },
  },
  'elapsed-mmss.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['elapsed-mmss', null, null],
    timesS: [0, 1, 2],
    roles: ['time', 'power'],
    values: { powerW: [900, 901, 902] },
  },
  'clock-over-midnight.csv': {
    layout: [';', '.', 'utf-8', 1, 2],
    time: ['elapsed-hms', null, null],
    timesS: [0, 1, 3],
    roles: ['time', 'power'],
    values: { powerW: [900, 901, 902] },
    warnings: [/passes midnight/],
  },
  'two-clocks.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: elapsed,
    timesS: [0, 1],
    roles: ['ignored', 'time', 'power'],
    values: { powerW: [900, 901] },
    warnings: [/from "Elapsed \(s\)", not from "Timestamp"/],
  },
  'elapsed-h.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['elapsed-h', null, null],
    timesS: [0, 900],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
  'elapsed-min.csv': {
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['elapsed-min', null, null],
    timesS: [0, 90],
    roles: ['time', 'power'],
    values: { powerW: [900, 901] },
  },
  'twelve-hours-dots.csv': {
    layout: [';', '.', 'utf-8', 1, 2],
    time: ['elapsed-hms', null, null],
    timesS: [0, 10, 20],
    roles: ['time', 'power'],
    values: { powerW: [900, 901, 902] },
  },
  'row-count.csv': {
    options: { intervalS: 10 },
    layout: [',', '.', 'utf-8', 1, 2],
    time: ['row-count', null, null],
    timesS: [0, 10, 20],
    roles: ['power', 'temperature'],
    values: { powerW: [900, 901, 902], temperatureK: [20.5 + C, 20.6 + C, 20.7 + C] },
  },
  'row-count-one-column.csv': {
    options: { intervalS: 0.5 },
    layout: [';', '.', 'utf-8', 1, 2],
    time: ['row-count', null, null],
    timesS: [0, 0.5, 1],
    roles: ['power'],
    values: { powerW: [900.5, 901.5, 902.5] },
  },
};
