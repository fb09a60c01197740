import { cutLadders, cutMeasures } from '@/app/_piece/cut-ladders';
import type { LoadedPatient } from '@/app/_record/load-patient';
import type { KeptOrder } from '@/db/patients/read-orders';
import type { KeptPiece } from '@/db/patients/read-pieces';
import type { CutLadder } from '@/lib/forms/read-cut';
import { asFarAsRoom, orderFormOf, readOrderForm, type TypedOrderForm } from '@/lib/forms/read-order-form';
import type { OwnForm } from '@/lib/garment-forms/garment-catalogue';
import type { RoomToGrow } from '@/lib/garments/room-to-grow';
import { LIMBS, placeInWords } from '@/lib/ladder/limb';
import { previewPiece } from '@/lib/orders/preview-piece';
import { isNoAnswer, type NoAnswer } from '@/lib/outcome';
import { roomSizes } from '@/lib/prompts/outlook-in-words';
import { ORDER_REASONS, type OrderReason } from '@/lib/record/order';
import { limbOf } from '@/lib/record/patient-record';
import type { CountedDays } from '@/lib/service/days-spread';
import { leadProposal } from '@/lib/service/lead-times';

/**
 * What a new order starts from: the last piece's figures on the newest ladder of its limb, with maker and colour of the order it came of, or
 * blanks with the limb's own ends.
 */
export function startOfOrder(
  before: KeptPiece | undefined,
  orders: readonly KeptOrder[],
  ladders: readonly CutLadder[],
  reason: string | undefined,
): TypedOrderForm {
  const reasonCode = ORDER_REASONS.find((one) => one === reason) ?? '';
  const newest = before ? ladders.find((one) => isLike(one, before)) : ladders[0];
  if (!before) {
    const on = newest && !newest.madeTo ? limbOf(newest) : undefined;
    const ends = on && LIMBS[on.limb].landmarks;
    const blank = {
      cutFrom: newest?.key ?? '',
      from: placeInWords(ends?.[0] ?? ''),
      to: placeInWords(ends?.[2] ?? ''),
      convention: 'C(1-r)',
      use: 'day',
      quantity: '2',
    };
    return { ...blank, reasonCode: reasonCode || 'first piece' };
  }
  const garment = before.garment ?? { form: '', use: 'day' as const, pressure: null, options: [] };
  const typed = orderFormOf({ ...before, garment, quantity: 2, reasonCode: 'worn out', note: null, decided: null }, newest?.key ?? '');
  const { maker = '', colour = '' } = orders.find(({ orderId }) => orderId === before.orderId) ?? {};
  return { ...typed, maker, colour, reasonCode: reasonCode satisfies OrderReason | '' };
}

/** Whether a choice is of the place of a piece and what it was made to: a ladder, or named measures alone. */
function isLike(one: CutLadder, { limb, side, covers }: KeptPiece): boolean {
  return one.limb === limb && one.side === side && (one.madeTo !== undefined) === (covers === 'measures');
}

/** What making took of late, in words, by the form of garment; of the form that stands at the start also that nothing came of it yet. */
export function leadWords(times: ReadonlyMap<string, CountedDays>, start: string | undefined): Readonly<Record<string, string>> {
  const known = [...times].map(([form, counted]) => [form, leadProposal(counted).words]);
  return { ...(start ? { [start]: leadProposal([]).words } : {}), ...Object.fromEntries(known) };
}

/** The room that is proposed for what stands in a form of an order, on which ladder; or why the form cannot be read that far. */
export type RoomOfForm =
  | { readonly kind: 'found'; readonly cutFrom: string; readonly unit: 'in' | 'cm'; readonly room: RoomToGrow | NoAnswer }
  | { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> };

/** The same room that the order has once it is kept: of the piece that the form asks for, cut from its own ladder. */
export function roomOfForm(
  typed: TypedOrderForm,
  forms: readonly OwnForm[],
  { record, analysis, today }: Pick<LoadedPatient, 'record' | 'analysis' | 'today'>,
): RoomOfForm {
  const read = readOrderForm(asFarAsRoom(typed), [...cutLadders(record), ...cutMeasures(record)], forms);
  if (read.kind === 'refused') return read;
  const cut = { ...read.choice, cutFromVisitId: read.ladder.visitId };
  const { room } = previewPiece(record, cut, analysis.policy, today).piece;
  return { kind: 'found', cutFrom: typed.cutFrom ?? '', unit: read.ladder.unit, room };
}

/** The room in words: `Proposed: ½ in, or ¾ in to be enough nine times in ten.` */
export function roomInWords(found: RoomOfForm): string {
  if (found.kind === 'refused') return '“Show the room for these figures” works it out.';
  const { room, unit } = found;
  if (isNoAnswer(room)) return `Proposed: not known. ${room.noAnswer}`;
  if (room.highMm === 0) return 'Proposed: none.';
  return `Proposed: ${roomSizes(room, unit)}.`;
}
