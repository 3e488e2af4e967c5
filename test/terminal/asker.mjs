// A small program for the test of the terminal: asks, redraws a line, starts a child, and minds Ctrl-C.
import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline/promises';

const terminals = [process.stdin, process.stdout, process.stderr].map((stream) => stream.isTTY === true);
console.log(`terminals ${terminals.join(' ')} size ${process.stdout.columns}x${process.stdout.rows}`);

const asking = createInterface({ input: process.stdin, output: process.stdout });
asking.on('SIGINT', () => {
  console.log('\nstopped by Ctrl-C');
  process.exit(3);
});
for (;;) {
  const answer = await asking.question('\x1b[1mMass [kg]:\x1b[0m ');
  if (answer === 'end') break;
  if (answer === 'redraw') {
    for (const second of [1, 2, 3]) process.stdout.write(`\relapsed ${second} s`);
    process.stdout.write('\ndrawn\n');
  } else if (answer === 'child') {
    const child = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)'], { stdio: 'ignore' });
    console.log(`child ${child.pid}`);
  } else console.log(`kept ${answer}`);
}
asking.close();
console.log('bye');
process.exitCode = 7;
