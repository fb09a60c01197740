import { movedBy } from '../alignment/align-ladders';
import type { BodyAt } from '../growth/body-at';
import { type BodyChange, bodyChange, expectedGirthAt } from '../growth/body-change';
import { isNoAnswer } from '../outcome';
import type { Policy } from '../record/policy';
import { anatomyOf } from './anatomy-of';
import { checkedChange } from './checked-change';
import type { ChangeBetween } from './limb-change';
import type { LimbSeries, SeriesVisit } from './limb-series';
import { type DividedLimb, divideLimb, type PartGirths, partGirths } from './part-girths';
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
export function limbLooks(series: LimbSeries, policy: Policy, between: ChangeBetween): LimbLooks {
  const { visits } = series;
  const first = visits[0] as SeriesVisit;
  const clean = visits.map(withoutDoubtfulRungs);
  const anchor = clean[0] as SeriesVisit;
  const limb = divideLimb(anchor);
  const place = anatomyOf(first);
  const reference = firstKnown(visits);
  const changes = visits.map((visit) => bodyChange(reference, trusted(visit), series.limb, first.growing, 0));
  const lnExpected = (body: BodyChange, placeMm: number): number =>
    Math.log(expectedGirthAt(body, series.limb, first.growing, place(placeMm)));
  const atFirst = anchor.placed.line.placesMm.map((placeMm) => lnExpected(changes[0] as BodyChange, placeMm));
  const known = new Map<string, PartGirths | undefined>();
  const look = (visit: number, readAs: ReadAs): PartGirths | undefined => {
    if (visit === 0) return partGirths(limb, undefined, policy);
    const later = (readAs === 'clean' ? clean : visits)[visit] as SeriesVisit;
    const change = between(anchor, later, series.limb);
    if (isNoAnswer(change)) return undefined;
    const { shift } = readAs === 'realigned' ? checkedChange(change, policy) : { shift: undefined };
    const residualMm = shift?.finding ? shift.residualMm : 0;
    const body = changes[visit] as BodyChange;
    const expected = anchor.placed.line.placesMm.map((placeMm, rung) => lnExpected(body, placeMm) - (atFirst[rung] as number));
    return partGirths(
      limb,
      {
        change: residualMm ? { ...change, alignment: movedBy(change.alignment, -residualMm) } : change,
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
      const { weightRatio, heightRatio, modelSd, missing } = changes[visit] as BodyChange;
      // Half of what a missing figure leaves open between two visits; where nothing explains a child's girth, any growth.
      const variance = modelSd === undefined ? 1 : missing.length > 0 ? modelSd ** 2 / 2 : 0;
      return { lnWeight: Math.log(weightRatio), lnHeight: Math.log(heightRatio), variance };
    },
  };
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
