import type { PlacedLine } from '../alignment/place-landmarks';
import type { BodyAt } from '../growth/body-at';
import type { Doubt } from '../ladder/doubt';
import type { Ladder } from '../ladder/ladder';
import type { LimbKind, Side } from '../ladder/limb';
import type { Visit } from '../record/patient-record';

/** One ladder of a series: the visit it was taped at, its line with landmarks placed, its doubts and the body that day. */
export type SeriesVisit = {
  readonly visit: Visit;
  readonly ladder: Ladder;
  readonly placed: PlacedLine;
  readonly body: BodyAt;
  readonly growing: boolean;
  readonly doubts: readonly Doubt[];
  /** Figures of `body` that look odd and that nobody has kept. */
  readonly bodyInDoubt: readonly ('height' | 'weight')[];
  /** Left and right of this visit look changed round, and nobody has kept it so. */
  readonly sidesInDoubt?: boolean;
};

/** Every ladder of one limb, in order of time. */
export type LimbSeries = {
  readonly limb: LimbKind;
  readonly side: Side;
  readonly visits: readonly SeriesVisit[];
};
