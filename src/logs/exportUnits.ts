import type { ColumnRole } from './types.js';

/** A unit met in exports: `si = value · factor + offset`. Role `ignored`: known, but of no use here. */
export interface ExportUnit {
  readonly symbol: string;
  readonly role: ColumnRole;
  readonly factor: number;
  readonly offset: number;
}

// Factors are exact by definition: 1 Wh = 3600 J; T/K = t/°C + 273.15 = (t/°F + 459.67)·5/9.
const table: readonly (readonly [
  symbol: string,
  role: ColumnRole,
  factor: number,
  offset: number,
  others: string,
])[] = [
  ['W', 'power', 1, 0, 'Watt Watts w watios vatios watów waty wattů'],
  ['kW', 'power', 1e3, 0, 'KW kw Kilowatt kilowatts kilowatios kilovatios kilowaty'],
  ['mW', 'power', 1e-3, 0, 'Milliwatt milliwatts'],
  ['MW', 'power', 1e6, 0, 'Megawatt megawatts'],
  [
    'Wh',
    'energy',
    3600,
    0,
    'wh WH W.h W·h Watt-hours Wattstunden wattheures wattuur wattora wattimmar wattimer watogodziny',
  ],
  [
    'kWh',
    'energy',
    3.6e6,
    0,
    'kwh KWh KWH kW.h kW·h Kilowattstunden kilowatthours kilowattheures kilowattuur kilowattora kilowattimmar kilowatttimer kilowatogodziny',
  ],
  ['mWh', 'energy', 3.6, 0, ''],
  ['MWh', 'energy', 3.6e9, 0, ''],
  ['J', 'energy', 1, 0, 'j Joule Joules Ws'],
  ['kJ', 'energy', 1e3, 0, 'kj KJ Kilojoule'],
  ['MJ', 'energy', 1e6, 0, 'Megajoule'],
  ['V', 'voltage', 1, 0, 'v Volt Volts VAC VDC Vrms Voltios volty woltów'],
  ['mV', 'voltage', 1e-3, 0, 'Millivolt'],
  ['kV', 'voltage', 1e3, 0, ''],
  ['A', 'current', 1, 0, 'a Amp Amps Ampere Amperes Ampères Amperios ampery AAC ADC Arms'],
  ['mA', 'current', 1e-3, 0, 'Milliamp Milliampere'],
  ['°C', 'temperature', 1, 273.15, '℃ degC deg.C grdC Celsius C c °c Grad°C'],
  ['°F', 'temperature', 5 / 9, (459.67 * 5) / 9, '℉ degF deg.F Fahrenheit F f °f'],
  ['K', 'temperature', 1, 0, 'Kelvin'],
  [
    's',
    'time',
    1,
    0,
    'S sec secs second seconds Sek Sekunde Sekunden seconde secondes segundos secondi seconden sekundy sekund sekunder',
  ],
  [
    'ms',
    'time',
    1e-3,
    0,
    'msec millis millisecond milliseconds Millisekunden millisecondes milisegundos milissegundos millisecondi milliseconden milisekundy millisekunder',
  ],
  ['min', 'time', 60, 0, 'mins minute minutes Minuten minutos minuti minuten minuty minuter minutter'],
  [
    'h',
    'time',
    3600,
    0,
    'hr hrs hour hours Std Stunden heures horas ore uren uur godz godziny hodiny timmar timer tim',
  ],
  ['%', 'ignored', 1, 0, '%RH %rF'],
  ['VA', 'ignored', 1, 0, 'kVA va kva'],
  ['var', 'ignored', 1, 0, 'kvar VAr VAR kVAR'],
  ['Hz', 'ignored', 1, 0, 'hz HZ kHz'],
  ['Ω', 'ignored', 1, 0, 'Ohm ohm'],
  ['€', 'ignored', 1, 0, 'EUR USD $ CHF £ kr ct'],
  ['kg', 'ignored', 1, 0, 'g kgCO2 gCO2'],
  ['hPa', 'ignored', 1, 0, 'mbar bar Pa kPa'],
  ['Ah', 'ignored', 1, 0, 'mAh'],
];

const bySymbol = new Map<string, ExportUnit>();
for (const [symbol, role, factor, offset, others] of table) {
  for (const name of [symbol, ...others.split(' ')]) {
    if (name) bySymbol.set(name, { symbol, role, factor, offset });
  }
}

/**
 * The unit with this symbol or word, or `undefined`. Case counts where it must (mW is not MW); whole words are
 * found in any case.
 */
export function exportUnit(text: string): ExportUnit | undefined {
  const plain = text
    .trim()
    .replace(/Â°|º|˚|° /g, '°')
    .replace(/\s+/g, '');
  const word = plain.length > 4 ? plain.charAt(0).toUpperCase() + plain.slice(1).toLowerCase() : plain;
  return bySymbol.get(plain) ?? bySymbol.get(word) ?? bySymbol.get(word.toLowerCase());
}

/** The symbols that a column of this role may have, for error messages. */
export function unitsOf(role: ColumnRole): string[] {
  return table.filter((row) => row[1] === role).map((row) => row[0]);
}
