// Installs where needed and compiles src to dist; `--force` builds even when nothing has changed.
import { build, ensureInstalled } from './steps.mjs';

process.exitCode = ensureInstalled() && build({ force: process.argv.includes('--force') }) ? 0 : 1;
