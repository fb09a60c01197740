import type { PatientAnalysis } from '../../analysis/analyse-patient';
import { tooOldToOrder } from '../../garments/figures-for-order';
import { firstToLeave, type MeasureFit, type MeasureOutlook, measureFits } from '../../garments/measure-fit';
import { limbInWords } from '../../ladder/limb';
import { measureInWords } from '../../parts/measure';
import type { Piece } from '../../record/patient-record';
import { addDays, showDay, showWeekday } from '../../units/calendar-day';
import { capitalized } from '../../units/capitalized';
import { showLengthWithUnit } from '../../units/show-length';
import { measureOutlookInWords } from '../measure-outlook-in-words';
import { nextIsComing } from '../next-is-coming';
import type { Prompt, Rule } from '../prompt';
import { pieceInWords } from '../show-figures';

/**
 * A hand, foot, trunk or head left its piece, or is foreseen to before the next one can be here → refit, or order. A measure counts as out only where it is
 * as taped and after its reading is drawn towards growth. Silent where the next piece, cut as late, is on its way.
 */
export const partOutgrown: Rule = {
  id: 'part-outgrown',
  version: 1,
  apply: (analysis) =>
    analysis.pieces.flatMap(({ piece, inUse }) => {
      const { pieces, trusted, policy } = analysis;
      if (!inUse) return [];
      const fits = measureFits(piece, trusted, policy);
      const outside = fits.filter(({ isOutside }) => isOutside);
      const first = firstToLeave(fits);
      const found = outside.length > 0 ? refitPrompt(piece, outside) : first && orderPrompt(piece, first, analysis);
      const since = outside[0]?.nowDay ?? first?.nowDay;
      return !found || !since || nextIsComing(piece, pieces, since) ? [] : [found];
    }),
};

type Raised = Omit<Prompt, 'rule' | 'ruleVersion'>;

/** What both have in common: one garment's hand, foot, trunk or head. */
function about(piece: Piece): Pick<Raised, 'cause' | 'about' | 'missing'> {
  return {
    cause: `${limbInWords(piece.limb, piece.side)}: size of hand, foot or trunk`,
    about: { limb: { limb: piece.limb, side: piece.side }, piece: piece.piece },
    missing: [],
  };
}

function refitPrompt(piece: Piece, outside: readonly MeasureFit[]): Raised {
  const far = ({ evenedRatio }: MeasureFit) => Math.abs(Math.log(evenedRatio));
  const worst = outside.reduce((most, one) => (far(one) > far(most) ? one : most));
  return {
    ...about(piece),
    action: 'refit',
    due: worst.nowDay,
    title: `Consider a remeasure and refit of the ${pieceInWords(piece)}: the ${measureInWords(worst.measure, worst.taken.side)} has left it.`,
    facts: outside.map(leftInWords),
    limits: ['bandLow', 'bandHigh', 'fingerShortMm', 'footShortMm'],
    inputs: `${piece.piece} ${worst.nowDay} ${outside.map(({ taken }) => `${taken.side} ${taken.measure}`).join(' ')}`,
  };
}

function orderPrompt(
  piece: Piece,
  first: MeasureFit & { readonly outlook: MeasureOutlook },
  { record, policy, today }: PatientAnalysis,
): Raised | undefined {
  const early = first.outlook.earlyDay;
  if (!early) return undefined;
  const orderBy = addDays(early, -(piece.leadDays + policy.measuringDays));
  if (today < addDays(orderBy, -policy.endOfLifeLookDays)) return undefined;
  const when = orderBy < today ? `now: its order-by day was ${showWeekday(orderBy)}` : `by ${showWeekday(orderBy)}`;
  const old = tooOldToOrder(record, piece, orderBy, policy, today);
  return {
    ...about(piece),
    ...(old ? { before: old.first } : {}),
    action: 'order',
    due: orderBy,
    title: `Consider ordering the piece after the ${pieceInWords(piece)} ${when}.`,
    facts: [measureOutlookInWords(first), `Making takes ${piece.leadDays} days.`],
    limits: ['fingerShortMm', 'footShortMm', 'measuringDays', 'endOfLifeLookDays', ...(old ? (['orderLadderDays'] as const) : [])],
    inputs: `${piece.piece} ${orderBy} ${first.taken.side} ${first.taken.measure}`,
  };
}

function leftInWords({ measure, taken, nowMm, nowDay, cutMm, tightness }: MeasureFit): string {
  const { unit } = taken.length;
  const figures = `${showLengthWithUnit(nowMm, unit)} on ${showDay(nowDay)}, cut for ${showLengthWithUnit(cutMm, unit)}`;
  const sits = tightness ? `, ${tightness.value.toFixed(2)} × the tightness as fitted, calculated` : '';
  return `${capitalized(measureInWords(measure, taken.side))}: ${figures}${sits}.`;
}
