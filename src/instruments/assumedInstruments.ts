import type { InstrumentKind, RawRecord } from '../workbook/index.js';

/**
 * Generic instruments with wide limits, for a first test before anybody has looked for a data sheet. All limits are
 * common practice, no source, and are marked as assumed wherever they count. As a person writes records: text with units.
 *
 * @example
 * assumedInstruments().wattmeter.limits // => { ofReading: '2 %' }
 * assumedInstruments({ energy: '0.1 kWh' }).wattmeter.resolution // => '0.1 kWh'
 */
export function assumedInstruments(
  steps: { readonly energy?: string; readonly mass?: string; readonly temperature?: string } = {},
): Partial<Record<InstrumentKind, RawRecord>> {
  return {
    wattmeter: {
      schema: 1,
      id: 'meter',
      kind: 'wattmeter',
      name: 'plug-in meter',
      assumed: true,
      resolution: steps.energy ?? '0.01 kWh',
      limits: { ofReading: '2 %' },
    },
    scale: {
      schema: 1,
      id: 'scale',
      kind: 'scale',
      name: 'kitchen scale',
      assumed: true,
      resolution: steps.mass ?? '1 g',
      limits: { absolute: '5 g' },
    },
    thermometer: {
      schema: 1,
      id: 'thermometer',
      kind: 'thermometer',
      name: 'probe thermometer',
      assumed: true,
      resolution: steps.temperature ?? '0.1 K',
      limits: { absolute: '0.5 K' },
    },
  };
}
