import type { Policy } from '../limits/policy';
import type { Piece } from '../record/patient-record';
import { addDays, showDay } from '../units/calendar-day';
import type { PieceReadings } from './pressure-readings';

/** The working band of a piece as shares of its fitted tightness, the range it stands for, and what the fitting is taken to be. */
export type PieceBand = {
  readonly low: number;
  readonly high: number;
  readonly from: 'class' | 'clinic';
  /** What the fitted tightness stands for: assumed, read at the first fit, or moved by how the piece sat then. */
  readonly reference: 'assumed' | 'read' | 'first fit';
  /** `class 2 of scheme S, 23–32 mmHg`, or `this clinic’s own`; then what the fitting is taken for. */
  readonly says: readonly string[];
};

/** A class is the pressure at the ankle or wrist; a reading in this far share of the piece is taken for one of there. Clinic default. */
const FAR_END = 0.25;
const AT_REST = ['lying', 'sitting', 'standing'];
const TIGHT = ['too tight', 'cuts in'];

/**
 * The working band of a piece: that of its class where one was ordered, else the clinic's; about what was read at its first fit.
 *
 * Edges in mmHg are the class's range, or bandLow and bandHigh times the assumed 20 mmHg. Divided by the pressure at the fitting: the mean of readings
 * at rest within the clinic's days of first fit at a site it covers (for a class: in the far quarter, where schemes measure); else, where more than half of the
 * zones sat too tight or too loose, the upper or the lower edge; else the middle of the class, or the assumed 20 mmHg.
 * Shape: a piece, its readings, the policy; shares without unit. Refuses nothing: a class whose range runs backwards was refused where it was typed.
 * Source: class scheme as ordered; 15–25 mmHg (Ai 2017). Example: no class, 24 mmHg read: 15/24 to 25/24, 0.63–1.04.
 */
export function pieceBand(piece: Piece, readings: PieceReadings, policy: Policy): PieceBand {
  const ordered = piece.garment?.pressure ?? null;
  const usual = policy.assumedPressureMmHg;
  const low = ordered ? ordered.lowMmHg : policy.bandLow * usual;
  const high = ordered ? ordered.highMmHg : policy.bandHigh * usual;
  const range = ordered
    ? `Band of the order: ${/^class\b/i.test(ordered.name) ? ordered.name : `class ${ordered.name}`}, ${ordered.scheme}, ${ordered.lowMmHg}–${ordered.highMmHg}\u202fmmHg.`
    : 'Band: by the limits, no class was ordered.';
  const from = ordered ? ('class' as const) : ('clinic' as const);
  const read = firstFitReadings(piece, readings, ordered !== null, policy);
  if (read.length > 0) {
    const mmHg = read.reduce((sum, one) => sum + one.mmHg, 0) / read.length;
    const says = `About ${mmHg.toFixed(0)}\u202fmmHg as read at the first fit, ${showDay(read[0]?.day ?? piece.cutFrom)}.`;
    return { low: low / mmHg, high: high / mmHg, from, reference: 'read', says: [range, says] };
  }
  const zones = piece.fit?.zones ?? [];
  const share = (fits: readonly string[]) => zones.filter(({ fit }) => fits.includes(fit)).length > zones.length / 2;
  if (share(TIGHT))
    return {
      low: low / high,
      high: 1,
      from,
      reference: 'first fit',
      says: [range, 'It sat too tight at its first fit: fitted at the upper edge.'],
    };
  if (share(['too loose']))
    return {
      low: 1,
      high: high / low,
      from,
      reference: 'first fit',
      says: [range, 'It sat too loose at its first fit: fitted at the lower edge.'],
    };
  const middle = ordered ? (low + high) / 2 : usual;
  const assumed = ordered
    ? 'No reading of its first fit: taken as fitted in the middle of its class.'
    : 'No reading of its first fit: taken as fitted in the middle.';
  return { low: low / middle, high: high / middle, from, reference: 'assumed', says: [range, assumed] };
}

function firstFitReadings({ firstWorn, fit }: Piece, { of }: PieceReadings, classed: boolean, policy: Policy) {
  const start = fit?.day ?? firstWorn;
  if (!start) return [];
  const end = addDays(start, policy.firstFitDays);
  return of.filter(
    ({ day, posture, alongPiece }) => day >= start && day <= end && AT_REST.includes(posture) && (!classed || alongPiece <= FAR_END),
  );
}

/** The policy with the band of a piece in place of the clinic's, for what judges that piece. */
export function policyOfPiece(policy: Policy, { low, high }: PieceBand): Policy {
  return { ...policy, bandLow: low, bandHigh: high };
}
