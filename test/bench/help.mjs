// How long `heatledger --help` takes against Node alone; at most one and a half times as long plus 100 ms.
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { alternate, conclude, median, runNode, verdict } from './bench.mjs';

const program = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

if (!existsSync(program)) {
  process.stderr.write('dist/cli/main.js is missing: build it first (npm run build).\n');
  process.exitCode = 1;
} else {
  const times = await alternate(
    { node: () => runNode(['-e', '0']), help: () => runNode([program, '--help']) },
    15,
  );
  const nodeMs = median(times.node ?? []);
  const helpMs = median(times.help ?? []);
  const allowedMs = 1.5 * nodeMs + 100;
  const round = (/** @type {number} */ value) => Number(value.toFixed(1));
  conclude(times, verdict(helpMs, allowedMs), {
    bench: 'help',
    helpMs: round(helpMs),
    nodeMs: round(nodeMs),
    allowedMs: round(allowedMs),
  });
}
