'use server';

import { randomInt } from 'node:crypto';
import { redirect } from 'next/navigation';
import { z } from 'zod';
import { requireActing } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { postedText } from '@/app/_form/posted';
import { clinicOf } from '@/db/clinic/clinic';
import { peopleOf } from '@/db/people/people';
import { beginStudy, endStudy, type StudySaved, saveStudyRun, studyOf } from '@/db/service/studies';
import { keepStudyDraft } from '@/db/service/study-drafts';
import { keepStudyLimits, takeBackStudyLimits } from '@/db/service/study-limits';
import { LONGEST_REASON, reasonErrors } from '@/lib/forms/read-reason';
import { readStudyPlan, readStudyRun } from '@/lib/forms/read-study';
import { STUDY_BOUNDS } from '@/lib/study/study-plan';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { nextTurnOf, readTurn } from './turns';

/** What stops a form, beside its boxes, and everything as typed. */
export type StudyFormState = { readonly errors: Readonly<Record<string, string>>; readonly typed: Readonly<Record<string, string>> | null };

/** Begins a study; the seed of its orders is drawn here. */
export async function beginStudyAction(_before: StudyFormState, form: FormData): Promise<StudyFormState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const people = (await peopleOf(therapist)).filter(({ role, state }) => role !== 'read-only' && state === 'active');
  const { lengthUnit } = await clinicOf(therapist);
  const read = readStudyPlan(typed, people, lengthUnit, randomInt(2 ** 31));
  if (read.kind === 'refused') return { errors: read.errors, typed };
  if (!typed.submissionId) return { errors: { people: 'The form came without its mark. Nothing was begun. Reload the page.' }, typed };
  if (therapist.role !== 'lead' && !read.plan.measurers.some(({ id }) => id === therapist.id))
    return { errors: { measurers: 'Who is not a lead begins a study that they tape in.' }, typed };
  const { studyId } = await beginStudy(therapist, typed.submissionId, read.plan);
  redirect(`/clinic/studies/${studyId}`);
}

const WHY_NOT: Readonly<Record<Exclude<StudySaved['kind'], 'saved' | 'already-saved'>, string>> = {
  'not-found': 'This taping is not yours to type. Nothing was saved.',
  'typed-already': 'This taping is typed already. It can be corrected once the study is whole.',
  early: 'A taping is corrected once the study is whole, so that nobody sees a figure before. Nothing was saved.',
  ended: 'A lead ended this study meanwhile. Nothing was saved.',
  conflict: 'It was changed meanwhile. Nothing was saved; open it anew.',
};

/** Saves one taping, or corrects it with a reason; then goes on to the next one of the same person. */
export async function saveStudyRunAction(_before: StudyFormState, form: FormData): Promise<StudyFormState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const study = await studyOf(therapist, typed.studyId ?? '');
  const turn = readTurn(typed.turn ?? '');
  if (!study || !turn || !typed.submissionId) return { errors: { form: WHY_NOT['not-found'] }, typed };
  const expected = Number(typed.expected ?? '0');
  const read = readStudyRun(typed, study.plan);
  const errors: Record<string, string> = read.kind === 'refused' ? { ...read.errors } : {};
  const reason = (typed.reason ?? '').trim().slice(0, STUDY_BOUNDS.reason);
  if (expected === 0 && typed.removed !== 'yes')
    errors.removed = 'Say that the marks of the taping before are gone: they would tell where it was.';
  if (expected > 0 && reason === '') errors.reason = 'Say why it is corrected: both states are kept.';
  if (read.kind === 'refused' || Object.keys(errors).length > 0) return { errors, typed };
  const saved = await saveStudyRun(therapist, study.studyId, {
    ...{ submissionId: typed.submissionId, turn, girths: read.girths, expected },
    reason: expected > 0 ? reason : null,
  });
  if (saved.kind !== 'saved' && saved.kind !== 'already-saved') return { errors: { form: WHY_NOT[saved.kind] }, typed };
  const now = await studyOf(therapist, study.studyId);
  const next = now && nextTurnOf(now, therapist.id);
  redirect(next && expected === 0 ? `/clinic/studies/${study.studyId}/${next}` : `/clinic/studies/${study.studyId}`);
}

/** Ends a study that will not be finished. */
export async function endStudyAction(_before: StudyFormState, form: FormData): Promise<StudyFormState> {
  const lead = await requireActing('lead');
  const typed = postedText(form);
  const { studyId = '', submissionId } = typed;
  const reason = (typed.reason ?? '').trim();
  const errors = reasonErrors(reason, true, LONGEST_REASON.other);
  if (errors.reason) return { errors, typed };
  if (!submissionId) return { errors: { reason: 'The form came without its mark. Nothing was ended. Reload the page.' }, typed };
  const ended = await endStudy(lead, studyId, { submissionId, reason });
  if (ended.kind === 'typed-already')
    return { errors: { reason: 'All of it was typed meanwhile: it has its result. Reload the page.' }, typed };
  if (ended.kind !== 'saved' && ended.kind !== 'already-saved') return { errors: { reason: WHY_NOT[ended.kind] }, typed };
  redirect(`/clinic/studies/${studyId}`);
}

const TEXTS = z.array(z.string().max(60)).max(STUDY_BOUNDS.rungs.most);

/** Keeps what is typed of a taping and not saved; false where it could not be. */
export async function keepStudyDraftAction(studyId: unknown, turn: unknown, texts: unknown): Promise<boolean> {
  const therapist = await requireActing('lead', 'therapist');
  const [id, place, read] = [z.string().max(100).safeParse(studyId), readTurn(String(turn)), TEXTS.safeParse(texts)];
  return id.success && place && read.success ? keepStudyDraft(therapist, id.data, place, read.data) : false;
}

/** Makes what a study found the limits that the engine works with. */
export async function keepStudyLimitsAction(form: FormData): Promise<void> {
  const lead = await requireActing('lead');
  const { studyId = '' } = postedText(form);
  const day = await dayOf(studyId, lead);
  if (day) await keepStudyLimits(lead, studyId, day);
  redirect(day ? `/clinic/studies/${studyId}` : '/clinic/studies');
}

/** Puts the limits that a study set back to what stood before. */
export async function takeBackStudyLimitsAction(form: FormData): Promise<void> {
  const lead = await requireActing('lead');
  const { studyId = '' } = postedText(form);
  const day = await dayOf(studyId, lead);
  if (day) await takeBackStudyLimits(lead, studyId, day);
  redirect(day ? `/clinic/studies/${studyId}` : '/clinic/studies');
}

async function dayOf(studyId: string, lead: Awaited<ReturnType<typeof requireActing>>): Promise<CalendarDay | undefined> {
  const study = await studyOf(lead, studyId);
  return study && todayIn((await clinicOf(lead)).timeZone, study.lastAt);
}
