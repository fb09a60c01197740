import { and, asc, eq, inArray } from 'drizzle-orm';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { noteOf } from './audit';
import { getDatabase } from './client';
import { patientHead } from './patients';
import { promptAnswer } from './schema';
import { assertMayWrite, type Therapist } from './therapist';
import { workChanged } from './work-changed';
import { writeTogether } from './write-together';

/** What a person answered to a prompt, with the figures it stood on. */
export type PromptAnswer = {
  readonly promptKey: string;
  readonly rule: string;
  readonly ruleVersion: string;
  readonly inputsHash: string;
  readonly inputs: unknown;
  readonly answer: 'act' | 'not-now' | 'not-for-this-patient' | 'open-again';
  readonly until: CalendarDay | null;
  readonly reason: string | null;
};

/** An answer as kept: whose prompt, who answered and when. */
export type KeptAnswer = PromptAnswer & { readonly patientId: string; readonly by: string; readonly at: Date };

/** Keeps an answer by adding a row; earlier answers stay. False when the clinic has no such patient. */
export async function answerPrompt(therapist: Therapist, patientId: string, answer: PromptAnswer, at = new Date()): Promise<boolean> {
  assertMayWrite(therapist);
  if (!(await patientHead(therapist, patientId))) return false;
  const row = { ...answer, id: crypto.randomUUID(), clinicId: therapist.clinicId, patientId, by: therapist.id, at };
  const detail = { promptKey: answer.promptKey, answer: answer.answer };
  await writeTogether([
    (tx) => tx.insert(promptAnswer).values(row).returning({ id: promptAnswer.id }),
    workChanged(therapist, patientId),
    noteOf(therapist, { action: 'prompt answered', subjectKind: 'patient', subjectId: patientId, detail }, at),
  ]);
  return true;
}

/** The latest answer to each prompt of these patients, in one query. */
export async function answersOf(therapist: Therapist, patientIds: readonly string[]): Promise<readonly KeptAnswer[]> {
  if (patientIds.length === 0) return [];
  const database = await getDatabase();
  const rows = await database
    .select()
    .from(promptAnswer)
    .where(and(eq(promptAnswer.clinicId, therapist.clinicId), inArray(promptAnswer.patientId, [...patientIds])))
    .orderBy(asc(promptAnswer.at), asc(promptAnswer.id));
  const latest = new Map(rows.map(({ id: _id, clinicId: _clinic, ...answer }) => [`${answer.patientId} ${answer.promptKey}`, answer]));
  return [...latest.values()];
}
