import { DEFAULT_POLICY } from '@/lib/limits/policy';
import type { NamedMeasure, Visit } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { seeded } from '@/tests/cohort/random';
import { lengthOf } from '@/tests/properties/body-slips';
import { childRates } from './children-rates';
import { otherSlips, questionRates, rateLine, together, type Variation } from './question-rates';
import type { SurveyPerson } from './survey';

type Line = Partial<Variation>;

const index = ({ of }: SurveyPerson) => (of.get('weight') as number) / ((of.get('height') as number) / 1000) ** 2;
const bare = (visit: Visit): Visit => ({ ...visit, height: null, weight: null });
const onlyOf = (pattern: RegExp) => (visit: Visit) => ({
  ...visit,
  measures: (visit.measures ?? []).filter(({ measure }) => pattern.test(measure)),
});

/** Every measure of the visit as it was taped half a year before, with errors of reading and a change of the body that is nobody's slip. */
function halfAYearBefore(visit: Visit) {
  const random = seeded(Math.round(Number(visit.height?.text ?? 170) * 10));
  const weight = random.normal(0.04);
  return (visit.measures ?? []).map((taken: NamedMeasure) => {
    const share = /girth|breadth/.test(taken.measure) ? 0.4 * weight + random.normal(0.012) : random.normal(0.006);
    const cm = Number(taken.length.text) * (1 + share) + random.normal(0.2);
    return { day: calendarDay('2025-09-02'), taken: { ...taken, length: lengthOf(cm.toFixed(1), 'cm') } };
  });
}

/** The left hand and foot beside the right ones of the survey, apart by what healthy sides are apart. */
function bothSides(visit: Visit): Visit {
  const random = seeded(Math.round(Number(visit.height?.text ?? 170) * 10));
  const left = (visit.measures ?? []).flatMap((taken): NamedMeasure[] => {
    if (taken.side !== 'right') return [];
    const cm = Number(taken.length.text) * (1 + random.normal(0.015)) + random.normal(0.1);
    return [{ ...taken, side: 'left', length: lengthOf(cm.toFixed(1), 'cm') }];
  });
  return { ...visit, measures: [...(visit.measures ?? []), ...left] };
}

/** Every girth larger by a tenth, as in a swollen body, and nobody said so. */
function swollen(visit: Visit): Visit {
  const measures = (visit.measures ?? []).map((taken) =>
    /hand-girth|wrist-girth|ball-girth|heel-ankle|ankle-girth/.test(taken.measure)
      ? { ...taken, length: lengthOf((1.1 * Number(taken.length.text)).toFixed(1), 'cm') }
      : taken,
  );
  return { ...visit, measures };
}

/** What is varied: the plain run, what is known beside a measure, who is measured, and the one threshold. */
const LINES: Readonly<Record<string, Line>> = {
  'all measures': {},
  'other slips': { plant: otherSlips },
  'a measure alone with height and weight': { alone: true },
  'all measures, neither height nor weight': { kept: bare },
  'hand and foot alone': { kept: onlyOf(/hand|palm|wrist|foot|ball|heel|ankle/) },
  'both hands and feet': { kept: bothSides },
  'sex X': { sex: 'X' },
  'one wrong figure in two hundred': { policy: { ...DEFAULT_POLICY, wrongFigureShare: 0.005 } },
  'one wrong figure in fifty': { policy: { ...DEFAULT_POLICY, wrongFigureShare: 0.02 } },
  'with a visit half a year before': { before: halfAYearBefore },
  'hands and feet a tenth thicker, not said to be swollen': { kept: swollen },
  'body mass index from 32 on': { lookAt: (person) => index(person) >= 32 },
  'from 30 on, learnt below 27': { lookAt: (person) => index(person) >= 30, learnFrom: (person) => index(person) < 27 },
  'errors twice as large in variance assumed': { policy: { ...DEFAULT_POLICY, errorScale: 2 } },
  'asked from 2 %': { policy: { ...DEFAULT_POLICY, wrongFigureProbability: 0.02 } },
  'asked from 5 %': { policy: { ...DEFAULT_POLICY, wrongFigureProbability: 0.05 } },
};

/** Prints the rates of questions for each line by three-fold cross-validation; `size` people of each sex and fold. */
export function measureCampaign(size: number): void {
  for (const sex of ['M', 'F'] as const) {
    const lines = Object.entries(LINES).map(([words, line]) => {
      const runs = [0, 1, 2].map((fold) => questionRates(sex, { fold, folds: 3, most: size, plantEach: 3, ...line }));
      return rateLine(words, together(runs));
    });
    console.log(sex === 'M' ? 'men' : 'women');
    for (const line of lines) console.log(line);
  }
  console.log('children');
  for (const [from, to] of [
    [2, 5],
    [5, 9],
    [9, 13],
    [13, 16],
    [16, 18],
  ] as const)
    console.log(`${from}–${to} years`, childRates(from, to, 1));
}
