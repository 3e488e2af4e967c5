import type { ColumnRole, QuantityRole, TimeForm } from './types.js';

const forms: Readonly<Record<TimeForm, true>> = {
  'elapsed-s': true,
  'elapsed-ms': true,
  'elapsed-min': true,
  'elapsed-h': true,
  'elapsed-hms': true,
  'elapsed-mmss': true,
  iso: true,
  'day-first': true,
  'month-first': true,
  'year-first': true,
  'epoch-s': true,
  'epoch-ms': true,
  'serial-days': true,
  'row-count': true,
};

/** The names of all forms of time, for options, files and error messages. */
export const timeForms = Object.keys(forms) as readonly TimeForm[];

const quantities: Readonly<Record<QuantityRole, true>> = {
  power: true,
  energy: true,
  voltage: true,
  current: true,
  powerFactor: true,
  temperature: true,
};

/** The names of all roles that hold a measured quantity. */
export const quantityRoles = Object.keys(quantities) as readonly QuantityRole[];

/** The names of all roles of a column. */
export const columnRoles: readonly ColumnRole[] = ['time', 'date', ...quantityRoles, 'ignored'];
