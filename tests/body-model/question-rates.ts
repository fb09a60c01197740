import type { BodyTable } from '@/lib/body-model/body-table';
import { usualBody } from '@/lib/body-model/usual-body';
import type { MeasureDoubt } from '@/lib/doubts/measure-doubt';
import { measureDoubts } from '@/lib/doubts/measure-doubts';
import type { EarlierMeasure } from '@/lib/doubts/measure-observations';
import { DEFAULT_POLICY, type Policy } from '@/lib/limits/policy';
import type { Sex, Visit } from '@/lib/record/patient-record';
import { learnt } from './learn-body-table';
import { type SurveyPerson, surveyPeople } from './survey';
import { MEASURED, recordWith, surveyVisit, withMeasure } from './survey-record';

/** Groups of measures as the aims name them. */
const GROUPS = {
  'hand, foot, head': MEASURED.filter((id) => /hand|palm|wrist|foot|ball|heel|ankle|head|chin|jaw|face/.test(id)),
  heights: ['waist-height-navel', 'crotch-height', 'sitting-height'],
  'neck and trunk girths': ['neck-girth', 'neck-base-girth', 'shoulder-girth', 'chest-girth', 'waist-girth-navel', 'hip-girth'],
  'trunk lengths': ['crotch-length', 'crotch-length-back', 'trunk-loop', 'waist-back-length'],
} as const;

/** A wrong figure in centimetres and what it is counted under, `''` for the group alone. */
type Wrong = { readonly words: string; readonly cm: number };

/**
 * One tens digit wrong: ten centimetres more or less. A figure below ten has no tens digit; its first digit, one centimetre, is counted
 * by itself.
 */
function tensDigit(cm: number): Wrong[] {
  const steps = cm < 10 ? [10, 1, -1] : [10, -10];
  return steps.map((step) => ({ words: Math.abs(step) === 1 ? ', first digit' : '', cm: cm + step })).filter((wrong) => wrong.cm >= 1);
}

/** The decimal mark moved, the other unit, the first two digits exchanged (where they differ). */
export function otherSlips(cm: number): Wrong[] {
  const [tens = '', ones = '', ...rest] = cm.toFixed(1);
  const swapped = ones === '.' || tens === ones ? [] : [{ words: ', digits exchanged', cm: Number([ones, tens, ...rest].join('')) }];
  const moved = [cm * 10, cm / 10].map((wrong) => ({ words: ', decimal mark', cm: wrong }));
  const unit = [cm * 2.54, cm / 2.54].map((wrong) => ({ words: ', other unit', cm: wrong }));
  return [...moved, ...unit, ...swapped].filter((wrong) => wrong.cm >= 0.3);
}

/** What a run looks at and how it differs from the plain one. */
export type Variation = {
  readonly fold: number;
  readonly folds: number;
  /** People of the fold that are looked at, and in every how many-th slips are planted. */
  readonly most: number;
  readonly plantEach: number;
  readonly plant?: (cm: number) => readonly Wrong[];
  readonly policy?: Policy;
  readonly sex?: Sex;
  /** Who is learnt from, and who is looked at, besides the fold. */
  readonly learnFrom?: (person: SurveyPerson) => boolean;
  readonly lookAt?: (person: SurveyPerson) => boolean;
  /** What is left of a visit before it is looked at; `alone`: besides the measure in question nothing but height and weight. */
  readonly kept?: (visit: Visit) => Visit;
  readonly alone?: boolean;
  /** What the visit before had of it. */
  readonly before?: (visit: Visit) => readonly EarlierMeasure[];
};

/** What came out. */
export type Rates = {
  people: number;
  measures: number;
  falselyAsked: number;
  peopleWithSumChecks: number;
  readonly planted: Map<string, { planted: number; asked: number }>;
  /** Questions about other measures than the planted one. */
  besides: number;
};

/** Rates of questions about people whose rows were not used for learning: every `folds`-th of the survey is held out. */
export function questionRates(sex: 'M' | 'F', variation: Variation): Rates {
  const { fold, folds, most, plantEach, learnFrom = () => true, lookAt = () => true } = variation;
  const table = tableOf(sex, fold, folds, learnFrom);
  const other = variation.sex === 'X' ? tableOf(sex === 'M' ? 'F' : 'M', fold, folds, learnFrom) : table;
  const tables = sex === 'M' ? { M: table, F: other } : { M: other, F: table };
  const held = surveyPeople(sex).filter((person, index) => index % folds === fold && lookAt(person));
  const rates: Rates = { people: 0, measures: 0, falselyAsked: 0, peopleWithSumChecks: 0, planted: new Map(), besides: 0 };
  held.slice(0, most).forEach((person, index) => {
    look(person, tables, variation, rates, index % plantEach === 0);
  });
  return rates;
}

