import { measuresOfPart } from '../parts/catalogue';
import type { OwnMeasure } from '../parts/measure';
import { isTakenOn, type Measure, measureInWords } from '../parts/measure';
import { asMeasure, isSameOwn, measureTaken, withOwn } from '../parts/own-measure';
import type { NamedMeasure, PartOfSide } from '../record/patient-record';
import { capitalized } from '../units/capitalized';
import { readLength } from '../units/read-length';
import { type MeasureText, measureKey, type VisitForm } from './visit-form';

/** One named measure of a part that is on the sheet. */
export type MeasureRow = PartOfSide & { readonly measure: Measure };

/** Larger than any measure of a body, mm. Clinic default. */
const LARGEST_MM = 2500;

/** The named measures of the parts on a sheet, part by part, a clinic's own ones last; one that belongs to two parts stands with the first of them. */
export function measureRows(parts: readonly PartOfSide[], own: readonly OwnMeasure[] = []): MeasureRow[] {
  const rows = new Map<string, MeasureRow>();
  for (const { part, side } of parts)
    for (const measure of [...measuresOfPart(part), ...own.filter((one) => one.part === part).map(asMeasure)])
      if (isTakenOn(measure, side) && !rows.has(measureKey({ side, measure: measure.id })))
        rows.set(measureKey({ side, measure: measure.id }), { part, side, measure });
  return [...rows.values()];
}

/** The form with another text of a named measure. What was kept of the old figure is no answer any more; an emptied one is taken away. */
export function withMeasure(
  form: VisitForm,
  { part, side, measure }: MeasureRow,
  text: string,
  unit: MeasureText['unit'],
): Partial<VisitForm> {
  const all = form.measures ?? [];
  const key = measureKey({ side, measure: measure.id });
  const known = all.find((one) => measureKey(one) === key);
  if (text.trim() === '' && !known?.again?.trim()) return { measures: all.filter((one) => one !== known) };
  if (!known) return { measures: [...all, { part, side, measure: measure.id, ...withOwn(measure), text, unit }] };
  const { kept: _kept, ...bare } = known;
  return { measures: all.map((one) => (one === known ? { ...bare, text } : one)) };
}

/** The form with another text of a second measuring. What stands first is left alone. */
export function withMeasureAgain(
  form: VisitForm,
  { part, side, measure }: MeasureRow,
  text: string,
  unit: MeasureText['unit'],
): Partial<VisitForm> {
  const all = form.measures ?? [];
  const known = all.find((one) => measureKey(one) === measureKey({ side, measure: measure.id }));
  if (!known)
    return {
      measures: text.trim() === '' ? all : [...all, { part, side, measure: measure.id, ...withOwn(measure), text: '', again: text, unit }],
    };
  const { again: _before, ...bare } = known;
  if (text.trim() !== '') return { measures: all.map((one) => (one === known ? { ...bare, again: text } : one)) };
  return { measures: bare.text.trim() === '' ? all.filter((one) => one !== known) : all.map((one) => (one === known ? bare : one)) };
}

/** The measures of a form whose text can be read, in the order of the sheet's rows. */
export function readableMeasures(form: VisitForm): NamedMeasure[] {
  return (form.measures ?? []).flatMap(({ text, again, unit, ...place }): NamedMeasure[] => {
    const read = readLength(text, unit, true);
    const second = readLength(again ?? '', unit, true);
    return read.kind === 'read' ? [{ ...place, length: read.value, ...(second.kind === 'read' ? { again: second.value } : {}) }] : [];
  });
}

/**
 * The named measures of a form, or why one cannot be saved.
 *
 * Refuses a measure that neither the catalogue has nor a definition beside it says, one under a part or side it is not of, one that stands twice, a text that is no length,
 * and a length that no body has. Shape: a form; measures in the order of the catalogue within each part.
 */
export function readMeasures(
  form: VisitForm,
  refuse: (where: string, reason: string) => void,
  known?: readonly OwnMeasure[],
): NamedMeasure[] {
  const seen = new Set<string>();
  const read = (form.measures ?? []).flatMap(({ text, again, unit, ...place }): NamedMeasure[] => {
    const measure = measureTaken(place);
    const key = measureKey(place);
    const where = `measure/${key}`;
    const wrong = (reason: string): NamedMeasure[] => {
      refuse(where, reason);
      return [];
    };
    if (!measure || (measure.part !== place.part && measure.alsoOf !== place.part))
      return wrong(`“${place.measure}” is not a measure of the ${place.part}.`);
    if (measure.own && known && !known.some((one) => isSameOwn(one, measure.own as OwnMeasure)))
      return wrong(`“${measure.name}” is not a measure of this clinic, or it is defined otherwise there.`);
    if (!isTakenOn(measure, place.side)) return wrong(`The ${measure.name} is not taken on the ${place.side}.`);
    const name = capitalized(measureInWords(measure, place.side));
    if (seen.has(key)) return wrong(`${name} stands twice.`);
    seen.add(key);
    if (text.trim() === '' && again?.trim())
      return wrong(`${name} is measured again and the first measuring is empty. Type the first one too.`);
    const length = readLength(text, unit, true);
    if (length.kind !== 'read') return wrong(`${name}: ${length.reason}`);
    if (length.value.nm / 1e6 > LARGEST_MM) return wrong(`${name}: “${text}” ${unit} is larger than any measure of a body.`);
    const second = again?.trim() ? readLength(again, unit, true) : undefined;
    if (second && second.kind !== 'read') return wrong(`${name}, measured again: ${second.reason}`);
    if (second && second.value.nm / 1e6 > LARGEST_MM)
      return wrong(`${name}, measured again: “${again}” ${unit} is larger than any measure of a body.`);
    return [{ ...place, length: length.value, ...(second ? { again: second.value } : {}) }];
  });
  const order = measureRows(form.parts ?? [], ownOf(form.measures ?? [])).map(({ side, measure }) =>
    measureKey({ side, measure: measure.id }),
  );
  const at = (one: NamedMeasure) => order.indexOf(measureKey(one));
  return [...read].sort((one, other) => at(one) - at(other));
}

/** The definitions of clinics' own measures among figures, each once. */
export function ownOf(measures: readonly { readonly own?: OwnMeasure }[]): OwnMeasure[] {
  return [...new Map(measures.flatMap(({ own }) => (own ? [[own.id, own] as const] : []))).values()];
}

/** The parts of measures, each once, in their order. */
export function partsOf(measures: readonly PartOfSide[]): PartOfSide[] {
  return [...new Map(measures.map(({ part, side }) => [`${side} ${part}`, { part, side }])).values()];
}
