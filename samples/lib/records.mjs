import { HEATER } from './heater.mjs';
import { ALTITUDE_M, CERTIFICATE } from './instruments.mjs';

/**
 * The records of the bench as files: path below samples/records/ and text.
 * @param {readonly import('./heater.mjs').Setting[]} settings
 * @returns {Record<string, string>}
 */
export function benchRecords(settings) {
  const points = CERTIFICATE.points.map(
    ({ atC, correctionK }) =>
      `    - { at: ${atC} °C, correction: ${correctionK.toFixed(2)} K, expandedUncertainty: ${CERTIFICATE.expandedUncertaintyK.toFixed(2)} K }\n`,
  );
  return {
    'workbook.yaml': `schema: 1
name: Hill dairy heat bench (invented)
zone: Europe/Vienna
altitude: ${ALTITUDE_M} m
ambient: 17 °C
hands:
  - { id: mr, name: M. R. }
units: si
`,
    'instruments/meter-1.yaml': `schema: 1
id: meter-1
kind: wattmeter
name: plug-in wattmeter
range: 3680 W
resolution: 0.001 kWh
powerResolution: 0.1 W
limits:
  ofReading: 1 %
`,
    'instruments/logger-1.yaml': `schema: 1
id: logger-1
kind: thermometer
name: thermometer logger
range: 100 °C
resolution: 0.1 °C
certificate:
  number: (invented)
  date: 2026-03-02
  due: 2027-03-02
  coverageFactor: 2
  points:
${points.join('')}`,
    'instruments/scale-1.yaml': `schema: 1
id: scale-1
kind: scale
name: bench scale
range: 15 kg
resolution: 1 g
limits:
  absolute: 2 g
`,
    [`heaters/${HEATER.id}.yaml`]: `schema: 1
id: ${HEATER.id}
name: 900 W vat warmer
ratedPower: 900 W
vessel: { material: stainless steel }
settings:
${settings.map(({ id }) => `  - { id: ${id}, control: steady }\n`).join('')}`,
  };
}
