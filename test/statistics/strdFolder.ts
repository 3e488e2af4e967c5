import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Sets of a file of certified data in the folder that STRD_DIR names; none where it is not set. Where it is set, the file
 * must be there: a wrong path is an error, not a check left out.
 */
export function setsOfFolder<T>(file: string): readonly (readonly [string, T])[] {
  const folder = process.env.STRD_DIR;
  if (!folder) return [];
  const { datasets } = JSON.parse(readFileSync(join(folder, file), 'utf8')) as {
    datasets: Record<string, T>;
  };
  return Object.entries(datasets);
}