const learntTables = new Map<string, BodyTable>();

function tableOf(sex: 'M' | 'F', fold: number, folds: number, learnFrom: (person: SurveyPerson) => boolean): BodyTable {
  const key = `${sex} ${fold} ${folds} ${learnFrom}`;
  const found = learntTables.get(key) ?? learnt(surveyPeople(sex).filter((person, index) => index % folds !== fold && learnFrom(person)));
  learntTables.set(key, found);
  return found;
}

function look(person: SurveyPerson, tables: { M: BodyTable; F: BodyTable }, variation: Variation, rates: Rates, plants: boolean): void {
  const { kept = (one) => one, before = () => [], alone = false, policy = DEFAULT_POLICY, plant = tensDigit } = variation;
  const whole = kept(surveyVisit(person));
  const asked = (visit: Visit): MeasureDoubt[] => {
    const record = recordWith(variation.sex ?? person.sex, visit);
    return measureDoubts(record, visit, before(whole), policy, usualBody(record, visit.day, tables));
  };
  const seen = (visit: Visit, measure: string) =>
    alone ? { ...visit, measures: (visit.measures ?? []).filter((one) => one.measure === measure) } : visit;
  const clean = alone ? MEASURED.flatMap((measure) => asked(seen(whole, measure))) : asked(whole);
  rates.people += 1;
  rates.measures += whole.measures?.length ?? 0;
  rates.falselyAsked += clean.length;
  rates.peopleWithSumChecks += Number(clean.some(({ kind }) => kind === 'sum-check'));
  if (!plants) return;
  for (const [group, measures] of Object.entries(GROUPS)) {
    for (const measure of measures) {
      const cm = Number(whole.measures?.find((one) => one.measure === measure && one.side !== 'left')?.length.text ?? 0);
      for (const wrong of cm > 0 ? plant(cm) : []) {
        const found = asked(seen(withMeasure(whole, measure, wrong.cm.toFixed(1)), measure));
        const count = rates.planted.get(group + wrong.words) ?? { planted: 0, asked: 0 };
        const isAsked = found.some(({ taken }) => taken.measure === measure);
        rates.planted.set(group + wrong.words, { planted: count.planted + 1, asked: count.asked + Number(isAsked) });
        rates.besides += found.filter(({ taken }) => taken.measure !== measure).length;
      }
    }
  }
}

/** Rates of several runs as one. */
export function together(all: readonly Rates[]): Rates {
  const sum: Rates = { people: 0, measures: 0, falselyAsked: 0, peopleWithSumChecks: 0, planted: new Map(), besides: 0 };
  for (const one of all) {
    sum.people += one.people;
    sum.measures += one.measures;
    sum.falselyAsked += one.falselyAsked;
    sum.peopleWithSumChecks += one.peopleWithSumChecks;
    sum.besides += one.besides;
    for (const [group, { planted, asked }] of one.planted) {
      const was = sum.planted.get(group) ?? { planted: 0, asked: 0 };
      sum.planted.set(group, { planted: was.planted + planted, asked: was.asked + asked });
    }
  }
  return sum;
}

/** One line of a printed table, per cent. */
export function rateLine(who: string, rates: Rates): Record<string, string | number> {
  const pct = (part: number, whole: number) => Math.round((10_000 * part) / whole) / 100;
  const plantedInAll = [...rates.planted.values()].reduce((sum, { planted }) => sum + planted, 0);
  return {
    who,
    people: rates.people,
    'false, of measures': pct(rates.falselyAsked, rates.measures),
    'sum checks quiet, of people': pct(rates.people - rates.peopleWithSumChecks, rates.people),
    ...Object.fromEntries([...rates.planted].map(([group, { planted, asked }]) => [group, pct(asked, planted)])),
    ...(plantedInAll > 0 ? { 'asked besides': pct(rates.besides, plantedInAll) } : {}),
  };
}
