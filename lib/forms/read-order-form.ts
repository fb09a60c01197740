import type { OwnForm } from '../garment-forms/garment-catalogue';
import {
  GARMENT_OPTIONS,
  type GarmentForm,
  type GarmentOption,
  type GarmentSpec,
  type GarmentUse,
  type OptionKind,
  type PressureClass,
} from '../garment-forms/garment-catalogue';
import { formOf } from '../garment-forms/own-form';
import type { Reading } from '../outcome';
import { LONGEST_OF_ORDER, ORDER_REASONS, type Order, type OrderReason } from '../record/order';
import { readDay, showDay } from '../units/calendar-day';
import type { TypedLength } from '../units/length';
import { readLength } from '../units/read-length';
import { type CutLadder, coverAsTyped, lengthAsTyped, readConvention, readCover, readDays, readReduction } from './read-cut';

/** Rows for options on one form. */
export const OPTION_ROWS = 8;

/** What was typed, word for word, by box; options are `option0Choice`, `option0Place`, `option0Width` and on. */
export type TypedOrderForm = Readonly<Record<string, string>>;

/** What an order form decides; the rest of an order follows from its life. */
export type OrderChoice = Pick<
  Order,
  | 'limb'
  | 'side'
  | 'cutFrom'
  | 'covers'
  | 'garment'
  | 'reductionPct'
  | 'convention'
  | 'quantity'
  | 'heldBack'
  | 'lifeDays'
  | 'leadDays'
  | 'reasonCode'
  | 'note'
  | 'maker'
  | 'colour'
  | 'neededBy'
> & { readonly decided: TypedLength | null };

export type OrderFormRead =
  | { readonly kind: 'read'; readonly choice: OrderChoice; readonly ladder: CutLadder }
  | { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> };

/** An option's kind and choice as one value of a select: `closure: zip`. */
export function optionKey(kind: OptionKind, choice: string): string {
  return `${kind}: ${choice}`;
}

/**
 * An order from what was typed, or one sentence beside each box that stops it.
 *
 * Refuses a garment form that is not of the ladder's limb, or not of the part whose named measures alone are sent, a class without its scheme and range (schemes differ), a range that runs
 * backwards, as many pieces held back as are ordered, an option without its place, an expansion panel without its width, a day needed by that is before the measuring, and what `read-cut` refuses.
 * Room left empty beside an expansion panel is the width of the one panel that holds it; days left empty are those of a clinic's own form.
 * Shape: typed boxes, the ladders on offer, the clinic's own forms; what the order decides and its ladder.
 */
