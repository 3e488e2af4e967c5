/**
 * sizing: from a figure to the energy at the socket and the count of cells, always with an interval.
 */
export { type CellCount, type CellSupply, cellCount } from './cellCount.js';
export { type Sizing, sizeFromFigure, supplyCautions } from './sizeFromFigure.js';
export { type HeaterEfficiency, type Load, type SocketEnergy, socketEnergy } from './socketEnergy.js';
