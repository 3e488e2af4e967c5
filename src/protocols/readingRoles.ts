/** What a reading is to the model; a protocol may name its steps as it likes, the roles are ours. */
export const readingRoles = [
  'emptyMass',
  'fullMass',
  'finalMass',
  'startTemperature',
  'interimTemperature',
  'endTemperature',
  'ambientTemperature',
  'ambientTemperatureAfter',
  'bodyTemperature',
  'pressure',
  'energyBefore',
  'energyAfter',
] as const;
export type ReadingRole = (typeof readingRoles)[number];
