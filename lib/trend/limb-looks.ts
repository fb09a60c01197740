import { alignLadders, movedBy } from '../alignment/align-ladders';
import type { BodyAt } from '../growth/body-at';
import { type BodyChange, bodyChange } from '../growth/body-change';
import { exponentsAt } from '../growth/girth-exponents';
import type { Policy } from '../limits/policy';
import { isNoAnswer, type NoAnswer } from '../outcome';
import { anatomyOf } from './anatomy-of';
import { checkedChange } from './checked-change';
import type { ChangeBetween, LimbChange } from './limb-change';
import { type DividedLimb, divideLimb, type PartGirths, partGirths } from './part-girths';
import type { LimbSeries, SeriesVisit } from './series-visit';
import { withoutDoubtfulRungs } from './without-doubtful-rungs';

/** What differs between ways to read one visit: without its doubtful rungs and the zero where girths put it; as recorded; the shift taken out. */
export type ReadAs = 'clean' | 'recorded' | 'realigned';

/** Every ladder of one limb on the anatomy of its first one, each worked out when it is first asked for. */
export type LimbLooks = {
  readonly limb: DividedLimb;
  readonly at: (visit: number, readAs: ReadAs) => PartGirths | undefined;
  /** Body size at a visit against the first known: logarithms, and the variance of girth that a missing figure leaves. */
  readonly bodyAt: (visit: number) => { readonly lnWeight: number; readonly lnHeight: number; readonly variance: number };
};

/** Every ladder of a limb as the joint model takes it. Shape: a series and the policy; undefined where a ladder cannot be set against the first. */
function limbLooks(series: LimbSeries, policy: Policy, between: ChangeBetween): LimbLooks {
  const { visits } = series;
  const first = visits[0] as SeriesVisit;
  const clean = visits.map(withoutDoubtfulRungs);
  const anchor = clean[0] as SeriesVisit;
  const limb = divideLimb(anchor);
  const place = anatomyOf(first);
  const reference = firstKnown(visits);
  const changes = visits.map((visit) => bodyChange(reference, trusted(visit), series.limb, first.growing, 0));
  const placesMm = anchor.placed.line.placesMm;
  const exponents = placesMm.map((placeMm) => exponentsAt(series.limb, first.growing, place(placeMm)));
  const lnBody = changes.map(({ weightRatio, heightRatio }) => [Math.log(weightRatio), Math.log(heightRatio)] as const);
  const known = new Map<string, PartGirths | undefined>();
  const look = (visit: number, readAs: ReadAs): PartGirths | undefined => {
    if (visit === 0) return partGirths(limb, undefined, policy);
    const later = (readAs === 'clean' ? clean : visits)[visit] as SeriesVisit;
    const stretch = bodyChange(anchor.body, later.body, series.limb, first.growing, later.placed.day - anchor.placed.day).expectedLength;
    const aligned = later.placed.line.placesMm.length < 2 ? undefined : alignLadders(anchor.placed, later.placed, series.limb, stretch);
    if (!aligned) return undefined;
    const residualMm = readAs === 'realigned' ? residualOf(between(anchor, later, series.limb), policy) : 0;
    const [weight, height] = [0, 1].map((which) => (lnBody[visit]?.[which] ?? 0) - (lnBody[0]?.[which] ?? 0)) as [number, number];
    const expected = exponents.map((one) => one.weight * weight + one.height * height);
    return partGirths(
      limb,
      {
        later,
        alignment: residualMm ? movedBy(aligned, -residualMm) : aligned,
        expected,
        mayBeMoved: readAs === 'clean',
      },
      policy,
    );
  };
  return {
    limb,
    at: (visit, readAs) => {
      const key = `${visit} ${readAs}`;
      if (!known.has(key)) known.set(key, look(visit, readAs));
      return known.get(key);
    },
    bodyAt: (visit) => {
      const { modelSd, missing } = changes[visit] as BodyChange;
      const [lnWeight, lnHeight] = lnBody[visit] as readonly [number, number];
      // Half of what a missing figure leaves open between two visits; where nothing explains a child's girth, any growth.
      const variance = modelSd === undefined ? 1 : missing.length > 0 ? modelSd ** 2 / 2 : 0;
      return { lnWeight, lnHeight, variance };
    },
  };
}

/** The ladders of a limb as the model takes them: worked out once for its own course and for the other limb's. */
export type LooksOf = (series: LimbSeries) => LimbLooks;

/** `limbLooks` that works each series out once. */
export function rememberedLooks(policy: Policy, between: ChangeBetween): LooksOf {
  const known = new Map<LimbSeries, LimbLooks>();
  return (series) => {
    const looks = known.get(series) ?? limbLooks(series, policy, between);
    known.set(series, looks);
    return looks;
  };
}

/** What girths say the zero lies off beyond its landmarks, where it looks moved, mm. */
function residualOf(change: LimbChange | NoAnswer, policy: Policy): number {
  const shift = isNoAnswer(change) ? undefined : checkedChange(change, policy).shift;
  return shift?.finding ? shift.residualMm : 0;
}

function trusted({ body, bodyInDoubt }: SeriesVisit): BodyAt {
  if (bodyInDoubt.length === 0) return body;
  return {
    heightMm: bodyInDoubt.includes('height') ? undefined : body.heightMm,
    weightKg: bodyInDoubt.includes('weight') ? undefined : body.weightKg,
  };
}

/** The first height and the first weight of a series that nobody doubts. */
function firstKnown(visits: readonly SeriesVisit[]): BodyAt {
  const bodies = visits.map(trusted);
  return {
    heightMm: bodies.find(({ heightMm }) => heightMm)?.heightMm,
    weightKg: bodies.find(({ weightKg }) => weightKg)?.weightKg,
  };
}
