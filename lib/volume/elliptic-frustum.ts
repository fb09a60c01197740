/**
 * Area of an ellipse with these axes: A = πab / 4.
 *
 * Shape: both full axes in mm; square millimetres. Source: geometry. Example: 56 × 40 mm encloses 1,759.29 mm².
 */
export function ellipseArea(longMm: number, shortMm: number): number {
  return (Math.PI * longMm * shortMm) / 4;
}

/**
 * Volume between two parallel sections of any shape that change evenly: V = h (A₁ + A₂ + √(A₁A₂)) / 3.
 *
 * Exact where one section is the other made larger, as in a cone; for an ellipse that changes its shape it is a little below the true
 * figure. A height of 0 has a volume of 0. Shape: mm and mm²; mm³. Source: geometry of the frustum (Heron).
 * Example: a palm of 90 mm between ellipses of 56 × 40 and 84 × 28 mm holds 162,278.6 mm³.
 */
export function sectionFrustum(heightMm: number, lowerMm2: number, upperMm2: number): number {
  return (heightMm * (lowerMm2 + upperMm2 + Math.sqrt(lowerMm2 * upperMm2))) / 3;
}

/**
 * Area of an ellipse by its girth and its breadth, which a tape and a ruler give: the short axis is found so that the girth is right.
 *
 * Girth of an ellipse by Ramanujan's second formula, π(a + b)(1 + 3h / (10 + √(4 − 3h))), h = ((a − b) / (a + b))², a and b half axes;
 * solved by halving. Undefined where no ellipse has that girth: more than π times the breadth (a circle) or less than twice it.
 * Shape: mm; mm². Source: Ramanujan 1914. Example: girth 212 and breadth 88 mm give 2,980 mm², a circle of that girth 3,577 mm².
 */
export function ellipseAreaOf(girthMm: number, breadthMm: number): number | undefined {
  if (girthMm > Math.PI * breadthMm || girthMm <= 2 * breadthMm) return undefined;
  let [flat, round] = [0, breadthMm];
  for (let step = 0; step < 60; step++) {
    const middle = (flat + round) / 2;
    if (ellipseGirth(breadthMm, middle) < girthMm) flat = middle;
    else round = middle;
  }
  return ellipseArea(breadthMm, (flat + round) / 2);
}

function ellipseGirth(longMm: number, shortMm: number): number {
  const [a, b] = [longMm / 2, shortMm / 2];
  const h = ((a - b) / (a + b)) ** 2;
  return Math.PI * (a + b) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)));
}
