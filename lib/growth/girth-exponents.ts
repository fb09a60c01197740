import type { LimbKind } from '../ladder/limb';

/**
 * How girth goes with body weight and height at one place of a limb: C ∝ W^weight · H^height.
 *
 * `place` is anatomical: 0 at the distal landmark, 1 at the middle one, 2 at the proximal one.
 */
export type GirthExponents = { readonly place: number; readonly weight: number; readonly height: number };

type Tables = Readonly<Record<LimbKind, readonly GirthExponents[]>>;

/**
 * Growing children. Source: Snyder et al. 1977 (children 2–20 years, least squares of ln girth on ln weight and ln height),
 * checked within children on the Berkeley Guidance Study calf, 9 to 18 years (Tuddenham and Snyder 1954).
 * Height exponents are rounded; knee and lower thigh lie on the line between calf and thigh.
 */
const CHILD_EXPONENTS: Tables = {
  leg: [
    { place: 0.1, weight: 0.4, height: -0.3 },
    { place: 0.69, weight: 0.45, height: -0.3 },
    { place: 1.85, weight: 0.6, height: -0.55 },
  ],
  arm: [
    { place: 0, weight: 0.42, height: -0.4 },
    { place: 0.75, weight: 0.47, height: -0.4 },
    { place: 1.5, weight: 0.7, height: -0.9 },
  ],
};

/**
 * Grown adults: height fixed, weight only. Source: ANSUR II 2012 and NHANES 2003–2006 (cross-sections of healthy adults;
 * proof within one person exists only for the child's calf).
 */
const ADULT_EXPONENTS: Tables = {
  leg: [
    { place: 0.1, weight: 0.28, height: 0 },
    { place: 0.69, weight: 0.42, height: 0 },
    { place: 1, weight: 0.38, height: 0 },
    { place: 1.2, weight: 0.47, height: 0 },
    { place: 1.85, weight: 0.55, height: 0 },
  ],
  arm: [
    { place: 0, weight: 0.2, height: 0 },
    { place: 0.75, weight: 0.38, height: 0 },
    { place: 1.5, weight: 0.6, height: 0 },
  ],
};

/**
 * The exponents at an anatomical place: linear between sites, the outer site's beyond it.
 *
 * Example: a child's leg at place 0.69 (calf) has 0.45 and −0.3.
 */
export function exponentsAt(limb: LimbKind, growing: boolean, place: number): { readonly weight: number; readonly height: number } {
  const sites = (growing ? CHILD_EXPONENTS : ADULT_EXPONENTS)[limb];
  const above = sites.findIndex((site) => site.place >= place);
  if (above === 0) return sites[0] as GirthExponents;
  if (above < 0) return sites[sites.length - 1] as GirthExponents;
  const lower = sites[above - 1] as GirthExponents;
  const upper = sites[above] as GirthExponents;
  const share = (place - lower.place) / (upper.place - lower.place);
  return { weight: lower.weight + share * (upper.weight - lower.weight), height: lower.height + share * (upper.height - lower.height) };
}
