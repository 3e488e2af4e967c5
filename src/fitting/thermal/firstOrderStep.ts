import { phi } from './phi.js';

const p = new Float64Array(4);

/**
 * One exact step of dx/dt = −b·x + f(t), f a straight line from f₀ to f₁ over h seconds:
 * x(h) = E·x(0) + w₀·f₀ + w₁·f₁. Writes E, w₀, w₁ and their derivatives by b.
 *
 * E = φ₀, w₁ = h·φ₂, w₀ = h·(φ₁ − φ₂), all at −b·h.
 */
export function firstOrderStep(b: number, h: number, out: Float64Array): void {
  phi(-b * h, p);
  const p1 = p[1]!;
  const p2 = p[2]!;
  const p3 = p[3]!;
  out[0] = p[0]!;
  out[1] = h * (p1 - p2);
  out[2] = h * p2;
  out[3] = -h * p[0]!;
  out[4] = -h * h * (p1 - 2 * p2 + 2 * p3);
  out[5] = -h * h * (p2 - 2 * p3);
}
