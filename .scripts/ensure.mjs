// Installs what package-lock.json names when node_modules does not hold it already.
import { ensureInstalled } from './steps.mjs';

process.exitCode = ensureInstalled() ? 0 : 1;
