/**
 * Counts what vitest's JSON report says, so that nothing is lost between the tests and the last line: a file
 * that could not be loaded, a skipped test, an error outside every test, and a run without tests are failures.
 * @param {any} report the report, or undefined when vitest wrote none
 * @param {number | null} exitCode of vitest
 * @param {{ byName?: boolean, nameOf?: (path: string) => string }} [options] `byName`: the user asked for tests by name, so that
 *   the others are left out on purpose
 * @returns {{ passed: number, failed: number, complaints: string[] }}
 */
export function tally(report, exitCode, { byName = false, nameOf = (path) => path } = {}) {
  /** @type {string[]} */
  const complaints = [];
  let passed = 0;
  let failed = 0;
  for (const file of report?.testResults ?? []) {
    const name = nameOf(file.name);
    let failedHere = 0;
    for (const test of file.assertionResults) {
      if (test.status === 'passed') passed += 1;
      else if (test.status === 'failed') failedHere += 1;
      else if (!byName) {
        failedHere += 1;
        complaints.push(
          `${name}: "${test.fullName.trim()}" did not run (${test.status}); tests are never skipped.`,
        );
      }
    }
    if (file.status === 'failed' && failedHere === 0) {
      failedHere = 1;
      complaints.push(`${name} could not be run: ${String(file.message).split('\n')[0]}`);
    }
    failed += failedHere;
  }
  if (report === undefined) complaints.push('vitest ended without a report.');
  else if (passed + failed === 0) complaints.push('vitest found no tests.');
  else if (exitCode !== 0 && failed === 0)
    complaints.push(`vitest ended with code ${exitCode} outside of any test.`);
  if (failed === 0 && complaints.length > 0) failed = 1;
  return { passed, failed, complaints };
}
