import type { LimbKind } from '../ladder/limb';
import { exponentsAt } from './girth-exponents';

/**
 * How much larger a girth is expected to be: (W/W₀)^kw · (H/H₀)^kh, exponents by place along the limb.
 *
 * Shape: earlier and later weight (kg) and height (mm), all above 0; a factor without unit.
 * Source: see `girth-exponents`; outside check: Berkeley calf from 9 to 18 years, bias below 2 %, SD about 3 %.
 * Example: a child's calf, weight 30 to 33 kg and height 1,350 to 1,400 mm: 1.1^0.45 · 1.037^−0.3 = 1.0325.
 */
export function girthFactor(limb: LimbKind, growing: boolean, place: number, weightRatio: number, heightRatio: number): number {
  const exponents = exponentsAt(limb, growing, place);
  return weightRatio ** exponents.weight * heightRatio ** exponents.height;
}

/**
 * SD of the body model as a share of girth, by the time between two visits.
 *
 * 0.7 % at once, 1 % at half a year, 1.5 % at a year, 3 % from three years on; linear between.
 * Source: Berkeley calf, rms error of the weight–height rule 0.9 % at 6, 1.5 % at 12, 2.0 % at 24 months; wider for other places.
 * At once: 0.7 %. In a simulated cohort of limbs that wander as the Berkeley calf does, this line made 95 % intervals hold 95.3 % of the
 * truth and 2.1–2.4 % false alarms; 0.4 % at once held 94 % with 2.7–3.0 %.
 * Example: 183 days give 1.0 %.
 */
export function bodyModelSd(daysApart: number): number {
  const years = Math.abs(daysApart) / 365.25;
  if (years <= 0.5) return 0.007 + (years / 0.5) * 0.003;
  if (years <= 1) return 0.01 + ((years - 0.5) / 0.5) * 0.005;
  if (years <= 3) return 0.015 + ((years - 1) / 2) * 0.015;
  return 0.03;
}
