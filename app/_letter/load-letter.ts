import 'server-only';
import { notFound } from 'next/navigation';
import { loadCoverage } from '@/app/_coverage/load-coverage';
import { type LoadedPatient, loadPatient } from '@/app/_record/load-patient';
import { ordersOf } from '@/db/patients/read-orders';
import type { KeptPiece } from '@/db/patients/read-pieces';
import type { Therapist } from '@/db/therapist';
import { isNoAnswer } from '@/lib/outcome';
import { type LetterFacts, letterFacts } from '@/lib/summary/letter/letter-facts';
import { verdictSentence } from '@/lib/summary/verdict-sentence';

/** What the letter form and its action start from. */
export type LoadedLetter = LoadedPatient & {
  readonly piece: KeptPiece;
  readonly facts: LetterFacts;
  /** The visit of the new ladder. */
  readonly visitId: string | null;
  /** What the engine says against the newest ladder, for the therapist only. */
  readonly doubt: string | null;
};

/** A piece of a patient of the therapist's clinic with the facts of its letter; any other id is a page that is not there. */
export async function loadLetter(therapist: Therapist, patientId: string, pieceId: string): Promise<LoadedLetter> {
  const loaded = await loadPatient(therapist, patientId);
  const { record, analysis, today } = loaded;
  const piece = record.pieces.find((one) => one.pieceId === pieceId);
  if (!piece) notFound();
  const orders = await ordersOf(therapist, patientId);
  const { now } = await loadCoverage(therapist, record, orders, today);
  const facts = letterFacts({ analysis, name: record.head.name, piece, orders, coverage: now });
  const limb = analysis.limbs.find(
    (one) => piece.covers !== 'measures' && one.series.limb === piece.limb && one.series.side === piece.side,
  );
  const since = limb?.visits.find((one) => one.at.visit === facts.newVisit)?.sinceBaseline;
  return {
    ...loaded,
    piece,
    facts,
    visitId: record.visits.find((one) => one === facts.newVisit)?.visitId ?? null,
    doubt: since && !isNoAnswer(since) && since.verdict === 'cannot-tell' ? verdictSentence(since, record) : null,
  };
}
