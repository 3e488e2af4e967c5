import type { Method, MethodFigure } from './types.js';

const order: readonly Method[] = ['cool-down', 'hold', 'boil-off', 'two-fills'];

/** Heaters by id, what was found with the heater off first, then their settings as the heater's record lists them. */
export function byHeaterAndMethod(a: MethodFigure, b: MethodFigure): number {
  if (a.heater.id !== b.heater.id) return a.heater.id < b.heater.id ? -1 : 1;
  const place = ({ heater, setting }: MethodFigure) =>
    heater.settings.findIndex((each) => each.id === setting);
  return place(a) - place(b) || order.indexOf(a.method) - order.indexOf(b.method);
}
