import type { Policy } from '../limits/policy';
import { isNoAnswer } from '../outcome';
import { handVolume } from '../parts/hand-volume';
import type { PatientRecord } from '../record/patient-record';
import { type MeasureAt, type MeasureSeries, measureSeries } from '../trend/measure-series';
import { pct, reasons, round } from './document-figures';

/** What named measures add to a patient of the document: nothing where there are none. */
type MeasuresPart = { readonly measures?: ReturnType<typeof seriesPart>[]; readonly shapeIndices?: ReturnType<typeof shapeIndices> };

/**
 * Named measures of a patient for the document of the command line; nothing at all where none was taken.
 *
 * `measures`: one entry a measure and side, with its visits; `shapeIndices`: hands of which everything was taken at a visit.
 * Figures as in `analysisDocument`. Source: engine section 11.
 */
export function measuresPart(record: PatientRecord, policy: Policy): MeasuresPart {
  const series = measureSeries(record, policy);
  if (series.length === 0) return {};
  const indices = shapeIndices(record);
  return {
    measures: series.map(seriesPart),
    ...(indices.length > 0 ? { shapeIndices: indices } : {}),
  };
}

function seriesPart({ measure, taken, visits }: MeasureSeries) {
  return { part: taken.part, side: taken.side, measure: measure.id, visits: visits.map(visitPart) };
}

function visitPart({ visit, lengthMm, sdMm, doubts, sinceLast }: MeasureAt) {
  const change = isNoAnswer(sinceLast) ? undefined : sinceLast;
  const expected = change?.expected;
  return {
    day: visit.day,
    mm: round(lengthMm, 3),
    sdMm: round(sdMm, 3),
    doubts: doubts.map(({ kind, message }) => ({ kind, message })),
    since: change?.since ?? null,
    changePct: change ? pct(change.change) : null,
    smallestRealChangePct: change ? pct(change.smallestReal) : null,
    expectedChangePct: expected === undefined || isNoAnswer(expected) ? null : pct(expected),
    reasons: reasons({ changePct: sinceLast, expectedChangePct: expected }),
  };
}

/** The shape index of each hand at each visit that has all it needs; never part of a limb's volume. */
function shapeIndices(record: PatientRecord) {
  return record.visits.flatMap((visit) =>
    (['left', 'right'] as const).flatMap((side) => {
      const own = (visit.measures ?? []).filter((one) => one.side === side);
      const found = handVolume(new Map(own.map(({ measure, length }) => [measure, length.nm / 1e6])));
      if (isNoAnswer(found)) return [];
      const { palmMl, digitsMl, wholeMl, words } = found;
      return [{ day: visit.day, part: 'hand', side, palmMl: round(palmMl, 3), digitsMl: round(digitsMl, 3), ml: round(wholeMl, 3), words }];
    }),
  );
}
