import type { BodyTable } from '@/lib/body-model/body-table';
import { usualBody } from '@/lib/body-model/usual-body';
import { measureDoubts } from '@/lib/doubts/measure-doubts';
import { DEFAULT_POLICY, type Policy } from '@/lib/limits/policy';
import type { Visit } from '@/lib/record/patient-record';
import { learnt } from './learn-body-table';
import { type SurveyPerson, surveyPeople } from './survey';
import { MEASURED, recordWith, surveyVisit, withMeasure } from './survey-record';

/** Groups of measures as the aims name them. */
export const GROUPS = {
  'hand, foot, head': MEASURED.filter((id) => /hand|palm|wrist|foot|ball|heel|ankle|head|chin|jaw|face/.test(id)),
  heights: ['waist-height-navel', 'crotch-height', 'sitting-height'],
  'neck and trunk girths': ['neck-girth', 'neck-base-girth', 'shoulder-girth', 'chest-girth', 'waist-girth-navel', 'hip-girth'],
  'trunk lengths': ['crotch-length', 'crotch-length-back', 'trunk-loop', 'waist-back-length'],
} as const;

export type GroupName = keyof typeof GROUPS;

export type Rates = {
  people: number;
  measures: number;
  falselyAsked: number;
  peopleWithSumChecks: number;
  /** By group: planted slips and those asked about; `besides` counts questions about other measures than the planted one. */
  readonly planted: Map<string, { planted: number; asked: number }>;
  besides: number;
};

/** How a campaign varies what it plants and what the questions know. */
export type Variation = {
  readonly fold: number;
  readonly folds: number;
  /** People of a fold that are looked at; slips are planted in every third of them. */
  readonly most: number;
  readonly policy?: Policy;
  /** What is left of a visit before it is looked at. */
  readonly kept?: (visit: Visit) => Visit;
};

/** Rates of questions about people whose rows were not used for learning: every `folds`-th of the survey is held out. */
export function questionRates(sex: 'M' | 'F', variation: Variation): Rates {
  const { fold, folds, most } = variation;
  const people = surveyPeople(sex);
  const table = learnt(people.filter((_, index) => index % folds !== fold));
  const held = people.filter((_, index) => index % folds === fold).slice(0, most);
  const rates: Rates = { people: 0, measures: 0, falselyAsked: 0, peopleWithSumChecks: 0, planted: new Map(), besides: 0 };
  held.forEach((person, index) => {
    look(person, table, variation, rates, index % 3 === 0);
  });
  return rates;
}

function look(person: SurveyPerson, table: BodyTable, variation: Variation, rates: Rates, plants: boolean): void {
  const visit = (variation.kept ?? ((one) => one))(surveyVisit(person));
  const asked = (one: Visit) => {
    const record = recordWith(person.sex, one);
    return measureDoubts(record, one, [], variation.policy ?? DEFAULT_POLICY, usualBody(record, one.day, { M: table, F: table }));
  };
  const clean = asked(visit);
  rates.people += 1;
  rates.measures += visit.measures?.length ?? 0;
  rates.falselyAsked += clean.length;
  rates.peopleWithSumChecks += Number(clean.some(({ kind }) => kind === 'sum-check'));
  if (!plants) return;
  for (const [group, measures] of Object.entries(GROUPS)) {
    for (const measure of measures) {
      const cm = Number(visit.measures?.find((one) => one.measure === measure)?.length.text ?? 0);
      for (const [words, step] of [['', 10], [', first digit', 1]] as const) {
        if (cm === 0 || (step === 1 && cm >= 10)) continue;
        for (const wrong of [cm + step, cm - step]) {
          if (wrong < 1) continue;
          const found = asked(withMeasure(visit, measure, wrong.toFixed(1)));
          const count = rates.planted.get(group + words) ?? { planted: 0, asked: 0 };
          const isAsked = found.some(({ taken }) => taken.measure === measure);
          rates.planted.set(group + words, { planted: count.planted + 1, asked: count.asked + Number(isAsked) });
          rates.besides += found.filter(({ taken }) => taken.measure !== measure).length;
        }
      }
    }
  }
}

/** One line of a printed table. */
export function rateLine(words: string, rates: Rates): Record<string, string | number> {
  const pct = (part: number, whole: number) => Math.round((10_000 * part) / whole) / 100;
  const plantedInAll = [...rates.planted.values()].reduce((sum, { planted }) => sum + planted, 0);
  return {
    who: words,
    people: rates.people,
    'false, % of measures': pct(rates.falselyAsked, rates.measures),
    'sum checks quiet, % of people': pct(rates.people - rates.peopleWithSumChecks, rates.people),
    ...Object.fromEntries([...rates.planted].map(([group, { planted, asked }]) => [`${group} %`, pct(asked, planted)])),
    'asked besides, % of slips': pct(rates.besides, plantedInAll),
  };
}
