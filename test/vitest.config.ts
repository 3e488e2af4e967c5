/**
 * Settings of the tests. vitest looks for a settings file at the top only, where this project keeps none, so
 * name it: `npx vitest run --config test/vitest.config.ts test/units`, or `npm test -- test/units`. Plain
 * `npx vitest run test/units` works as well, with vitest's own shorter time limits and without the alias.
 */
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const top = fileURLToPath(new URL('..', import.meta.url));

export default defineConfig({
  root: top,
  resolve: {
    // The library as its users import it, without a build.
    alias: [{ find: /^heatledger\/([a-z]+)$/, replacement: `${top}src/$1/index.ts` }],
  },
  test: {
    environment: 'node',
    include: ['test/**/*.test.ts'],
    maxWorkers: 2,
    // For machines far slower than ours; no test asks how fast it was.
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});