export function readOrderForm(typed: TypedOrderForm, ladders: readonly CutLadder[], forms: readonly OwnForm[] = []): OrderFormRead {
  const errors: Record<string, string> = {};
  const refuse = (box: string, reason: string): null => {
    errors[box] ??= reason;
    return null;
  };
  const text = (box: string): string => (typed[box] ?? '').trim();
  const accept = <T>(box: string, reading: Reading<T>): T | null => (reading.kind === 'read' ? reading.value : refuse(box, reading.reason));

  const ladder = ladders.find((one) => one.key === text('cutFrom')) ?? refuse('cutFrom', 'Choose the measurements that are sent.');
  const own = definitionOf(forms.find(({ id }) => id === text('form')));
  const form = formOf({ form: text('form'), ...own }) ?? refuse('form', 'Choose what the garment covers.');
  const unlike = form && ladder && unlikeCut(form, ladder);
  if (unlike) refuse('form', unlike);
  const covers = ladder && readCover(ladder, text, refuse);
  const reductionPct = accept('reduction', readReduction(text('reduction')));
  const convention = readConvention(text('convention')) ?? refuse('convention', 'Choose how the reduction is counted.');
  const use = (['day', 'night', 'other'] as const).find((one) => one === text('use')) ?? refuse('use', 'Choose when it is worn.');
  const pressure = readPressure(text, refuse);
  const unit = ladder?.unit ?? 'cm';
  const options = readOptions(text, unit, refuse);
  const quantity = accept('quantity', readDays(text('quantity'), 1));
  if (quantity !== null && quantity > 6) refuse('quantity', 'Order at most 6 at a time: each is made to the same measurements.');
  const heldBack = text('heldBack') === '' ? 0 : accept('heldBack', readDays(text('heldBack'), 0));
  if (heldBack !== null && quantity !== null && heldBack > 0 && heldBack >= quantity)
    refuse('heldBack', 'At least one piece is made at once: the others wait until it has been fitted.');
  const decided =
    text('allowance') === '' || /^0+$/.test(text('allowance')) ? null : accept('allowance', readLength(text('allowance'), unit));
  const daysOf = (box: 'lifeDays' | 'leadDays', least: number) =>
    own.own && text(box) === '' ? own.own[box] : accept(box, readDays(text(box), least));
  const [lifeDays, leadDays] = [daysOf('lifeDays', 1), daysOf('leadDays', 0)];
  const reasonCode = ORDER_REASONS.find((one) => one === text('reasonCode')) ?? refuse('reasonCode', 'Choose why it is ordered.');

  for (const box of ['maker', 'colour'] as const)
    if (text(box).length > LONGEST_OF_ORDER[box]) refuse(box, `Too long: ${LONGEST_OF_ORDER[box]} characters at most.`);
  const neededBy = text('neededBy') === '' ? null : accept('neededBy', readDay(text('neededBy')));
  if (neededBy && ladder && neededBy < ladder.day) refuse('neededBy', `That is before the measuring of ${showDay(ladder.day)}.`);

  if (Object.keys(errors).length > 0 || !ladder || !form || !covers || !use || !convention || !reasonCode)
    return { kind: 'refused', errors };
  if (reductionPct === null || quantity === null || lifeDays === null || leadDays === null) return { kind: 'refused', errors };
  const garment: GarmentSpec = { form: form.id, use, pressure, options, ...own };
  const room = text('allowance') === '' ? widthOfPanel(options) : decided;
  const { limb, side, day: cutFrom } = ladder;
  const figures = { reductionPct, convention, quantity, decided: room, lifeDays, leadDays };
  return {
    kind: 'read',
    ladder,
    choice: {
      limb,
      side,
      cutFrom,
      covers,
      garment,
      ...figures,
      reasonCode: reasonCode as OrderReason,
      note: text('note') || null,
      ...(heldBack && { heldBack }),
      ...(text('maker') && { maker: text('maker') }),
      ...(text('colour') && { colour: text('colour') }),
      ...(neededBy && { neededBy }),
    },
  };
}

/** Why a form of garment cannot be made to what was chosen, in words; undefined where it can. */
function unlikeCut(form: GarmentForm, { limb, madeTo }: CutLadder): string | undefined {
  if (form.madeTo)
    return form.madeTo === madeTo
      ? undefined
      : `This garment is made to named measures of the ${form.madeTo} alone: choose a visit that has them, by “${form.madeTo}, named measures”.`;
  if (madeTo) return `This garment is made to a ladder; named measures of the ${madeTo} alone were chosen.`;
  return form.limb === limb ? undefined : `This is a garment for the ${form.limb}; the ladder is of the ${limb}.`;
}

/** The boxes of an order's form as far as its room hangs on them: the others stand at what is always read, so that room is shown before they are filled. */
export function asFarAsRoom(typed: TypedOrderForm): TypedOrderForm {
  const ofRoom = ['cutFrom', 'form', 'from', 'to', 'reduction', 'convention', 'lifeDays', 'leadDays'];
  const own = Object.fromEntries(ofRoom.map((box) => [box, typed[box] ?? '']));
  return { ...own, quantity: '1', use: 'day', reasonCode: 'first piece' };
}

/** A form's definition as a garment keeps it. */
function definitionOf(form: OwnForm | undefined): Pick<GarmentSpec, 'own'> {
  if (!form) return {};
  const { id, words, ladders, measures, own, leadDays, lifeDays } = form;
  return { own: { id, words, ladders, measures, own, leadDays, lifeDays } };
}

