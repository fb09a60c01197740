import type { KeptOrder } from '@/db/patients/read-orders';
import type { KeptPiece } from '@/db/patients/read-pieces';
import type { CutLadder } from '@/lib/forms/read-cut';
import { orderFormOf, type TypedOrderForm } from '@/lib/forms/read-order-form';
import type { RoomToGrow } from '@/lib/garments/room-to-grow';
import { LIMBS, placeInWords } from '@/lib/ladder/limb';
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

/** The room the engine proposes for the figures of an order: `Proposed: ½ in, or ¾ in to be enough nine times in ten.` */
export function roomInWords(room: Pick<RoomToGrow, 'middleMm' | 'highMm'> | NoAnswer | undefined, unit: 'in' | 'cm'): string {
  if (room === undefined) return '“Show the room for these figures” works it out.';
  if (isNoAnswer(room)) return `Proposed: not known. ${room.noAnswer}`;
  if (room.highMm === 0) return 'Proposed: none.';
  return `Proposed: ${roomSizes(room, unit)}.`;
}
