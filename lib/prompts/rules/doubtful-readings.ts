import type { AnalysedLimb } from '../../analysis/analyse-patient';
import type { Doubt } from '../../ladder/doubt';
import { limbInWords } from '../../ladder/limb';
import { type CalendarDay, showDay } from '../../units/calendar-day';
import type { Rule } from '../prompt';

/** Tape doubtful → repeat the reading: the newest ladder of a limb has rungs that were asked about and not kept, or the visit an odd height or weight. */
export const doubtfulReadings: Rule = {
  id: 'doubtful-readings',
  version: 2,
  apply: ({ limbs }) => [...limbs.flatMap(ofLadder), ...ofBody(limbs)],
};

function ofLadder({ series }: AnalysedLimb) {
  const newest = series.visits.at(-1);
  const doubts = newest?.doubts.filter((doubt) => !isOfBody(doubt)) ?? [];
  if (!newest || doubts.length === 0) return [];
  const limb = limbInWords(series.limb, series.side);
  const { day } = newest.visit;
  return [
    {
      ...repeated(day, doubts),
      title: `Consider measuring ${doubts.length === 1 ? 'one place' : `${doubts.length} places`} of the ${limb} again.`,
      facts: [...doubts.slice(0, 4).map((doubt) => doubt.message), `Ladder of ${showDay(day)}.`],
      limits: ['readingSdMm' as const],
      cause: `${limb}: reading`,
      about: { limb: { limb: series.limb, side: series.side } },
    },
  ];
}

/** Once a patient: both limbs of a visit have the same height and weight. */
function ofBody(limbs: readonly AnalysedLimb[]) {
  const newest = limbs
    .flatMap(({ series }) => series.visits.at(-1) ?? [])
    .sort((one, other) => other.visit.day.localeCompare(one.visit.day))[0];
  const doubts = newest?.doubts.filter(isOfBody) ?? [];
  if (!newest || doubts.length === 0) return [];
  const { day } = newest.visit;
  return [
    {
      ...repeated(day, doubts),
      title: `Consider measuring ${doubts.map(({ kind }) => kind).join(' and ')} again.`,
      facts: [...doubts.map((doubt) => doubt.message), `Visit of ${showDay(day)}.`],
      limits: ['bodySlipSds' as const, 'bodyAloneSds' as const],
      cause: 'body: reading',
      about: {},
    },
  ];
}

function repeated(day: CalendarDay, doubts: readonly Doubt[]) {
  const inputs = `${day} ${doubts.map((doubt) => `${doubt.kind}@${doubt.distanceMm}`).join(' ')}`;
  return { action: 'repeat-reading' as const, due: day, missing: [], inputs };
}

function isOfBody({ kind }: Doubt): boolean {
  return kind === 'height' || kind === 'weight';
}
