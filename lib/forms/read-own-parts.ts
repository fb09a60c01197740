import { GARMENT_FORMS, OWN_FORM_LADDERS } from '../garment-forms/garment-catalogue';
import { type ListedForm, madeToPart, OWN_FORM_BOUNDS, saysWhatItIsMadeTo } from '../garment-forms/own-form';
import { measureOf, measuresOfPart } from '../parts/catalogue';
import { PARTS, type Part } from '../parts/measure';
import { asDefinition, type ListedMeasure, OWN_MEASURE_BOUNDS } from '../parts/own-measure';
import { isPlainText } from '../units/plain-text';

type Typed = Readonly<Record<string, string>>;

/** What a clinic adds, or a sentence beside each box that stops it. */
export type OwnPartRead<T> =
  | { readonly kind: 'read'; readonly value: T }
  | { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> };

/** Boxes of a form that are read one by one; what is refused stands beside its box. */
function boxesOf(typed: Typed) {
  const errors: Record<string, string> = {};
  const refuse = (box: string, reason: string): undefined => {
    errors[box] ??= reason;
    return undefined;
  };
  const text = (box: string) => (typed[box] ?? '').trim();
  const words = (box: string, most: number): string => {
    const found = text(box);
    if (found === '') refuse(box, 'Say it in a few words.');
    else if (found.length > most) refuse(box, `Too long: ${most} characters at most.`);
    else if (!isPlainText(found) || /[|\n\r]/.test(found)) refuse(box, 'On one line, without “|”.');
    return found;
  };
  const figure = (box: string, least: number, most: number, unit: string): number => {
    const found = /^\d{1,4}([.,]\d)?$/.test(text(box)) ? Number(text(box).replace(',', '.')) : Number.NaN;
    if (!(found >= least && found <= most)) refuse(box, `Type ${least} to ${most} ${unit}.`);
    return found;
  };
  const whole = (box: string, least: number, most: number): number => {
    const found = figure(box, least, most, 'days');
    if (Number.isFinite(found) && !Number.isInteger(found)) refuse(box, 'Type whole days.');
    return found;
  };
  const one = <T extends string>(box: string, choices: readonly T[]): T =>
    choices.find((choice) => choice === text(box)) ?? (refuse(box, 'Choose one.') as never);
  return { errors, refuse, text, words, figure, whole, one };
}

/**
 * A named measure that a clinic adds: name, part, kind, sides, plausible range and error in mm, how it is taken and its source.
 *
 * Refuses a name that the catalogue or the clinic has for that part, a range that does not rise, figures outside `OWN_MEASURE_BOUNDS`, an
 * error larger than a quarter of the range (it could tell nothing), texts that are none or too long, more measures than a clinic may have.
 * Shape: boxes as typed, the list as it stands, a new id. A range of 30 to 80 cm is typed as 300 and 800.
 */
export function readOwnMeasure(typed: Typed, standing: readonly ListedMeasure[], id: string): OwnPartRead<ListedMeasure> {
  const { errors, refuse, words, figure, one } = boxesOf(typed);
  const { name: longest, definition, source, smallestMm, largestMm, largestSdMm, most } = OWN_MEASURE_BOUNDS;
  const name = words('name', longest);
  const part: Part = one('part', PARTS);
  const known = [...catalogueNames(part), ...standing.filter((own) => own.part === part).map((own) => own.name.toLowerCase())];
  if (known.includes(name.toLowerCase())) refuse('name', 'There is one of that name.');
  const lowMm = figure('lowMm', smallestMm, largestMm, 'mm');
  const highMm = figure('highMm', smallestMm, largestMm, 'mm');
  if (highMm <= lowMm) refuse('highMm', `Not above ${lowMm} mm.`);
  const tapeSdMm = figure('tapeSdMm', 0.1, largestSdMm, 'mm');
  if (highMm > lowMm && tapeSdMm > (highMm - lowMm) / 4) refuse('tapeSdMm', 'Larger than a quarter of the range: it could tell nothing.');
  if (standing.length >= most) refuse('name', `A clinic adds ${most} at most.`);
  const value: ListedMeasure = {
    ...{ id, part, name, kind: one('kind', ['girth', 'length', 'height', 'breadth']), sides: one('sides', ['both', 'middle']) },
    ...{ lowMm, highMm, tapeSdMm, definition: words('definition', definition), source: words('source', source), asked: true },
  };
  return Object.keys(errors).length > 0 ? { kind: 'refused', errors } : { kind: 'read', value };
}

function catalogueNames(part: Part): string[] {
  return measuresOfPart(part).map(({ name }) => name.toLowerCase());
}

/**
 * A form of garment that a clinic adds: name, ladders, the named measures it is made to, days to make, days of wear.
 *
 * `measures` holds ids as ticked, parted by blanks; those of the clinic are kept with their definitions. Refuses a name that is there
 * already, a measure that neither the catalogue nor the clinic asks for, a form without a ladder that names no measure of its part, days outside `OWN_FORM_BOUNDS`, more than a clinic may have.
 */
export function readOwnForm(
  typed: Typed,
  standing: readonly ListedForm[],
  measures: readonly ListedMeasure[],
  id: string,
): OwnPartRead<ListedForm> {
  const { errors, refuse, text, words, whole, one } = boxesOf(typed);
  const { most, words: longest, measures: mostMeasures, leadDays, lifeDays } = OWN_FORM_BOUNDS;
  const name = words('words', longest);
  const known = [...GARMENT_FORMS, ...standing].map((form) => form.words.toLowerCase());
  if (known.includes(name.toLowerCase())) refuse('words', 'There is one of that name.');
  const ids = [...new Set(text('measures').split(/\s+/).filter(Boolean))];
  const own = measures.filter((measure) => measure.asked && ids.includes(measure.id)).map(asDefinition);
  const strange = ids.find((one) => !measureOf(one) && !own.some((measure) => measure.id === one));
  if (strange) refuse('measures', `“${strange.slice(0, 60)}” is not a measure of the catalogue or of this clinic.`);
  if (ids.length > mostMeasures) refuse('measures', `${mostMeasures} at most.`);
  if (standing.length >= most) refuse('words', `A clinic adds ${most} at most.`);
  const value: ListedForm = {
    ...{ id, words: name, ladders: one('ladders', OWN_FORM_LADDERS), measures: ids, own, asked: true },
    ...{ leadDays: whole('leadDays', 0, leadDays), lifeDays: whole('lifeDays', 1, lifeDays) },
  };
  if (!saysWhatItIsMadeTo(value)) refuse('measures', `Without a ladder it is made to at least one measure of the ${madeToPart(value)}.`);
  return Object.keys(errors).length > 0 ? { kind: 'refused', errors } : { kind: 'read', value };
}

/** The list with one of it asked for again, or retired; undefined where it has none of that id. */
export function withAsked<T extends { readonly id: string; readonly asked: boolean }>(
  standing: readonly T[],
  id: string,
  asked: boolean,
): readonly T[] | undefined {
  return standing.some((one) => one.id === id) ? standing.map((one) => (one.id === id ? { ...one, asked } : one)) : undefined;
}
