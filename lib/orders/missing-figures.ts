import type { GarmentSpec } from '../garment-forms/garment-catalogue';
import { limbInWords } from '../ladder/limb';
import { measureInWords } from '../parts/measure';
import { measureTaken } from '../parts/own-measure';
import { garmentSet, type NeededMeasure } from '../record/garment-needs';
import type { AnsweredQuestion, Order, SentFigures } from '../record/order';
import type { Visit, WornPlace } from '../record/patient-record';
import { sentLadders } from './order-set';

/** Where single readings in words of a visit may stand for named measures: makers ask for different ones, so that any reading of the part will do. */
const IN_WORDS: readonly { readonly measures: RegExp; readonly named: RegExp }[] = [
  { measures: /^(foot|ball|heel-ankle)-/, named: /heel|instep|foot|ball|toe/i },
  { measures: /^(hand|palm|wrist|thumb)-|-finger-/, named: /hand|palm|finger|thumb|knuckle/i },
  { measures: /^(waist-girth|hip|crotch)/, named: /waist|hip|crotch|rise|seat/i },
  { measures: /^(chest|armhole|trunk|waist-back)-/, named: /shoulder|chest|bust|armhole/i },
];

/**
 * What a garment is made to and its visit does not have, in words: ladders first, then named measures by part.
 *
 * A named measure is there under its id and side, or under another of those that will do; a part that single readings of the visit name is not
 * asked about. Shape: a garment, the limb and side it is ordered for, the visit; nothing for a form that lies on its own ladder alone.
 * Source: the form's set (`record/garment-needs`). Example: a thigh-high with foot and no foot: `right foot length`, `right ball girth`,
 * `right heel–ankle girth`. A crotch length may come in two halves: it is named once, or by the half that is missing.
 */
export function missingFigures(
  garment: Pick<GarmentSpec, 'form' | 'own'>,
  ordered: WornPlace,
  { ladders, measures, readings }: Pick<Visit, 'ladders' | 'measures' | 'readings'>,
): readonly string[] {
  const set = garmentSet(garment, ordered);
  const untaped = set.ladders.filter(({ limb, side }) => !ladders.some((one) => one.limb === limb && one.side === side));
  const inWords = IN_WORDS.filter(({ named }) => readings?.some(({ name }) => named.test(name)));
  const untaken = set.measures.filter(
    (needed) =>
      !measures?.some((taken) => taken.side === needed.side && needed.measures.includes(taken.measure)) &&
      !inWords.some((one) => one.measures.test(needed.measures[0])),
  );
  const words = untaken.map((needed) => inShort(needed, isHalfTaken(needed, set.measures, untaken)));
  return [...new Set([...untaped.map(({ limb, side }) => `ladder of the ${limbInWords(limb, side)}`), ...words])];
}

/** Whether the measure is needed twice, whole or in halves, and one half is there: then the other half alone is missing. */
function isHalfTaken(needed: NeededMeasure, all: readonly NeededMeasure[], untaken: readonly NeededMeasure[]): boolean {
  const same = (one: NeededMeasure): boolean => one.side === needed.side && one.measures[0] === needed.measures[0];
  return untaken.filter(same).length < all.filter(same).length;
}

function inShort({ measures, side, own }: NeededMeasure, half: boolean): string {
  const id = (half ? measures.at(-1) : undefined) ?? measures[0];
  const measure = measureTaken({ measure: id, own });
  return measure ? measureInWords(measure, side) : id;
}

/** What an order leaves without: in words, and the reason that was written; undefined while nobody has written one. */
export type NotTaken = { readonly missing: readonly string[]; readonly why: AnsweredQuestion | undefined };

/** The question that is asked where figures are missing; its key begins so. */
export const FIGURES_MISSING = 'figures-missing';

/**
 * What the garment of an order is made to and its figures do not have, with the reason on record for leaving without.
 *
 * Shape: an order, its figures as sent or as they would be sent; undefined where nothing is missing.
 */
export function notTaken(order: Pick<Order, 'garment' | 'limb' | 'side' | 'questions'>, figures: SentFigures): NotTaken | undefined {
  const { measures = null, readings } = figures;
  const missing = missingFigures(order.garment, order, { ladders: sentLadders(figures), measures, readings });
  if (missing.length === 0) return undefined;
  return { missing, why: order.questions.findLast(({ key }) => key.startsWith(`${FIGURES_MISSING} `)) };
}
