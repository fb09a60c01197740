import { crossSection } from './frustum';

/** Forms that stand in for the end of a residual limb beyond its last full girth, and the share of A·h that each holds. */
const SHARES = { cone: 1 / 3, paraboloid: 1 / 2, 'half-ellipsoid': 2 / 3 } as const;

/** The form of an end cap, chosen by a person and named wherever its volume stands. */
export type EndCapForm = keyof typeof SHARES;

/**
 * Volume of the end of a residual limb beyond its last full girth: V = share × A × h, A = C² / 4π.
 *
 * Share: cone 1/3, paraboloid 1/2, half-ellipsoid 2/3. The form is an assumption: the same end differs by a factor of two between them,
 * so two volumes are compared only under one form.
 * Shape: last girth and length to the soft end, mm; mm³; a length of 0 has a volume of 0. Source: geometry of the three solids.
 * Example: 240 mm and 40 mm: 61,115, 91,673 and 122,231 mm³.
 */
export function endCap(form: EndCapForm, girthMm: number, lengthMm: number): number {
  return SHARES[form] * crossSection(girthMm) * lengthMm;
}
