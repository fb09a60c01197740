import { measureDoubts } from '@/lib/doubts/measure-doubts';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import type { PatientRecord } from '@/lib/record/patient-record';
import { childRecord, surveyChildren } from './children';

/** Rates of questions about children of one age band; every `each`-th child is looked at. */
export function childRates(fromYears: number, toYears: number, each: number) {
  const rates = { children: 0, measures: 0, falselyAsked: 0, planted: 0, asked: 0 };
  const children = surveyChildren().filter(({ ageYears }) => ageYears >= fromYears && ageYears < toYears);
  for (const child of children.filter((_, index) => index % each === 0)) {
    const clean = childRecord(child);
    rates.children += 1;
    rates.measures += measuresOf(clean).length;
    rates.falselyAsked += askedOf(clean).length;
    for (const { measure, length } of measuresOf(clean)) {
      for (const wrong of [Number(length.text) + 10, Number(length.text) - 10]) {
        if (wrong < 1) continue;
        const record = childRecord(child, { [measure]: wrong.toFixed(1) });
        rates.planted += 1;
        rates.asked += Number(askedOf(record).some(({ taken }) => taken.measure === measure));
      }
    }
  }
  return rates;
}

function measuresOf(record: PatientRecord) {
  return record.visits[0]?.measures ?? [];
}

function askedOf(record: PatientRecord) {
  const [visit] = record.visits;
  return visit ? measureDoubts(record, visit, [], DEFAULT_POLICY) : [];
}
