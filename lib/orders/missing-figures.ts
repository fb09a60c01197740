import type { GarmentSpec } from '../garment-forms/garment-catalogue';
import { limbInWords } from '../ladder/limb';
import { measureInWords } from '../parts/measure';
import { measureTaken } from '../parts/own-measure';
import { garmentSet, type NeededMeasure } from '../record/garment-needs';
import type { Visit, WornPlace } from '../record/patient-record';

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
 * `right heel–ankle girth`.
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
  return [...untaped.map(({ limb, side }) => `ladder of the ${limbInWords(limb, side)}`), ...untaken.map(inShort)];
}

function inShort({ measures: [id], side, own }: NeededMeasure): string {
  const measure = measureTaken({ measure: id, own });
  return measure ? measureInWords(measure, side) : id;
}
