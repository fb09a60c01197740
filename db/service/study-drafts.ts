import { and, eq } from 'drizzle-orm';
import { z } from 'zod';
import { STUDY_BOUNDS, type StudyTurn, turnName } from '@/lib/study/study-plan';
import { getDatabase } from '../client';
import { studyDraft } from '../schema/schema';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { isOwnTurn, studyOf } from './studies';

const DRAFT = z.array(z.string().max(60)).max(STUDY_BOUNDS.rungs.most);

/** What the person has typed of one of their tapings and not saved. */
export async function studyDraftOf(therapist: Therapist, studyId: string, turn: StudyTurn): Promise<readonly string[] | undefined> {
  const study = await studyOf(therapist, studyId);
  if (!study || !isOwnTurn(therapist, study.plan, turn) || study.typed.has(turnName(turn))) return undefined;
  const database = await getDatabase();
  const [found] = await database
    .select({ content: studyDraft.content })
    .from(studyDraft)
    .where(and(eq(studyDraft.clinicId, therapist.clinicId), eq(studyDraft.studyId, studyId), eq(studyDraft.thing, turnName(turn))));
  return found && DRAFT.parse(found.content);
}

/** Keeps what is typed of a taping over what was kept before; the last one counts. No deed: drafts are no record. */
export async function keepStudyDraft(
  therapist: Therapist,
  studyId: string,
  turn: StudyTurn,
  texts: readonly string[],
  at = new Date(),
): Promise<boolean> {
  assertMayWrite(therapist);
  const study = await studyOf(therapist, studyId);
  if (!study || study.ended || !isOwnTurn(therapist, study.plan, turn) || study.typed.has(turnName(turn))) return false;
  const kept = { content: DRAFT.parse(texts), updatedAt: at };
  const row = { ...kept, id: crypto.randomUUID(), clinicId: therapist.clinicId, studyId, thing: turnName(turn) };
  const written = await inTransaction([
    (tx) =>
      tx
        .insert(studyDraft)
        .values(row)
        .onConflictDoUpdate({ target: [studyDraft.studyId, studyDraft.thing], set: kept })
        .returning({ id: studyDraft.id }),
  ]);
  return written.kind === 'written';
}
