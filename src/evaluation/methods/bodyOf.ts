import { add, constant, errorOf, multiply, type Quantity, type SourceBook } from '../../uncertainty/index.js';
import type { Heater } from '../../workbook/index.js';
import type { KnownBody } from '../losses/types.js';

/** A heater body that nobody knows: from nothing to four kilograms of steel; common practice, no source. */
const UNKNOWN_BODY = { value: 1000, halfWidth: 1000 } as const;
/** Share of a stated body that follows the load, since it stands between load and room; common practice, no source. */
const BODY_SHARE = { value: 0.75, halfWidth: 0.25 } as const;

/**
 * Heat capacity of the heater body as far as it follows the load, J/K, and where it is known from. Two fills give just that;
 * of what the heater's record states only a share follows.
 */
export function bodyOf(
  book: SourceBook,
  heater: Heater,
  known: KnownBody | null,
): { readonly quantity: Quantity; readonly from: string } {
  if (known !== null) return { quantity: known.heatCapacityJPerK, from: known.from };
  const source = (id: string, name: string, halfWidth: number) =>
    errorOf(book.get({ id: `heater:${heater.id}:${id}`, name, halfWidth, scope: 'heater', assumed: true }));
  const stated = heater.bodyHeatCapacity;
  if (!stated) {
    const error = source(
      'body-unknown',
      'heat capacity of the heater body, not known',
      UNKNOWN_BODY.halfWidth,
    );
    return { quantity: add(constant(UNKNOWN_BODY.value), error), from: 'assumed' };
  }
  const share = source('body-share', 'share of the heater body that follows the load', BODY_SHARE.halfWidth);
  const capacity = source('body-heat-capacity', 'heat capacity of the heater body', stated.halfWidth);
  return {
    quantity: multiply(add(constant(BODY_SHARE.value), share), add(constant(stated.value), capacity)),
    from: "the heater's record",
  };
}
