import { probit } from 'simple-statistics';

/**
 * Φ(z), the chance of a standard normal value below z, by Marsaglia's series inside ±7 and 0 or 1 outside.
 *
 * Source: Marsaglia 2004, Evaluating the Normal Distribution, J Stat Softw 11(4): Φ(z) = ½ + φ(z)(z + z³/3 + z⁵/(3·5) + …).
 * Example: Φ(−1.959964) = 0.025.
 */
export function cumulativeNormal(z: number): number {
  if (z < -7) return 0;
  if (z > 7) return 1;
  let term = z;
  let sum = z;
  for (let odd = 3; Math.abs(term) > 1e-17 * Math.abs(sum); odd += 2) {
    term *= (z * z) / odd;
    sum += term;
  }
  return 0.5 + sum * Math.exp(-0.5 * z * z - 0.5 * Math.log(2 * Math.PI));
}

/**
 * How many SDs either side hold a share of a normal distribution: the z with Φ(z) − Φ(−z) = share.
 *
 * Shape: share above 0 and below 1. Newton steps from simple-statistics' probit. Example: 0.95 is 1.959964; 0.9 is 1.644854.
 */
export function normalReach(share: number): number {
  const wanted = (1 + share) / 2;
  let z = probit(wanted);
  for (let step = 0; step < 4; step++) z -= (cumulativeNormal(z) - wanted) / (Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI));
  return z;
}
