import { and, asc, eq, inArray } from 'drizzle-orm';
import { type PromptAnswer as Answer, type AnswerKind, inputsOf, type MergedPrompt } from '@/lib/prompts/decide-prompts';
import type { Prompt, PromptAction } from '@/lib/prompts/prompt';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { auditEntry } from '../audit/audit-entry';
import { getDatabase } from '../client';
import { invalidateWork } from '../patients/invalidate-work';
import { patientHead } from '../patients/patients';
import { promptAnswer, user } from '../schema/schema';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';

/** What a person answered to a prompt, with the figures it stood on. */
export type PromptAnswer = {
  readonly promptKey: string;
  readonly rule: string;
  readonly ruleVersion: string;
  readonly inputsHash: string;
  readonly inputs: unknown;
  readonly answer: AnswerKind;
  readonly until: CalendarDay | null;
  readonly reason: string | null;
};

/** An answer as kept: whose prompt, who answered and when. */
export type KeptAnswer = PromptAnswer & {
  readonly answerId: string;
  readonly patientId: string;
  readonly by: string;
  readonly byName: string | null;
  readonly at: Date;
};

/** What an answer says of the prompt it was given to: its rule and version, and the facts as they stood. */
export function asAsked(prompt: MergedPrompt): Omit<PromptAnswer, 'answer' | 'until' | 'reason'> {
  return {
    promptKey: prompt.cause,
    rule: prompt.rule,
    ruleVersion: String(prompt.ruleVersion),
    inputsHash: inputsOf(prompt),
    inputs: { title: prompt.title, facts: prompt.facts, action: prompt.action, about: prompt.about },
  };
}

/**
 * Answers "act" to every prompt that was begun and is done now: an order was sent, a limb measured, a step of a piece taken.
 *
 * Shape: what is done (kinds of action), and which limb or piece it was done for. Adds rows, changes none.
 */
export async function completeBegun(
  therapist: Therapist,
  patientId: string,
  done: readonly PromptAction[],
  isMeant: (about: Prompt['about']) => boolean = () => true,
): Promise<void> {
  const last = new Map((await answersOf(therapist, [patientId])).map((answer) => [answer.promptKey, answer]));
  for (const { answer, inputs, promptKey, rule, ruleVersion, inputsHash } of last.values()) {
    const { action, about } = (inputs ?? {}) as { readonly action?: PromptAction; readonly about?: Prompt['about'] };
    if (answer !== 'begun' || !action || !done.includes(action) || !isMeant(about ?? {})) continue;
    await answerPrompt(therapist, patientId, {
      promptKey,
      rule,
      ruleVersion,
      inputsHash,
      inputs,
      answer: 'act',
      until: null,
      reason: null,
    });
  }
}

/** Keeps an answer by adding a row; earlier answers stay. False when the clinic has no such patient. */
export async function answerPrompt(therapist: Therapist, patientId: string, answer: PromptAnswer, at = new Date()): Promise<boolean> {
  assertMayWrite(therapist);
  if (!(await patientHead(therapist, patientId))) return false;
  const row = { ...answer, id: crypto.randomUUID(), clinicId: therapist.clinicId, patientId, by: therapist.id, at };
  const detail = { promptKey: answer.promptKey, answer: answer.answer };
  await inTransaction([
    (tx) => tx.insert(promptAnswer).values(row).returning({ id: promptAnswer.id }),
    invalidateWork(therapist, patientId),
    auditEntry(therapist, { action: 'prompt answered', subjectKind: 'patient', subjectId: patientId, detail }, at),
  ]);
  return true;
}

/** Every answer to the prompts of these patients, oldest first, in one query. The last one to a part of a prompt holds for it. */
export async function answersOf(therapist: Therapist, patientIds: readonly string[]): Promise<readonly KeptAnswer[]> {
  if (patientIds.length === 0) return [];
  const database = await getDatabase();
  const rows = await database
    .select({ answer: promptAnswer, byName: user.name })
    .from(promptAnswer)
    .leftJoin(user, eq(user.id, promptAnswer.by))
    .where(and(eq(promptAnswer.clinicId, therapist.clinicId), inArray(promptAnswer.patientId, [...patientIds])))
    .orderBy(asc(promptAnswer.at), asc(promptAnswer.id));
  return rows.map(({ answer: { clinicId: _clinic, id: answerId, ...answer }, byName }) => ({ ...answer, answerId, byName }));
}

/** An answer as the rules read it; what it was given to stands beside it as `asked`. */
export type KnownAnswer = Omit<KeptAnswer, 'inputs'> & Answer & { readonly asked: unknown };

/** The same answer with its cause and its inputs in the words of the rules. */
export function asKnown({ inputs: asked, ...answer }: KeptAnswer): KnownAnswer {
  return { ...answer, asked, cause: answer.promptKey, inputs: answer.inputsHash };
}
