import { placeOf } from '../ladder/taped-line';
import { isNoAnswer, type NoAnswer } from '../outcome';
import type { CoverEnd, Piece } from '../record/patient-record';
import { visitCutFrom } from '../record/visit-cut-from';
import type { LimbSeries, SeriesVisit } from '../trend/series-visit';

/** The ladder that a piece was cut from and the rungs of it that the piece covers, by index. */
export type CutFrom = { readonly visit: SeriesVisit; readonly rungs: readonly number[]; readonly fromMm: number; readonly toMm: number };

/** What is said where a ladder would be asked for. */
const BY_MEASURES: NoAnswer = { noAnswer: 'It is made to named measures alone and has no ladder; how it sits stands with its measures.' };

/**
 * The cut-from ladder of a piece in its limb's series, and the rungs that it covers.
 *
 * Refuses by name when the piece is made to named measures alone, no ladder of that day is on record, an end is a landmark that the ladder does not have, or no rung is covered.
 * Shape: a piece and its limb's series; places in mm on the ladder's upward ruler.
 */
export function cutFrom(piece: Piece, series: LimbSeries | undefined): CutFrom | NoAnswer {
  if (piece.covers === 'measures') return BY_MEASURES;
  const visit = series && visitCutFrom(series.visits, piece);
  if (!visit) return { noAnswer: `No ladder of ${piece.cutFrom} is on record for this limb.` };
  const one = placeOfEnd(piece.covers.from, visit);
  const other = placeOfEnd(piece.covers.to, visit);
  if (isNoAnswer(one)) return one;
  if (isNoAnswer(other)) return other;
  const fromMm = Math.min(one, other);
  const toMm = Math.max(one, other);
  const { placesMm } = visit.placed.line;
  const rungs = placesMm.flatMap((place, index) => (place >= fromMm - 1 && place <= toMm + 1 ? [index] : []));
  if (rungs.length === 0) return { noAnswer: 'The piece covers no rung of the ladder it was made to.' };
  return { visit, rungs, fromMm, toMm };
}

function placeOfEnd(end: CoverEnd, visit: SeriesVisit): number | NoAnswer {
  if (typeof end !== 'string') return placeOf(visit.ladder, end.nm / 1e6);
  const placed = visit.placed.landmarks.get(end);
  return placed ? placed.placeMm : { noAnswer: `The ladder of ${visit.visit.day} does not say where the ${end.replace('-', ' ')} lies.` };
}