type Text = (box: string) => string;
type Refuse = (box: string, reason: string) => null;

function readPressure(text: Text, refuse: Refuse): PressureClass | null {
  const boxes = ['scheme', 'className', 'lowMmHg', 'highMmHg'];
  if (boxes.every((box) => text(box) === '')) return null;
  for (const box of boxes) if (text(box) === '') refuse(box, 'A class goes with its scheme and its range in mmHg: schemes differ.');
  const [lowMmHg, highMmHg] = [Number(text('lowMmHg')), Number(text('highMmHg'))];
  for (const box of ['lowMmHg', 'highMmHg']) if (!(Number(text(box)) > 0 && Number(text(box)) <= 100)) refuse(box, 'Type mmHg, 1 to 100.');
  if (lowMmHg > highMmHg) refuse('highMmHg', 'The range runs backwards.');
  return { scheme: text('scheme'), name: text('className'), lowMmHg, highMmHg };
}

function readOptions(text: Text, unit: 'in' | 'cm', refuse: Refuse): GarmentOption[] {
  return Array.from({ length: OPTION_ROWS }).flatMap((_, row): GarmentOption[] => {
    const key = text(`option${row}Choice`);
    const [place, widthText] = [text(`option${row}Place`), text(`option${row}Width`)];
    if (key === '' && place === '' && widthText === '') return [];
    const found = (Object.keys(GARMENT_OPTIONS) as OptionKind[])
      .flatMap((kind) => GARMENT_OPTIONS[kind].map((choice) => ({ kind, choice })))
      .find(({ kind, choice }) => optionKey(kind, choice) === key);
    if (!found) {
      refuse(`option${row}Choice`, 'Choose the option, or empty its place and width.');
      return [];
    }
    if (place === '') refuse(`option${row}Place`, 'Say where on the garment.');
    if (found.kind === 'expansion panel' && widthText === '') refuse(`option${row}Width`, 'Say how wide.');
    const width = widthText === '' ? null : readLength(widthText, unit);
    if (width && width.kind !== 'read') refuse(`option${row}Width`, width.reason);
    return [{ ...found, place, width: width?.kind === 'read' ? width.value : null }];
  });
}

/** The width that the one expansion panel holds; none without one, and where there are several: then the room is typed. */
function widthOfPanel(options: readonly GarmentOption[]): TypedLength | null {
  const panels = options.filter(({ kind }) => kind === 'expansion panel');
  return panels.length === 1 ? (panels[0]?.width ?? null) : null;
}

/** An order as its form shows it again. */
export function orderFormOf(
  order: Omit<OrderChoice, 'decided'> & { readonly decided?: TypedLength | null },
  ladderKey: string,
): TypedOrderForm {
  const { garment } = order;
  const options = garment.options.flatMap(({ kind, choice, place, width }, row) => [
    [`option${row}Choice`, optionKey(kind, choice)],
    [`option${row}Place`, place],
    [`option${row}Width`, width ? lengthAsTyped(width) : ''],
  ]);
  return {
    cutFrom: ladderKey,
    form: garment.form,
    use: garment.use satisfies GarmentUse,
    ...coverAsTyped(order.covers),
    reduction: String(order.reductionPct),
    convention: order.convention,
    scheme: garment.pressure?.scheme ?? '',
    className: garment.pressure?.name ?? '',
    lowMmHg: garment.pressure ? String(garment.pressure.lowMmHg) : '',
    highMmHg: garment.pressure ? String(garment.pressure.highMmHg) : '',
    quantity: String(order.quantity),
    heldBack: order.heldBack ? String(order.heldBack) : '',
    allowance: order.decided ? lengthAsTyped(order.decided) : widthOfPanel(garment.options) ? '0' : '',
    lifeDays: String(order.lifeDays),
    leadDays: String(order.leadDays),
    reasonCode: order.reasonCode,
    note: order.note ?? '',
    ...{ maker: order.maker ?? '', colour: order.colour ?? '', neededBy: order.neededBy ?? '' },
    ...Object.fromEntries(options),
  };
}
