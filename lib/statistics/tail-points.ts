/** Coefficients of Lanczos for g = 7, nine terms. Source: Press et al. 2007, Numerical Recipes, 6.1 (from memory); checked against SciPy in the test. */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905,
  -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];
const MOST_STEPS = 10_000;
const CLOSE = 1e-14;
const HALVINGS = 200;

/**
 * The value below which a χ² variable of `df` degrees of freedom lies with probability `share`.
 *
 * The series of the lower incomplete gamma function, inverted by halving. Shape: df > 0, not only whole; 0 < share < 1.
 * Source: Abramowitz and Stegun 1964, 6.5.29. Example: `chiSquarePoint(0.975, 15)` is 27.488.
 */
export function chiSquarePoint(share: number, df: number): number {
  return pointOf(share, (x) => gammaBelow(df / 2, x / 2));
}

/**
 * The value below which an F variable lies with probability `share`.
 *
 * The continued fraction of the incomplete beta function, inverted by halving. Shape: degrees of freedom > 0; 0 < share < 1.
 * Source: Abramowitz and Stegun 1964, 26.5.8 and 26.6.2. Example: `fPoint(0.975, 2, 8)` is 6.0595.
 */
export function fPoint(share: number, above: number, below: number): number {
  return pointOf(share, (x) => betaBelow((above * x) / (above * x + below), above / 2, below / 2));
}

function pointOf(share: number, chance: (x: number) => number): number {
  let [low, high] = [0, 1];
  while (chance(high) < share && high < 1e300) [low, high] = [high, high * 2];
  for (let turn = 0; turn < HALVINGS && high - low > CLOSE * high; turn++) {
    const middle = (low + high) / 2;
    if (chance(middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function logGamma(z: number): number {
  const [first = 0, ...rest] = LANCZOS;
  const sum = rest.reduce((all, term, index) => all + term / (z + index), first);
  const t = z + 6.5;
  return 0.5 * Math.log(2 * Math.PI) + (z - 0.5) * Math.log(t) - t + Math.log(sum);
}

/** P(a, x) by its series, whose terms are all of one sign. */
function gammaBelow(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < MOST_STEPS && term > sum * CLOSE; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return Math.min(1, sum * Math.exp(a * Math.log(x) - x - logGamma(a)));
}

function betaBelow(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - betaBelow(1 - x, b, a);
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x)) / a;
  let [c, d] = [1, 1 / (1 - ((a + b) * x) / (a + 1))];
  let fraction = d;
  for (let m = 1; m < MOST_STEPS; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / (1 + even * d);
    c = 1 + even / c;
    fraction *= c * d;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / (1 + odd * d);
    c = 1 + odd / c;
    fraction *= c * d;
    if (Math.abs(c * d - 1) < CLOSE) break;
  }
  return front * fraction;
}
