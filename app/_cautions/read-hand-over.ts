import type { HandOver } from '@/db/patients/holds';
import type { CautionAbout } from '@/lib/cautions/caution-card';
import { type HeldPiece, readLifted, type Stop, stopsOn, unaskedFor } from '@/lib/cautions/hold';
import type { Piece } from '@/lib/record/patient-record';

/** What holds a hand-over, as a form shows it: stops, and cautions that are not answered for it. */
export type ShownHold = { readonly stops: readonly Stop[]; readonly unasked: readonly string[] };

/** A piece as the cautions see it. */
export function heldPiece({ limb, side, garment }: Pick<Piece, 'limb' | 'side' | 'garment'>): HeldPiece {
  return { limb, side, pressureMmHg: garment?.pressure?.highMmHg ?? null };
}

/** What holds the hand-over of a piece today. A piece that comes to the clinic touches nobody yet, so that only stops hold it. */
export function holdOn(about: CautionAbout, piece: HeldPiece, touches: boolean): ShownHold {
  const stops = stopsOn(about.record.cautions ?? [], piece);
  return { stops, unasked: touches ? unaskedFor(about, piece, about.policy.handOverAskDays) : [] };
}

/** What was said at a hand-over, or a sentence beside each box that stops it. */
export function readHandOver(
  typed: Readonly<Record<string, string>>,
  hold: ShownHold,
  { today }: CautionAbout,
): { readonly handOver: HandOver; readonly errors: Readonly<Record<string, string>> } {
  const { lifted, errors } = readLifted(typed, hold.stops);
  const why = (typed.unaskedWhy ?? '').trim().slice(0, 300);
  const missing: Readonly<Record<string, string>> =
    hold.unasked.length > 0 && why === '' ? { unaskedWhy: 'Ask them on the page of cautions, or say here why not.' } : {};
  const unasked = hold.unasked.length > 0 ? { cards: hold.unasked, why } : null;
  return { handOver: { day: today, lifted, unasked }, errors: { ...errors, ...missing } };
}

/** What is told when a caution was answered “yes” while a form was open, or the course of care rests: nothing was saved. */
export function heldNow(stops: readonly Stop[]): string {
  const course = stops.find(({ card }) => card === 'course');
  if (course) return `${course.message} Nothing was saved.`;
  return `Held by a caution: ${stops.map(({ title }) => title).join('; ')}. Nothing was saved; reload the page and read it.`;
}
