import { readFileSync } from 'node:fs';
import path from 'node:path';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import { outgrownChances } from '@/lib/garments/outgrow-date';
import { valueAtZ } from '@/lib/growth/z-score';
import type { LimbKind } from '@/lib/ladder/limb';
import { DEFAULT_POLICY, type Policy } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import type { PatientRecord } from '@/lib/record/patient-record';
import { cumulativeNormal } from '@/lib/statistics/normal';
import { addDays, calendarDay, dayFromNumber } from '@/lib/units/calendar-day';
import { cm, ladderOf, recordOf, visitOf } from '@/tests/lib/made-up-ladder';
import type { LimbShape } from './dense-limb';
import { anatomyOf } from './limb-shape';
import { type OutlookScenario, pieceOf, trulyOutgrown } from './outlook-cohort';
import { person, START } from './person';
import { seeded } from './random';
import type { Stated } from './reliability';
import { ordinaryVisit, tapedPerson, usualSetUp } from './taped-person';

/** Days after the newest ladder that a chance is asked for. */
const ASKED_DAYS = [30, 60, 120, 180] as const;

/**
 * Stated chances of outgrowing against what happened to made-up children whose growth to come is known.
 *
 * A piece cut on the newest ladder or on the one before; the rule without a range says yes from the middle outgrow day on.
 */
export function backtestMadeUp(poolOf: (limb: LimbKind) => readonly LimbShape[], children: number, seed: number): Stated[] {
  const scenarios = (['leg', 'arm'] as const).flatMap((limb) =>
    [10, 15, 20].flatMap((reductionPct) =>
      ([[0], [0, 90]] as const).map(
        (visitDays): OutlookScenario => ({ name: '', limb, reductionPct, visitDays, cutAt: 0, landmarks: 'all' }),
      ),
    ),
  );
  return scenarios.flatMap((scenario, index) => {
    const random = seeded(seed + index);
    return Array.from({ length: children }, () => {
      const someone = person('child', random.pick(poolOf(scenario.limb)), random);
      const { record, zerosMm } = tapedPerson(
        someone,
        scenario.visitDays.map(ordinaryVisit),
        usualSetUp(scenario.limb, 'in', scenario.landmarks, ['left']),
        random,
      );
      const newest = START + Math.max(...scenario.visitDays);
      const piece = pieceOf(scenario, START);
      const full = { ...record, pieces: [piece] };
      const [said] = analysePatient(full, DEFAULT_POLICY, dayFromNumber(newest)).pieces;
      if (!said || isNoAnswer(said.fit) || isNoAnswer(said.outgrow)) return [];
      const { fit, outgrow } = said;
      const chances = outgrownChances(fit, full, said.trend, DEFAULT_POLICY, ASKED_DAYS);
      if (isNoAnswer(chances)) return [];
      const zero = zerosMm[0]?.[0] ?? 0;
      const places = fit.places.map(({ placeMm }) => anatomyOf(someone.shape, (placeMm + zero) / someone.stretchOn(START)));
      const truth = trulyOutgrown(someone, START, newest, places, fit.cut.toMm - fit.cut.fromMm, piece.reductionPct / 100);
      return chances.map((chance, at): Stated => {
        const day = newest + (ASKED_DAYS[at] as number);
        const sure = outgrow.day !== null && outgrow.day <= dayFromNumber(day);
        return { chance, sure, came: Number(truth !== undefined && truth <= day), weight: 1 };
      });
    }).flat();
  });
}

const TABLE = path.resolve(import.meta.dirname, '../worked-examples/growth/berkeley-calf-change.csv');
/** A policy that asks girth alone: the study measured no lengths. */
const GIRTH_ALONE: Policy = { ...DEFAULT_POLICY, lengthDriftPct: 1e6 };
/** Half-years were partly filled in by the study, so only whole ones count. */
const YEAR = 12;

/**
 * Stated chances that a piece no longer fits the calf after a year, against the share of real children it came to (Berkeley Guidance Study, 8 to 18 years).
 *
 * The study's summary gives mean and SD of the change of calf girth by sex and age; the share beyond the band is that of a normal. The child the engine
 * is asked about has the median height and weight of its age, so the spread of the children's own sizes is not in the stated chance.
 */
export function backtestBerkeley(): Stated[] {
  const rows = readFileSync(TABLE, 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((row) => row.split(','));
  return rows.flatMap(([sex, months, interval, n, mean, sd]) => {
    if (Number(interval) !== YEAR) return [];
    return [10, 15, 20].flatMap((reductionPct): Stated[] => {
      const said = chanceAfterAYear(sex === 'F' ? 'F' : 'M', Number(months), reductionPct);
      if (!said) return [];
      const relaxed = 1 - reductionPct / 100;
      const beyond = (tightness: number) => 1 / (1 / relaxed - tightness * (1 / relaxed - 1)) - 1;
      const above = 1 - cumulativeNormal((100 * beyond(DEFAULT_POLICY.bandHigh) - Number(mean)) / Number(sd));
      const below = cumulativeNormal((100 * beyond(DEFAULT_POLICY.bandLow) - Number(mean)) / Number(sd));
      return [{ ...said, came: above + below, weight: Number(n) }];
    });
  });
}

function chanceAfterAYear(sex: 'F' | 'M', months: number, reductionPct: number): Pick<Stated, 'chance' | 'sure'> | undefined {
  const day = calendarDay('2026-01-05');
  const ageDays = Math.round(months * 30.4375);
  const born = addDays(day, -ageDays);
  const [height, weight] = (['height', 'weight'] as const).map((measure) => valueAtZ('cdc-2000', measure, sex, ageDays, 0));
  if (!height || !weight || isNoAnswer(height) || isNoAnswer(weight)) return undefined;
  const calf = ladderOf({
    girths: [
      [19, 27],
      [19.3, 27],
    ],
    landmarks: { knee: 28 },
  });
  const visit = visitOf(day, [calf], { height: `${height.value.toFixed(1)} cm`, weight: `${weight.value.toFixed(1)} kg` });
  const piece = {
    ...pieceOf({ name: '', limb: 'leg', reductionPct, visitDays: [0], cutAt: 0, landmarks: 'all' }, 0),
    ...{ cutFrom: day, covers: { from: cm(19), to: cm(19.3) }, firstWorn: null },
  };
  const record: PatientRecord = recordOf([visit], { born, sex, pieces: [piece] });
  const [said] = analysePatient(record, GIRTH_ALONE, day).pieces;
  if (!said || isNoAnswer(said.fit) || isNoAnswer(said.outgrow)) return undefined;
  const chances = outgrownChances(said.fit, record, said.trend, GIRTH_ALONE, [364]);
  return isNoAnswer(chances) ? undefined : { chance: chances[0] as number, sure: said.outgrow.day !== null };
}
