import { garmentForm } from '../record/garment-catalogue';
import type { SingleReading } from '../record/patient-record';

/** A part of the body that a ladder does not measure: the zones of a garment that lie on it, what readings of it are called, and what to ask for. */
type PartBeyond = { readonly part: string; readonly zones: readonly string[]; readonly named: RegExp; readonly wants: string };

/** Source: common practice; what a maker asks for beside the ladder differs, so that any reading of the part will do. */
const BEYOND: readonly PartBeyond[] = [
  {
    part: 'foot',
    zones: ['toes', 'foot', 'heel and ankle'],
    named: /heel|instep|foot|ball|toe/i,
    wants: 'heel–instep girth, ball girth, foot length',
  },
  {
    part: 'hand',
    zones: ['fingers', 'hand', 'thumb'],
    named: /hand|palm|finger|thumb|knuckle/i,
    wants: 'hand girth, palm length, finger girths',
  },
  { part: 'waist', zones: ['waist', 'seat and crotch'], named: /waist|hip|crotch|rise|seat/i, wants: 'waist and hip girth, rise' },
  { part: 'shoulder or chest', zones: ['shoulder', 'chest'], named: /shoulder|chest|bust|armhole/i, wants: 'shoulder or chest girth' },
];

/**
 * The parts of the body that a form of garment covers and that no reading of the visit measures, with the figures to ask for.
 *
 * Shape: the id of a form, the single readings of the visit the order is made to; nothing for a form that lies on the ladder alone.
 * Example: a thigh-high with foot and no reading of the foot: `foot (heel–instep girth, ball girth, foot length)`.
 */
export function missingFigures(formId: string, readings: readonly SingleReading[]): readonly string[] {
  const zones = garmentForm(formId)?.zones ?? [];
  return BEYOND.filter(
    ({ zones: own, named }) => zones.some((zone) => own.includes(zone)) && !readings.some(({ name }) => named.test(name)),
  ).map(({ part, wants }) => `${part} (${wants})`);
}
