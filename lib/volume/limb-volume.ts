import type { TapedLine } from '../ladder/taped-line';
import type { NoAnswer } from '../outcome';
import { type Millilitres, millilitres } from '../units/volume';
import { equivalentGirth } from './frustum';
import { type Span, spanVolume, tapedSpan } from './span-volume';
import { relativeSd, type TapeError, volumeVariance } from './tape-error';

/** A limb volume, which never travels without its span and its uncertainty. */
export type LimbVolume = {
  readonly volumeMl: Millilitres;
  readonly sdMl: Millilitres;
  /** On the ladder's own upward ruler. */
  readonly span: Span;
  readonly lengthMm: number;
  /** Girth of the cylinder with the same volume and length, mm. */
  readonly meanGirthMm: number;
  /** Volume over length, mm². */
  readonly meanCrossSectionMm2: number;
};

/**
 * Volume of everything that one ladder tapes, with its span and one standard deviation.
 *
 * Shape: a taped line (mm), tape error and tension share; millilitres out. Refuses a ladder of fewer than two girths by name.
 * Source: frustum sum (see `spanVolume`) and `volumeVariance`.
 * Example: girths of 100π mm at 0 and 40 mm give 314.16 ml over 40 mm.
 */
export function limbVolume(line: TapedLine, tape: TapeError, tension: number, within?: Span): LimbVolume | NoAnswer {
  const span = within ?? tapedSpan(line.placesMm);
  if (!span) {
    return { noAnswer: line.placesMm.length === 1 ? 'One girth has no volume; a second place is needed.' : 'No girths were measured.' };
  }
  const volumeMm3 = spanVolume(line.placesMm, line.girthsMm, span);
  if (volumeMm3 === undefined) return { noAnswer: 'The stretch reaches past the measured rungs.' };
  const lengthMm = span.toMm - span.fromMm;
  const sd = relativeSd(volumeVariance(line.placesMm, line.girthsMm, span, volumeMm3, tape, tension));
  return {
    volumeMl: millilitres(volumeMm3),
    sdMl: millilitres(volumeMm3 * sd),
    span,
    lengthMm,
    meanGirthMm: equivalentGirth(volumeMm3, lengthMm),
    meanCrossSectionMm2: volumeMm3 / lengthMm,
  };
}
