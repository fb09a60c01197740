'use server';

import { redirect } from 'next/navigation';
import { returnPath } from '@/app/_auth/return-path';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { proposedFor } from '@/app/_order/prompts-of-order';
import { afterActing, DONE_WHEN_NOTED } from '@/app/_patient/after-acting';
import { loadPatient } from '@/app/_record/load-patient';
import { addEvent, withdrawEvent } from '@/db/patients/events';
import { ordersOf } from '@/db/patients/read-orders';
import { moveDate } from '@/db/worklist/moved-dates';
import { answerPrompt, asAsked } from '@/db/worklist/prompt-answers';
import { refreshPatient } from '@/db/worklist/refresh-work';
import { answerTo } from '@/lib/prompts/decide-prompts';
import { OF_BOOKINGS, OF_REPLIES } from '@/lib/schedule/scheduled-date';
import { readDay } from '@/lib/units/calendar-day';

/** Why an answer was not taken, beside the prompt it belongs to. */
export type AnswerState = {
  readonly cause: string;
  readonly refusal: string;
} | null;

const ANSWERS = ['act', 'not-now', 'not-for-this-patient'] as const;

/** Logs what a therapist answered to a prompt, with the rule's version and inputs; acting goes on to where the act is done, and counts as begun until it is; else back to where it was asked. */
export async function answerPromptAction(_before: AnswerState, form: FormData): Promise<AnswerState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', cause = '' } = typed;
  const { prompts, record, today } = await loadPatient(therapist, patientId);
  const prompt = prompts.find((one) => one.cause === cause);
  const answer = ANSWERS.find((one) => one === typed.answer);
  if (!prompt || !answer)
    return {
      cause,
      refusal: 'This has changed since the page was opened. Nothing was saved; look at it again.',
    };
  const reason = (typed.reason ?? '').trim();
  const until = readDay(typed.until ?? '');
  if (answer === 'not-now' && (until.kind !== 'read' || until.value <= today))
    return { cause, refusal: 'Choose the day to ask again, later than today.' };
  if (answer === 'not-for-this-patient' && reason === '')
    return {
      cause,
      refusal: 'Say why in a few words, so that others understand it later.',
    };
  await answerPrompt(therapist, patientId, {
    ...asAsked(prompt),
    answer: answer === 'act' && !DONE_WHEN_NOTED.includes(prompt.action) ? 'begun' : answer,
    until: answer === 'not-now' && until.kind === 'read' ? until.value : null,
    reason: reason || null,
  });
  await refreshPatient(therapist, patientId, today);
  const own = `/patients/${patientId}`;
  const begun = answer === 'act' && prompt.action === 'order' && proposedFor(prompt, await ordersOf(therapist, patientId), record.pieces);
  if (begun) redirect(`${own}/orders/${begun.orderId}`);
  const done = answer === 'act' ? afterActing(patientId, prompt, record.pieces) : own;
  redirect(done === own ? backTo(typed, own) : done);
}

/** Opens a prompt again that was answered: a further answer, so that the earlier ones stay as they were given. */
export async function openAgainAction(form: FormData): Promise<void> {
  const therapist = await requireActing('lead', 'therapist');
  const { patientId = '', cause } = postedText(form);
  const { raised, answers, today } = await loadPatient(therapist, patientId);
  const prompt = raised.find((one) => one.cause === cause);
  if (prompt && answerTo(prompt, answers)) {
    await answerPrompt(therapist, patientId, {
      ...asAsked(prompt),
      answer: 'open-again',
      until: null,
      reason: null,
    });
    await refreshPatient(therapist, patientId, today);
  }
  redirect(`/patients/${patientId}/prompts`);
}

/** Why a date was not moved, and what was typed. */
export type MoveState = { readonly refusal: string; readonly day: string; readonly reason: string } | null;

/** Moves one date of the schedule to another day, with a reason. It holds until new data gives the date another day. */
export async function moveDateAction(_before: MoveState, form: FormData): Promise<MoveState> {
  const therapist = await requireActing('lead', 'therapist');
  const boxes = postedText(form);
  const { patientId = '', key, computed } = boxes;
  const { dates, today } = await loadPatient(therapist, patientId);
  const typed = { day: boxes.day ?? '', reason: (boxes.reason ?? '').trim() };
  const date = dates.find((one) => one.key === key);
  if (!date || [...OF_BOOKINGS, ...OF_REPLIES].includes(date.kind) || date.computed !== computed)
    return { refusal: 'This date has changed since the page was opened. Nothing was moved; look at it again.', ...typed };
  const day = readDay(typed.day);
  if (day.kind !== 'read' || day.value < today) return { refusal: 'Choose a day, today or later.', ...typed };
  if (typed.reason === '') return { refusal: 'Say why in a few words, so that others understand it later.', ...typed };
  await moveDate(therapist, patientId, { key: date.key, computed: date.computed, day: day.value, reason: typed.reason });
  await refreshPatient(therapist, patientId, today);
  redirect(backTo(boxes, `/patients/${patientId}`));
}

/** The page a form was sent from, when it named one of this program's. */
function backTo({ back }: Readonly<Record<string, string>>, otherwise: string): string {
  return back ? returnPath(back) : otherwise;
}

/** Why an event was not taken, and what was typed. */
export type EventState = { readonly refusal: string; readonly words: string } | null;

const EVENT_KINDS = ['operation', 'infection', 'therapy', 'other'] as const;

/** Notes an event after which the limbs' trends start anew. */
export async function addEventAction(_before: EventState, form: FormData): Promise<EventState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '' } = typed;
  const { today } = await loadPatient(therapist, patientId);
  const words = (typed.words ?? '').trim();
  const day = readDay(typed.day ?? '');
  const kind = EVENT_KINDS.find((one) => one === typed.kind);
  if (day.kind !== 'read' || day.value > today) return { refusal: 'Choose the day it happened, today or before.', words };
  if (!kind || words === '') return { refusal: 'Choose the kind and say what happened in a few words.', words };
  const submissionId = typed.submissionId || crypto.randomUUID();
  await addEvent(therapist, { patientId, submissionId, event: { day: day.value, kind, words } });
  await refreshPatient(therapist, patientId, today);
  redirect(`/patients/${patientId}`);
}

/** Takes a mistaken event back with its reason, by another row: trends run through its day again. */
export async function withdrawEventAction(_before: EventState, form: FormData): Promise<EventState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', eventId = '' } = typed;
  const reason = (typed.reason ?? '').trim();
  if (reason === '') return { refusal: 'Say in a few words why it was a mistake.', words: '' };
  const { today } = await loadPatient(therapist, patientId);
  const submissionId = typed.submissionId || crypto.randomUUID();
  const ended = await withdrawEvent(therapist, eventId, { submissionId, reason });
  if (ended.kind === 'not-found') return { refusal: 'This event is no longer there. Nothing was changed.', words: reason };
  await refreshPatient(therapist, patientId, today);
  redirect(`/patients/${patientId}`);
}
