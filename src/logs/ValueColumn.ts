import type { ExportUnit } from './exportUnits.js';
import type { QuantityRole } from './types.js';

/** A column that is read, and its unit; `null` only for the power factor. */
export interface ValueColumn {
  readonly role: QuantityRole;
  readonly index: number;
  readonly header: string;
  readonly unit: ExportUnit | null;
}
