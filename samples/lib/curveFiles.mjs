/** Ten digits are more than anything here is good for, and few enough to be read. */
const tenDigits = (_key, value) => (typeof value === 'number' ? Number(value.toPrecision(10)) : value);

/** The answers file of one run. */
export function curveAnswers({ id, protocol, heater, setting, answers }) {
  const lines = answers.map(
    ({ step, value, at }) => `  - { step: ${step}, value: ${JSON.stringify(value)}, at: "${at}" }\n`,
  );
  return `schema: 1
run: ${id}
protocol: ${protocol}
heater: ${heater}
setting: ${setting}
hand: mr
instruments: { scale: scale-1, thermometer: logger-1, wattmeter: meter-1 }
answers:
${lines.join('')}`;
}

/**
 * The curves as files: path below samples/curves/ and text.
 * @param {ReturnType<typeof import('./curves.mjs').simulateCurves>} curves
 * @returns {Map<string, string>}
 */
export function curveFiles({ seed, runs }) {
  const files = new Map();
  for (const run of runs) {
    files.set(`answers/${run.id}.yaml`, curveAnswers(run));
    for (const [name, text] of Object.entries(run.files)) files.set(`exports/${name}`, text);
  }
  const truth = { seed, runs: Object.fromEntries(runs.map((run) => [run.id, run.truth])) };
  files.set('truth.json', `${JSON.stringify(truth, tenDigits, 2)}\n`);
  return files;
}
