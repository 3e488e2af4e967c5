import type { Choice } from './Choice.js';

/**
 * Every error sentence of the program, in one table: code, what it needs to know, what it says.
 * A sentence names what was got and what was expected; the place and the hint are added by the caller.
 * Kept in one file so that somebody can read them aloud one after the other.
 */
export const texts = {
  // general
  'not-supported': (d: { what: string }) => `${d.what} is not supported.`,
  internal: (d: { what: string }) => `This should not have happened: ${d.what}.`,

  // units: reading a quantity a person typed
  'quantity-empty': (_d: Record<never, never>) =>
    'A number was expected, such as 4.21, but nothing was typed.',
  'quantity-unreadable': (d: { got: string; why: string }) =>
    `"${d.got}" cannot be read as a quantity: ${d.why}. A number with its unit is expected, such as 4.21 kg.`,
  'number-missing': (d: { got: string }) => `There is no number in "${d.got}"; one such as 4.21 is expected.`,
  'number-unreadable': (d: { got: string }) =>
    `"${d.got}" is not a number. Plain digits with at most one decimal point or comma are expected, such as 4.21.`,
  'number-foreign-digits': (d: { got: string; digit: string }) =>
    `"${d.got}" holds the digit "${d.digit}"; the plain digits 0 to 9 are expected.`,
  'number-out-of-range': (d: { got: string }) =>
    `"${d.got}" is too large or too small to be calculated with.`,
  'number-marks-mixed': (d: { got: string }) =>
    `"${d.got}" uses point and comma in more than one way; one decimal mark for all its numbers is expected.`,
  'number-ambiguous': (d: { got: string; first: string; second: string }) =>
    `"${d.got}" may mean ${d.first} or ${d.second}; write it so that only one is possible.`,
  'clock-unreadable': (d: { got: string }) =>
    `"${d.got}" is not a length of time. Hours, minutes and seconds are expected as in 1:20:30, or 80 min.`,
  'unit-missing': (d: { got: string; number: string }) =>
    `The number ${d.number} in "${d.got}" needs a unit of its own, as in 4 lb 3 oz or 2104 g + 2098 g.`,
  'unit-order': (d: { got: string; larger: string; smaller: string }) =>
    `In "${d.got}" ${d.smaller} stands behind ${d.larger}; a larger unit before a smaller one is expected, as in 4 lb 3 oz, or a plus sign between them.`,
  'unit-unknown': (d: { unit: string; expected: string; known: string }) =>
    `"${d.unit}" is not a known unit for ${d.expected}; known are ${d.known}.`,
  'unit-ambiguous': (d: { unit: string; choices: string }) =>
    `"${d.unit}" can be read in more than one way; write ${d.choices}, capitals as shown.`,
  'unit-of-other-kind': (d: { unit: string; measures: string; expected: string; example: string }) =>
    `"${d.unit}" measures ${d.measures}; ${d.expected} is expected, such as ${d.example}.`,
  'temperature-sum': (d: { got: string }) =>
    `"${d.got}" adds temperatures, which has no meaning; one temperature is expected, such as 21.5 °C.`,
  'below-absolute-zero': (d: { got: string }) =>
    `${d.got} is below absolute zero, which is −273.15 °C, −459.67 °F or 0 K.`,

  // water
  'water-temperature-range': (d: { what: string; got: string; lowest: string; highest: string }) =>
    `${d.what} is known from ${d.lowest} to ${d.highest} °C, but the temperature is ${d.got}.`,
  'water-pressure-range': (d: { what: string; got: string; lowest: string; highest: string }) =>
    `${d.what} is known from ${d.lowest} to ${d.highest} hPa, but the pressure is ${d.got}.`,
  'water-not-liquid': (d: { got: string; pressure: string; boiling: string }) =>
    `Water at ${d.got} °C is not liquid under ${d.pressure} hPa: it boils at ${d.boiling} °C. A temperature up to that is expected.`,
  'altitude-range': (d: { got: string; lowest: number; highest: number }) =>
    `The altitude must lie between ${d.lowest} and ${d.highest} m, but it is ${d.got} m.`,
  'humidity-range': (d: { got: string }) =>
    `The relative humidity must lie between 0 and 1 (45 % is 0.45), but it is ${d.got}.`,
  'buoyancy-densities': (d: { air: string; water: string }) =>
    `Densities in kg/m³ of about 1.2 for air and 998 for water are expected, but they are ${d.air} and ${d.water}.`,

  // statistics
  'probability-bad': (d: { got: string }) => `A probability must lie between 0 and 1, but it is ${d.got}.`,
  'degrees-of-freedom-infinite': (d: { source: string }) =>
    `The degrees of freedom of the ${d.source} must be finite, but they are Infinity.`,
  'too-few-values': (d: { what: string; got: number; needed: number }) =>
    `${d.what} needs at least ${d.needed} ${d.needed === 1 ? 'value' : 'values'}, but got ${d.got}.`,
  'lengths-differ': (d: { first: string; firstLength: number; second: string; secondLength: number }) =>
    `${d.first} and ${d.second} must be lists of the same length, but they have ${d.firstLength} and ${d.secondLength} entries.`,
  'spread-unknown': (d: { runs: number; got: string }) =>
    `With ${d.runs === 1 ? 'one run' : `${d.runs} runs`} the spread from run to run cannot be seen: it must be assumed as a standard deviation above zero, but it is ${d.got}.`,
  'significance-bad': (d: { got: string }) =>
    `A significance level must lie between 0 and 1 (5 % is 0.05), but it is ${d.got}.`,
  'uncertainty-zero': (d: { source: string; what: string }) =>
    `${d.what} needs a standard uncertainty above zero, but that of "${d.source}" is 0.`,
  'values-all-same': (d: { what: string; got: string }) =>
    `${d.what} needs values that differ, but all of them are ${d.got}.`,
  'too-few-groups': (d: { what: string; got: number; needed: number }) =>
    `${d.what} needs at least ${d.needed} groups, but got ${d.got}.`,
  'group-sizes-differ': (d: { what: string; first: number; group: number; got: number }) =>
    `${d.what} needs groups of one size, but group 1 has ${d.first} values and group ${d.group} has ${d.got}.`,
  'count-bad': (d: { what: string; needed: number; got: string }) =>
    `${d.what} must be a whole number of at least ${d.needed}, but it is ${d.got}.`,
  'group-variance-negative': (d: { group: number; got: string }) =>
    `The variance of group ${d.group} must be zero or more, but it is ${d.got}.`,
  'covariance-bad': (d: { why: string }) => `This can't be a covariance matrix: ${d.why}.`,
  'limit-missing': (_: object) => 'A lower limit, an upper limit or both are needed, but neither was given.',
  'limits-swapped': (d: { lower: string; upper: string }) =>
    `The lower limit must be below the upper one, but they are ${d.lower} and ${d.upper}.`,
  'risk-bad': (d: { got: string }) =>
    `The consumer's risk must be above 0 and at most 0.5 (5 % is 0.05), but it is ${d.got}.`,

  // uncertainty
  'uncertainty-unknown': (d: { source: string; got: string }) =>
    `The standard uncertainty of "${d.source}" must be a number of zero or more, but it is ${d.got}. Unknown is never zero.`,
  'degrees-of-freedom-bad': (d: { source: string; got: string }) =>
    `The degrees of freedom of "${d.source}" must be more than zero, but they are ${d.got}.`,
  'coverage-bad': (d: { got: string }) => `The coverage must lie between 0 and 1, but it is ${d.got}.`,
  'source-clash': (d: { id: string }) =>
    `Two different error sources carry the same id "${d.id}": one source is one object, shared by all that use it.`,
  'value-not-finite': (d: { what: string; got: string }) =>
    `${d.what} must be a finite number, but it is ${d.got}.`,
  'top-to-base-bad': (d: { source: string; got: string }) =>
    `The ratio of top to base of "${d.source}" must lie between 0 (a triangle) and 1 (a rectangle), but it is ${d.got}.`,
  'covariance-shape': (d: { group: string; expected: number; got: string }) =>
    `The matrix of "${d.group}" must have ${d.expected} rows of ${d.expected} numbers, one for each name, but it has ${d.got}.`,
  'covariance-unknown': (d: { group: string; row: string; column: string; got: string }) =>
    `The matrix of "${d.group}" must be known throughout, but the entry of ${d.row} and ${d.column} is ${d.got}. Unknown is never zero.`,
  'variance-negative': (d: { group: string; name: string; got: string }) =>
    `A variance is never below zero, but that of "${d.name}" in "${d.group}" is ${d.got}.`,
  'covariance-not-symmetric': (d: {
    group: string;
    row: string;
    column: string;
    got: string;
    other: string;
  }) =>
    `The matrix of "${d.group}" must be symmetric, but the entry of ${d.row} and ${d.column} is ${d.got} and that of ${d.column} and ${d.row} is ${d.other}.`,
  'correlation-diagonal': (d: { group: string; name: string; got: string }) =>
    `The correlation of "${d.name}" with itself must be 1, but the matrix of "${d.group}" has ${d.got}.`,
  'correlation-range': (d: { group: string; row: string; column: string; got: string }) =>
    `A correlation lies between −1 and 1, but that of ${d.row} and ${d.column} in "${d.group}" is ${d.got}.`,
  'covariance-indefinite': (d: { group: string; name: string; got: string }) =>
    `The matrix of "${d.group}" is indefinite, which no errors can have: once what "${d.name}" shares with those before it is taken out, what is left of its variance is ${d.got}; zero or more is right.`,
  'names-repeat': (d: { group: string; name: string }) =>
    `The name "${d.name}" stands twice in "${d.group}"; each error needs a name of its own.`,
  'seed-bad': (d: { got: string }) =>
    `A seed is a whole number from 0 to 9007199254740991, but it is ${d.got}.`,
  'trials-bad': (d: { got: string; least: number; most: number; coverage: string }) =>
    `The number of trials must be whole, from ${d.least} (for a coverage of ${d.coverage}) to ${d.most}, but it is ${d.got}.`,
  'trials-and-digits': (_: object) =>
    'Either a fixed number of trials or the digits that must be stable may be given, not both; for the digits, the most trials are set by mostTrials.',
  'digits-bad': (d: { got: string }) =>
    `The significant digits of an uncertainty must be 1, 2, 3 or 4, but they are ${d.got}.`,
  'workers-bad': (d: { got: string }) =>
    `The number of threads must be whole, from 1 to 64, but it is ${d.got}.`,
  'no-quantities': (d: { what: string }) => `${d.what} needs at least one quantity, but got none.`,
  'trials-not-finite': (d: { failed: number; trials: number }) =>
    `${d.failed} of ${d.trials} trials gave no finite number: the model divides by zero, or takes a root or logarithm of what is not above zero, within the doubt of its inputs. An estimate farther from there, or a narrower distribution, would be right.`,
  'approximation-bad': (d: { what: string; got: string }) =>
    `A polynomial in place of ${d.what} needs a range from low to high, a whole degree from 1 to 40 and a tolerance above zero, but got ${d.got}.`,

  // logs: CSV exports
  'log-empty': (_: object) =>
    'The file is empty. A CSV export with a time column and at least one of power, energy, voltage and current, or temperature was expected.',
  'log-encoding': (d: { got: string }) =>
    `The text is ${d.got}. UTF-8, UTF-16 (little end first) or Latin-1 was expected: save it again as UTF-8.`,
  'log-binary': (d: { got: string }) =>
    `The file holds ${d.got}, which no text has: it is a binary file (spreadsheet, archive, picture). Export the readings as CSV.`,
  'log-quote-open': (_: object) =>
    'A quoted cell begins on this line or soon after and never ends: the file was cut off, or a quotation mark is missing.',
  'log-csv-bad': (d: { why: string }) => `This is no CSV: ${d.why}.`,
  'log-no-table': (_: object) =>
    'No table was found: a line with column names was expected, then rows with a time and at least one number, parted by comma, semicolon, tab or pipe.',
  'log-no-rows': (d: { header: string }) =>
    `There are no data rows. Under a header such as this one ("${d.header}") rows with a time and at least one number were expected.`,
  'log-header-width': (d: { header: number; cells: number; line: number }) =>
    `The header has ${d.header} names, but the rows from line ${d.line} on have ${d.cells} cells. Both should be the same.`,
  'log-ragged': (d: { got: number; expected: number }) =>
    `This row has ${d.got} cells, but the table has ${d.expected} columns. Rows between the first and the last must be whole.`,
  'log-no-time': (d: { got: string }) =>
    `No time column was found among ${d.got}. A column of dates and times, or of elapsed time with its unit, was expected.`,
  'log-no-numeric': (d: { got: string }) =>
    `No column with power, energy, voltage, current or temperature was found among ${d.got}. Its header should name it and its unit, such as "Power (W)".`,
  'log-column-missing': (d: { got: string; known: string }) =>
    `There is no column "${d.got}". The columns are ${d.known}; their numbers from 1 will do as well.`,
  'log-unit-unknown': (d: { header: string; got: string; known: string }) =>
    `The unit "${d.got}" of ${d.header} is unknown. One of ${d.known} was expected.`,
  'log-unit-missing': (d: { header: string; role: string; known: string }) =>
    `The column ${d.header} looks like ${d.role}, but no unit is given. One of ${d.known} was expected.`,
  'log-two-readings': (d: {
    what: string;
    first: string;
    second: string;
    /** What settles it, for a program that asks. */
    choices?: readonly Choice[];
  }) => `${d.what} can be read in two ways: ${d.first}, or ${d.second}.`,
  'log-cell-bad': (d: { header: string; got: string; expected: string }) =>
    `"${d.got}" in the column "${d.header}" can't be read; ${d.expected} was expected.`,
  'log-time-bad': (d: { got: string; expected: string }) =>
    `"${d.got}" is no time that fits this column; ${d.expected} was expected.`,
  'log-zone-missing': (d: { got: string; header: string }) =>
    `The clock times of "${d.header}" (first date ${d.got}) come without a time zone, so that they can't be set beside other records.`,
  'log-zone-unknown': (d: { got: string }) =>
    `The time zone "${d.got}" is unknown. A name such as Europe/Vienna, UTC, or an offset such as +02:00 was expected.`,
  'log-time-not-real': (d: { got: string; zone: string }) =>
    `The clock of ${d.zone} never showed ${d.got}: it was moved forward over this time. Another zone was expected, or a correct time.`,
  'log-time-twice': (d: { got: string; zone: string }) =>
    `The clock of ${d.zone} showed ${d.got} twice, and the log begins within the repeated hour: either may be meant.`,
  'log-time-backward': (d: { byS: number }) =>
    `The time steps back by ${d.byS} s on this line. Times in ascending order were expected; which rows come first can't be told.`,
  'log-option-bad': (d: { got: string; expected: string }) =>
    `"${d.got}" can't be used here; ${d.expected} was expected.`,
  'log-no-power': (_: object) =>
    'The export has no power: a power column, or voltage and current, was expected. An energy counter is read by its difference.',
  'log-no-heating': (d: { why: string }) =>
    `No heating was found in the export: ${d.why}. A power that rises well above standby was expected.`,
  'log-not-covering': (d: { fromS: number; toS: number; startS: number; endS: number }) =>
    `The log runs from ${d.startS} s to ${d.endS} s and doesn't cover ${d.fromS} s to ${d.toS} s.`,
  'log-gap': (d: { fromS: number; toS: number; longestS: number }) =>
    `The log has a gap of ${Number((d.toS - d.fromS).toPrecision(6))} s (from ${Number(d.fromS.toPrecision(9))} s to ${Number(d.toS.toPrecision(9))} s after its start). At most ${Number(d.longestS.toPrecision(4))} s without a reading are bridged here.`,
  'log-count-broken': (d: { what: string }) =>
    `This line ${d.what}, with rows after it. Where rows are counted because they have no times, nothing may stand between them: a row may be missing here. Cut the file at this line, or export it with times.`,
  'log-file-changed': (_: object) =>
    'The file was changed while it was being read. Copy it to a place where nothing writes to it, and start again.',
  'log-counter-falls': (d: { fromWh: number; toWh: number; atS: number }) =>
    `The energy counter falls from ${d.fromWh} Wh to ${d.toWh} Wh at ${d.atS} s after the start, which is neither a reset nor an overflow. A counter that only rises was expected.`,
  'log-limits-bad': (d: {
    heatingFromS: number;
    heatingToS: number;
    coolDownFromS: number | undefined;
    coolDownToS: number;
    endS: number;
  }) =>
    `The limits of the phases must follow each other within the log, from 0 s to ${d.endS} s. Heating goes from ${d.heatingFromS} s to ${d.heatingToS} s, cool-down from ${d.coolDownFromS ?? d.heatingToS} s to ${d.coolDownToS} s.`,
  'log-no-edges': (d: { which: string; why: string }) =>
    `The clocks of the two logs can't be compared: the ${d.which} log shows no switching (${d.why}). A log in which the heater goes on or off is needed.`,
  'log-edges-differ': (d: { first: number; second: number }) =>
    `The two logs don't show the same heating: ${d.first} switchings in the first and ${d.second} in the second don't fit each other at any offset with clocks that differ by less than 1 %.`,
  'log-edges-ambiguous': (d: { firstS: number; secondS: number }) =>
    `The switchings of the two logs fit each other in more than one way: with an offset of ${Number(d.firstS.toPrecision(6))} s or of ${Number(d.secondS.toPrecision(6))} s. A log that shows the first switch-on or the last switch-off settles it.`,

  // fitting
  'fit-input-bad': (d: { what: string; expected: string; got: string }) =>
    `${d.what} must be ${d.expected}, but got ${d.got}.`,
  'fit-too-few-points': (d: { degree: number; needed: number; got: number }) =>
    `A polynomial of degree ${d.degree} needs at least ${d.needed} points at different x, but there are ${d.got}.`,
  'fit-fewer-points': (d: { parameters: number; got: number }) =>
    `A fit of ${d.parameters} parameters needs at least as many points of weight above zero, but there are ${d.got}.`,
  'fit-same-x': (d: { parameters: number; got: number }) =>
    `A fit of ${d.parameters} parameters needs at least as many points at different x, but there are ${d.got}.`,
  'fit-start-undefined': (d: { point: number; got: string; at: string }) =>
    `The model gives ${d.got} for point ${d.point} at the start (${d.at}); it must give a finite number for every point there.`,
  'fit-power-missing': (_: Record<never, never>) =>
    'This model needs the power of the heater as it was logged, but there is none.',
  'fit-ambient-missing': (_: Record<never, never>) =>
    'This model needs the temperature of the room, but there is none: what is unknown is not taken for some usual value.',
  'fit-no-overlap': (d: { what: string; fromS: number; toS: number; startS: number; endS: number }) =>
    `The log of the ${d.what} runs from ${d.fromS} s to ${d.toS} s and holds none of the temperatures, read from ${d.startS} s to ${d.endS} s. Both must be on one clock.`,
  'fit-too-few-blocks': (d: { parameters: number; needed: number; got: number; blockS: number }) =>
    `A model of ${d.parameters} parameters needs at least ${d.needed} block means, but these readings fill ${d.got} ${d.got === 1 ? 'block' : 'blocks'} of ${d.blockS} s.`,
  'fit-constant': (d: { readings: number; got: string }) =>
    `All ${d.readings} readings of the temperature are ${d.got}: a curve needs a temperature that changes.`,
  'fits-differ': (d: { first: string; second: string; firstBlocks: number; secondBlocks: number }) =>
    `The fits of ${d.first} (${d.firstBlocks} block means) and ${d.second} (${d.secondBlocks}) are not to the same readings, so they can't be compared. Fit both to the same stretch.`,
  'fit-without-covariance': (d: { model: string; reason: string }) =>
    `The fit of ${d.model} has no uncertainties to go on with: ${d.reason}.`,
  'fit-error-unstated': (d: { error: string; model: string }) =>
    `The ${d.error} moves the parameters of ${d.model}, so it must be stated: an error source, or null where it is known not to be there.`,
  'fills-too-alike': (d: { got: string; needed: string }) =>
    `These fills don't tell the heater body from the load: ${d.got}. ${d.needed} is needed.`,
  'fit-one-fill': (d: { fitted: string; asked: string }) =>
    `From one fill κ is known for its heat capacity of ${d.fitted} only, and here one of ${d.asked} is to be heated: the heat that stays in the heater body is missing. Two fills give it; or state the most that the body can hold, and it is carried as a doubt.`,
  'target-unreachable': (d: { endK: number; finalK: number }) =>
    `The load is to reach ${Number((d.endK - 273.15).toFixed(2))} °C, but at this power it tends to ${Number((d.finalK - 273.15).toFixed(2))} °C. A lower end or more power is needed.`,
  'periods-bad': (d: { got: string; expected: string }) =>
    `The periods before and after the heating don't serve a loss correction: ${d.got}. ${d.expected} is expected.`,
  'hold-bad': (d: { got: string }) =>
    `This is no hold above the room: ${d.got}. A load held well above the room, with the power logged, is expected.`,

  // workbook
  'run-misnamed': (d: { got: string; expected: string }) =>
    `The journal is that of run "${d.got}", but its folder is named "${d.expected}". A copied run does not count.`,
  'id-bad': (d: { what: string; got: string; reason: string }) =>
    `"${d.got}" can't be the id of ${/^[aeiou]/.test(d.what) ? 'an' : 'a'} ${d.what}: ${d.reason}.`,
  'file-missing': (d: { file: string }) => `There is no file ${d.file}.`,
  'file-unreadable': (d: { reason: string }) => `The file can't be read: ${d.reason}.`,
  'file-too-large': (d: { bytes: number; most: number }) =>
    `The file has ${d.bytes} bytes; a record has at most ${d.most}. Is it the right file?`,
  'file-not-text': (_: Record<string, never>) =>
    'This is not a plain text file: it has zeros between its letters, as binary files and UTF-16 have. Save it as UTF-8 text.',
  'record-not-yaml': (d: { reason: string }) => `This can't be read as YAML: ${d.reason}.`,
  'record-invalid': (d: { reason: string; got: string }) => `${d.reason} (here: ${d.got}).`,
  'record-misnamed': (d: { got: string; expected: string }) =>
    `The record calls itself "${d.got}", but its file is named "${d.expected}"; the two must be the same.`,
  'schema-newer': (d: { got: number; known: number }) =>
    `This file is of form ${d.got}, made by a newer heatledger; this one reads form ${d.known}. Nothing was changed.`,
  'workbook-missing': (d: { dir: string }) => `There is no workbook in ${d.dir}.`,
  'workbook-exists': (d: { dir: string }) => `There is a workbook in ${d.dir} already.`,
  'journal-broken': (d: { reason: string }) =>
    `This line of the journal is broken: ${d.reason}. Nothing was changed; compare it with a copy.`,
  'run-unknown': (d: { got: string; known: string }) => `There is no run "${d.got}". Known runs: ${d.known}.`,
  'run-exists': (d: { got: string }) => `There is a run "${d.got}" already.`,
  'run-locked': (d: { run: string; by: string; since: string }) =>
    `Run ${d.run} is open in ${d.by}, since ${d.since}; a run has one writer at a time.`,
  'mapping-unknown': (d: { got: string; known: string }) =>
    `No mapping is saved as "${d.got}". Saved are: ${d.known}.`,
  'attachment-changed': (d: { run: string }) =>
    `This export of run ${d.run} is not the one that was imported: its digest differs. Put the original back.`,

  // instruments

  // protocols
  'answer-unused': (d: { step: string }) =>
    `This answer to the step "${d.step}" is not used: the step was answered before, or is not asked. Take it out.`,
  'hand-unknown': (d: { got: string; known: string }) =>
    `There is no hand "${d.got}" in workbook.yaml. Known: ${d.known}.`,
  'instrument-missing': (d: { kind: string }) => `The workbook has no ${d.kind}, which this protocol needs.`,
  'instrument-of-other-kind': (d: { got: string; is: string; expected: string }) =>
    `The instrument "${d.got}" is a ${d.is}; a ${d.expected} is needed here.`,
  stopped: (_: Record<string, never>) => 'Stopped before the first reading; no run was begun.',
  'protocol-unknown': (d: { got: string; known: string }) =>
    `There is no protocol "${d.got}". Known: ${d.known}.`,
  'log-lacks': (d: { what: string }) => `This export has no column of ${d.what}, which is needed here.`,
  'log-does-not-cover': (d: { what: string; whole?: string }) =>
    `This log doesn't cover the ${d.whole ?? 'heating'}: ${d.what}. Nothing was kept.`,
  'answer-missing': (d: { step: string; ask: string }) =>
    `There is no answer for the step "${d.step}" (${d.ask}).`,
  'answer-refused': (d: { step: string; got: string; reason: string }) =>
    `The answer "${d.got}" to the step "${d.step}" can't be kept. ${d.reason}`,
  'answer-stray': (d: { step: string; known: string }) =>
    `No step is named "${d.step}". The steps are: ${d.known}.`,

  // evaluation
  'run-contradicts': (d: { run: string; reason: string }) =>
    `Run ${d.run} contradicts itself: ${d.reason}. It does not count; compare it with a copy.`,
  'export-reused': (d: { run: string; other: string }) =>
    `Run ${d.run} holds the same meter export as run ${d.other}: one heating can't count twice.`,
  'too-few-figures': (d: { got: number }) =>
    `A comparison needs two figures or more; there ${d.got === 1 ? 'is 1' : `are ${d.got}`}.`,
  'definitions-differ': (d: { first: string; second: string }) =>
    `Efficiencies under different definitions ("${d.first}", "${d.second}") can't be compared.`,
  'rota-bad': (d: { reason: string }) => `No rota can be made: ${d.reason}.`,
  'heater-unknown': (d: { got: string; known: string }) =>
    `There is no heater "${d.got}". Known: ${d.known}.`,
  'setting-unknown': (d: { heater: string; got: string; known: string }) =>
    `The heater ${d.heater} has no setting "${d.got}". It has: ${d.known}.`,
  'instrument-unknown': (d: { got: string; known: string }) =>
    `There is no instrument "${d.got}". Known: ${d.known}.`,
  'reading-missing': (d: { run: string; what: string }) => `Run ${d.run} has no reading of ${d.what}.`,
  'mass-negative': (d: { full: string; empty: string }) =>
    `The vessel with water (${d.full}) must weigh more than the empty one (${d.empty}).`,
  'rise-not-positive': (d: { run: string; start: string; end: string }) =>
    `The water of run ${d.run} ended at ${d.end}, no warmer than it began (${d.start}).`,
  'above-boiling': (d: { got: string; boiling: string }) =>
    `The water can't have been at ${d.got}: at that pressure it boils at ${d.boiling}.`,
  'energy-not-positive': (d: { run: string; got: string }) =>
    `The metered energy of run ${d.run} must be more than zero, but the counter readings give ${d.got}.`,
  'energy-disagrees': (d: { run: string; logged: string; typed: string; difference: string; most: string }) =>
    `Run ${d.run} is refused: the log gives ${d.logged}, the counter as typed at the bench ${d.typed}. They differ by ${d.difference}; at most ${d.most} can be explained.`,
  'times-backward': (d: { run: string }) => `Run ${d.run} was switched off before it was switched on.`,
  'body-capacity-missing': (d: { heater: string }) =>
    `A warm start needs the heat capacity of the heater body: add bodyHeatCapacity (value and halfWidth) to the heater ${d.heater}.`,
  'protocol-changed': (d: { run: string }) =>
    `The protocol kept with run ${d.run} is not the one the run began with: its digest differs. Put the original back.`,
  'method-time-missing': (d: { run: string; what: string }) =>
    `${d.what} of run ${d.run} has no time: the marks of its beginning and its end are both needed.`,
  'method-too-short': (d: { run: string; what: string; got: string; least: string }) =>
    `${d.what} of run ${d.run} lasted ${d.got}; its protocol asks for ${d.least} or more.`,
  'method-few-temperatures': (d: { run: string; got: number; from: 'log' | 'readings'; least: number }) =>
    `Run ${d.run} has ${d.got} ${d.got === 1 ? 'temperature' : 'temperatures'} between its marks (${d.from === 'log' ? 'from the log' : 'typed'}); ${d.least} or more are needed.`,
  'vapour-not-weighed': (d: { run: string }) =>
    `Run ${d.run} cooled with the lid off and was not weighed at the end: the heat of the steam would be taken for a loss to the room. Weigh at the end, or leave the lid on.`,
  'vapour-not-positive': (d: { run: string; got: string }) =>
    `The steam of run ${d.run} must weigh more than zero, but the two weighings give ${d.got}.`,
  'vessel-unknown': (d: { heater: string }) =>
    `The heat capacity of the vessel is needed here: state vessel (material, or specificHeat) in the record of the heater ${d.heater}.`,
  'run-unfinished': (d: { run: string; step: string }) =>
    `Run ${d.run} is not finished; it waits at ${d.step}. Go on with: heatledger test --resume ${d.run}`,
  'predict-unknown': (d: { figure: string }) =>
    `Nothing carries the figure ${d.figure} to another heating yet: its loss to the room is not known. A cool-down gives it (heatledger test cool-down), or lossCoefficient in the record of the heater.`,
  'predict-unreadable': (d: { got: string; why: string }) =>
    `"${d.got}" can't be read as a heating: ${d.why}. Mass, start and end, and power are expected, such as "8 kg, 12 °C to 65 °C, 900 W".`,

  'curve-no-temperature': (d: { run: string }) =>
    `Run ${d.run} has no log of the temperature, so there is no curve to fit.`,
  'curve-clocks': (d: { run: string; why: string }) =>
    `Nothing says how the clocks of the two logs of run ${d.run} stand to each other. ${d.why}`,
  'curve-other-protocol': (d: { run: string; what: string }) =>
    `Run ${d.run} was made by the protocol "${d.what}", which has no warm-up or cool-down to fit. Its result is shown by: heatledger result`,
  'curve-part-missing': (d: { part: string; why: string }) => `There is no ${d.part} to fit: ${d.why}.`,
  'curve-stretch-empty': (d: { from: string; to: string; logFrom: string; logTo: string }) =>
    `No readings lie from ${d.from} to ${d.to}: the temperature log runs from ${d.logFrom} to ${d.logTo} of the same clock.`,
  'curve-nothing': (d: { run: string; why: string }) => `No curve can be fitted to run ${d.run}: ${d.why}`,

  // sizing
  'load-bad': (d: { what: string; got: string }) =>
    `The ${d.what} of the load must be more than zero, but it is ${d.got}.`,
  'efficiency-bad': (d: { got: string }) =>
    `An efficiency lies above 0 and at most at 1, but this figure is ${d.got}.`,
  'prediction-open': (d: { low: string }) =>
    `The figure is too doubtful to size from: its prediction reaches down to ${d.low}. Make more runs.`,
  'supply-bad': (d: { what: string; got: string }) => `The ${d.what} can't be ${d.got}.`,

  // report

  // command line
  'output-on-record': (d: { file: string }) =>
    `${d.file} is a record of the workbook; an output is never written there. Name another file.`,
  'output-not-file': (d: { file: string }) => `${d.file} is no plain file. Name another one.`,
  'output-taken': (d: { file: string }) =>
    `There is a file ${d.file} that heatledger did not write. Name another one, or move it away.`,
  'output-on-export': (d: { file: string }) =>
    `${d.file} is the export itself; an output is never written over it. Name another file.`,
  'mapping-unfit': (d: { name: string; reason: string }) =>
    `This export doesn't fit the mapping saved as "${d.name}": ${d.reason}`,
  'mapping-differs': (d: { name: string; differences: string }) =>
    `Another mapping is saved as "${d.name}": ${d.differences}. Nothing was kept.`,
  'mapping-reserved': (d: { got: string }) =>
    `A mapping can't be called "${d.got}", which means something else after --like. Another name is expected, such as the id of the meter.`,
  'import-stopped': (_: Record<string, never>) => 'Stopped; nothing was kept.',
  'exclusion-stands': (d: { run: string; state: string }) => `Run ${d.run} ${d.state}; nothing was changed.`,
  'disk-refuses': (d: { reason: string }) =>
    `The file system refuses: ${d.reason}. What was kept before is safe.`,
  'option-missing': (d: { option: string; what: string }) =>
    d.option.startsWith('-')
      ? `The option ${d.option} is missing (${d.what}); without a terminal nobody can be asked for it.`
      : `The argument "${d.option}" is missing (${d.what}); without a terminal nobody can be asked for it.`,
  'option-bad': (d: { message: string }) => `${d.message}`,
  'no-terminal': (_: Record<string, never>) =>
    'A guided test needs a terminal, or a file of answers: --answers FILE.',
  'figure-unknown': (d: { got: string; known: string }) =>
    `There is no figure "${d.got}". Known: ${d.known}.`,
  'nothing-to-resume': (_: Record<string, never>) => 'No run is unfinished, so there is none to go on with.',
  'nothing-to-repeat': (_: Record<string, never>) => 'No run is finished yet, so there is none to repeat.',
  'runs-without-temperature': (_: Record<string, never>) =>
    'No run of this workbook has a log of the temperature, so there is no curve to fit.',
  'no-figures': (_: Record<string, never>) => 'No run counts yet, so there is no figure.',
  'record-exists': (d: { what: string; id: string }) =>
    `The ${d.what} "${d.id}" is there already; another name or --id is expected.`,
} as const;

export type ErrorCode = keyof typeof texts;
/** What the sentence of an error code needs to know. */
export type ErrorDetail<C extends ErrorCode> = Parameters<(typeof texts)[C]>[0];
