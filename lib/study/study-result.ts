import type { NoAnswer } from '../outcome';
import { type Agreement, agreementOf, type MeasurerStudy, measurerStudy, type StudiedLimb } from '../service/measurer-study';
import { type SdRange, type StudyRanges, sdRange, studyRanges } from '../service/study-ranges';
import { REACH_95 } from '../statistics/reach-95';
import { mm } from '../units/length';
import { frustum } from '../volume/frustum';
import { type StudyErrors, studyErrors } from './study-errors';
import type { StudyPlan, StudyRun } from './study-plan';

/** One difference of a Bland–Altman picture, ml: second less first, over the mean of both. */
export type StudyDifference = { readonly limb: number; readonly mean: number; readonly difference: number };

/** Differences and, from three on, their limits of agreement. */
export type StudyAgreement = { readonly differences: readonly StudyDifference[]; readonly agreement: Agreement | NoAnswer };

/** What a study says of one measurer: their own error, ml, their second less their first taping, and they less the mean of the others. */
export type MeasurerResult = {
  readonly measurer: number;
  readonly within: SdRange & { readonly sem: number; readonly smallestDifference: number };
  readonly again: StudyAgreement;
  readonly others: StudyAgreement;
};

/** What a whole study says: of the clinic, of each measurer, and of the errors that the engine works with. */
export type StudyResult = {
  readonly clinic: { readonly study: MeasurerStudy; readonly ranges: StudyRanges };
  readonly measurers: readonly MeasurerResult[];
  readonly errors: StudyErrors;
};

/**
 * Result of a study whose tapings are all typed; volumes are of round slices between the lowest and the highest height.
 *
 * Within one measurer: √(Σ(x − limb mean)²/(p(m − 1))), its χ² range; the smallest difference is 1.96·√2 of it. Against the others: the first taping less the mean of
 * the first tapings of all others, so that two with one repeat each compare alike. Measurers stay in the order of the plan, which is that of their names: nobody is ranked.
 * Refuses, with how many are missing, a study that is not whole. Source: `measurerStudy`, `studyRanges`, `agreementOf`, `studyErrors`.
 */
export function studyResult(plan: StudyPlan, runs: readonly StudyRun[]): StudyResult | NoAnswer {
  const wanted = plan.limbs.length * plan.measurers.length * plan.repeats;
  const girths = plan.limbs.map((_, limb) =>
    plan.measurers.map((_, measurer) =>
      Array.from(
        { length: plan.repeats },
        (_, repeat) => runs.find(({ turn }) => turn.limb === limb && turn.measurer === measurer && turn.repeat === repeat)?.girths,
      ),
    ),
  );
  const typed = girths.flat(2).filter((one) => one !== undefined).length;
  if (typed < wanted) return { noAnswer: `${typed} of ${wanted} tapings are typed. A study says something when all are.` };
  const heights = plan.heights.map(({ nm }) => mm(nm));
  const inMm = girths.map((limb) => limb.map((repeats) => repeats.map((run) => (run ?? []).map(({ nm }) => mm(nm)))));
  const volumes: readonly StudiedLimb[] = inMm.map((limb) => limb.map((repeats) => repeats.map((taping) => volumeMl(taping, heights))));
  const study = measurerStudy(volumes);
  if (!study) return { noAnswer: 'Two limbs, two measurers and two tapings of each are the least.' };
  return {
    clinic: { study, ranges: studyRanges(study) },
    measurers: plan.measurers.map((_, measurer) => measurerResult(volumes, measurer)),
    errors: studyErrors(inMm, heights),
  };
}

function measurerResult(volumes: readonly StudiedLimb[], measurer: number): MeasurerResult {
  const own = volumes.map((limb) => limb[measurer] ?? []);
  const squares = own.reduce((sum, repeats) => sum + repeats.reduce((all, one) => all + (one - mean(repeats)) ** 2, 0), 0);
  const free = own.reduce((sum, repeats) => sum + repeats.length - 1, 0);
  const sem = Math.sqrt(squares / free);
  const first = (limb: StudiedLimb, of: number) => limb[of]?.[0] as number;
  const others = (limb: StudiedLimb) => mean(limb.flatMap((_, of) => (of === measurer ? [] : [first(limb, of)])));
  return {
    measurer,
    within: { sem, ...sdRange(sem ** 2, free), smallestDifference: REACH_95 * Math.SQRT2 * sem },
    again: agreed(own.map((repeats) => [repeats[0] as number, repeats[1] as number])),
    others: agreed(volumes.map((limb) => [others(limb), first(limb, measurer)])),
  };
}

function agreed(pairs: readonly (readonly [number, number])[]): StudyAgreement {
  return {
    differences: pairs.map(([first, second], limb) => ({ limb, mean: (first + second) / 2, difference: second - first })),
    agreement: agreementOf(pairs) ?? { noAnswer: 'Three limbs are the least for limits of agreement.' },
  };
}

function volumeMl(girths: readonly number[], heights: readonly number[]): number {
  let cubicMm = 0;
  for (let at = 1; at < girths.length; at++)
    cubicMm += frustum((heights[at] as number) - (heights[at - 1] as number), girths[at - 1] as number, girths[at] as number);
  return cubicMm / 1000;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
