import type { LoadedPatient } from '@/app/_record/load-patient';
import { type CutLadder, cutKey } from '@/lib/forms/read-cut';
import { asFarAsRoom, readOrderForm, type TypedOrderForm } from '@/lib/forms/read-order-form';
import type { OwnForm } from '@/lib/garment-forms/garment-catalogue';
import type { RoomToGrow } from '@/lib/garments/room-to-grow';
import { furtherRoom, previewPiece, proposedRoom } from '@/lib/orders/preview-piece';
import { isNoAnswer, type NoAnswer } from '@/lib/outcome';
import type { ProposedRoom } from '@/lib/record/order';

/** The room proposed along one ladder, by the key of its choice. */
export type RoomOnLadder = { readonly key: string; readonly places: ProposedRoom['places'] };

/** The room proposed for the figures in an order's form, and the ladder it is counted on; else why the form does not say enough. */
export type RoomAsTyped =
  | { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> }
  | { readonly kind: 'read'; readonly room: RoomToGrow | NoAnswer; readonly ladder: CutLadder; readonly ladders: readonly RoomOnLadder[] };

/** The room that the order would be kept with, were it kept as it stands in the form: one figure before and after. */
export function roomAsTyped(
  typed: TypedOrderForm,
  choices: readonly CutLadder[],
  forms: readonly OwnForm[],
  { record, analysis, today }: Pick<LoadedPatient, 'record' | 'analysis' | 'today'>,
): RoomAsTyped {
  const read = readOrderForm(asFarAsRoom(typed), choices, forms);
  if (read.kind === 'refused') return { kind: 'refused', errors: read.errors };
  const cut = { ...read.choice, cutFromVisitId: read.ladder.visitId };
  const { piece } = previewPiece(record, cut, analysis.policy, today);
  const further = furtherRoom(record, cut, analysis.policy, today).map(({ proposed, ...on }) => ({
    key: cutKey(read.ladder.visitId, on, false),
    proposed,
  }));
  const ladders = [{ key: read.ladder.key, proposed: proposedRoom(piece) }, ...further].map(({ key, proposed }) => ({
    key,
    places: isNoAnswer(proposed) ? [] : proposed.places,
  }));
  return { kind: 'read', room: piece.room, ladder: read.ladder, ladders };
}
