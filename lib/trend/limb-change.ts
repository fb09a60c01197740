import { type Alignment, alignLadders, toLater } from '../alignment/align-ladders';
import { type BodyChange, bodyChange, expectedGirthAt } from '../growth/body-change';
import type { LimbKind } from '../ladder/limb';
import type { TapedLine } from '../ladder/taped-line';
import type { Policy } from '../limits/policy';
import type { NoAnswer } from '../outcome';
import { isSameMeasurer } from '../record/measurer';
import { spanVolume } from '../volume/span-volume';
import type { TapeError } from '../volume/tape-error';
import { anatomyOf } from './anatomy-of';
import { tapeErrorOf } from './limb-series';
import { type MeasuredChange, measuredChange } from './measured-change';
import type { SeriesVisit } from './series-visit';

/** One limb between two visits before anything is judged: what was taped and what body size leads one to expect. */
export type LimbChange = {
  readonly earlier: SeriesVisit;
  readonly later: SeriesVisit;
  readonly alignment: Alignment;
  readonly measured: MeasuredChange;
  readonly body: BodyChange;
  /** Mean girth expected over the shared span from body size alone, later / earlier. */
  readonly expectedGirthRatio: number;
  /** Girth expected at a place of the earlier ruler from body size alone, later / earlier. */
  readonly expectedAt: (earlierPlaceMm: number) => number;
  readonly sameMeasurer: boolean;
};

/** What a limb did between two of its visits: `limbChange` with the clinic's policy, or the same remembered (`rememberedChanges`). */
export type ChangeBetween = (earlier: SeriesVisit, later: SeriesVisit, limb: LimbKind) => LimbChange | NoAnswer;

/**
 * What one limb did between two visits, on the same anatomy.
 *
 * Shape: two visits of one series, the earlier first; the clinic's policy. Refuses by name when no landmark is shared or no stretch
 * was taped at both. Source: engine sections 3 to 5.
 */
export function limbChange(earlier: SeriesVisit, later: SeriesVisit, limb: LimbKind, policy: Policy): LimbChange | NoAnswer {
  if (earlier.placed.line.placesMm.length < 2 || later.placed.line.placesMm.length < 2)
    return { noAnswer: 'Fewer than two girths at one of the visits.' };
  const growing = earlier.growing;
  const tape = tapeErrorOf(policy);
  const sameMeasurer = isSameMeasurer(earlier.visit, later.visit);
  const tension = tensionBetween(sameMeasurer, tape);
  const body = bodyChange(earlier.body, later.body, limb, growing, later.placed.day - earlier.placed.day);
  const alignment = alignLadders(earlier.placed, later.placed, limb, body.expectedLength);
  if (!alignment)
    return { noAnswer: 'The two ladders share no landmark in the order of the limb, so they cannot be put on the same anatomy.' };
  const measured = measuredChange(earlier.placed.line, later.placed.line, alignment, tape, tension);
  if (!measured) return { noAnswer: 'The two ladders have no stretch of the limb in common.' };
  const place = anatomyOf(earlier);
  const expectedAt = (placeMm: number): number => expectedGirthAt(body, limb, growing, place(placeMm));
  return {
    earlier,
    later,
    alignment,
    measured,
    body,
    expectedGirthRatio: expectedGirth(earlier.placed.line, measured, expectedAt),
    expectedAt,
    sameMeasurer,
  };
}

/** SD of tape tension at each of two visits. Example: two measurers, limits as shipped → the larger of the two. */
export function tensionBetween(sameMeasurer: boolean, tape: TapeError): number {
  return sameMeasurer ? tape.tensionSameMeasurer : tape.tensionOtherMeasurer;
}

/** Mean girth ratio over the shared span when every rung grows as expected of it: √(V of the grown girths / V as taped). */
function expectedGirth(line: TapedLine, measured: MeasuredChange, expectedAt: (placeMm: number) => number): number {
  const grown = line.girthsMm.map((girth, rung) => girth * expectedAt(line.placesMm[rung] as number));
  const volume = spanVolume(line.placesMm, grown, measured.shared.earlier) ?? measured.earlierVolumeMm3;
  return Math.sqrt(volume / measured.earlierVolumeMm3);
}

/** Where a place of the earlier ladder lies on the later one, mm. Example: the knee of the earlier ladder → the height of the knee on the later one. */
export function samePlace(change: LimbChange, earlierPlaceMm: number): number {
  return toLater(change.alignment, earlierPlaceMm);
}
