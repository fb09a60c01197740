import type { Leaving } from '../course/leaving';
import type { Phase } from '../course/phases';
import type { Booking } from '../diary/booking';
import type { Ladder } from '../ladder/ladder';
import type { FamilyReply } from '../observations/family-reply';
import type { Observation } from '../observations/observation';
import type { CautionAnswer } from './caution-answer';
import type { Order } from './order';
import type { PatientDetails } from './patient-details';
import type { PatientEvent, PatientRecord, Piece, Visit } from './patient-record';
import type { WorkFacts } from './work-facts';

/** A ladder with the interval it was set up with, as typed. */
export type FiledLadder = Ladder & { readonly intervalText: string | null };

/** A visit with an id that holds within its file. */
export type FiledVisit = Omit<Visit, 'ladders'> & { readonly id: string; readonly ladders: readonly FiledLadder[] };

/** A piece with the visit it was cut from and the number of the order it came from, where they are known. */
export type FiledPiece = Omit<Piece, 'orderId'> & {
  readonly cutFromVisitId: string | null;
  readonly order: number | null;
  readonly retiredReason: string | null;
};

/** An answer to a caution card with the words it was asked in. */
export type FiledCaution = CautionAnswer & { readonly wording: string };

/** One writing of a visit: which state, by whom, when, and why it was corrected. */
export type VisitWriting = {
  readonly visitId: string;
  readonly number: number;
  readonly author: string;
  readonly at: string;
  readonly reason: string | null;
};

/**
 * Everything of one patient that goes out to other programs and can come back: the state that holds now, as it was typed.
 *
 * `cutFromVisitId` of pieces and orders is the `id` of a visit in the same file. `writings` tells who wrote and corrected the visits;
 * it goes out and is not read back, because a record that comes in is written by whoever brings it in.
 */
export type PatientFile = {
  readonly details: PatientDetails;
  readonly visits: readonly FiledVisit[];
  readonly pieces: readonly FiledPiece[];
  readonly orders: readonly Order[];
  readonly events: readonly PatientEvent[];
  readonly phases: readonly Phase[];
  readonly cautions: readonly FiledCaution[];
  /** Each left out where there is none. */
  readonly facts?: WorkFacts;
  readonly leaving?: Leaving;
  readonly bookings?: readonly Booking[];
  readonly observations?: readonly Observation[];
  readonly replies?: readonly FamilyReply[];
  readonly writings: readonly VisitWriting[];
};

/** The file as the rules see it. */
export function recordOfFile({ details, visits, pieces, events, phases, cautions, facts, ...noted }: PatientFile): PatientRecord {
  const { reference, born, sex, affected, affectedParts } = details;
  const bookings = (noted.bookings ?? []).map((one, place) => ({ ...one, bookingId: `b${place}` }));
  const observations = (noted.observations ?? []).map((one, place) => ({ ...one, observationId: `o${place}` }));
  const replies = (noted.replies ?? []).map((one, place) => ({ ...one, replyId: `r${place}` }));
  const who = { reference, born, sex, affected, ...(affectedParts ? { affectedParts } : {}) };
  return { ...who, visits, pieces, events, phases, cautions, facts: facts ?? null, bookings, observations, replies };
}
