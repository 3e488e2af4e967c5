import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll } from 'vitest';

/** The top folder of the project. */
export const top = fileURLToPath(new URL('../..', import.meta.url));

const made: string[] = [];
afterAll(() => {
  for (const folder of made) rmSync(folder, { recursive: true, force: true });
});

/** An empty folder that goes when the tests of this file are through. */
export function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'heatledger-'));
  made.push(folder);
  return folder;
}

/** A copy of a folder of the project, such as `samples/dairy`, to be changed at will. */
export function copyOf(path: string): string {
  const folder = emptyFolder();
  cpSync(join(top, path), folder, { recursive: true });
  return folder;
}

/** Every file below a folder with the digest of its bytes: two equal trees hold the same, byte for byte. */
export function treeOf(folder: string): Record<string, string> {
  const files = readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => !entry.isDirectory())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
  const digest = (file: string) => createHash('sha256').update(readFileSync(file)).digest('hex');
  return Object.fromEntries(files.map((file) => [relative(folder, file).split(sep).join('/'), digest(file)]));
}
