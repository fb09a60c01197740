'use server';

import { randomBytes } from 'node:crypto';
import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { changeSetting } from '@/db/clinic/clinic';
import { OWN_FORMS_KEY, OWN_MEASURES_KEY, ownPartsOf } from '@/db/clinic/own-parts';
import { readOwnForm, readOwnMeasure, withAsked } from '@/lib/forms/read-own-parts';

/** What stops a form, beside its boxes, and everything as typed. */
export type OwnPartState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>> | null;
};

const PAGE = '/clinic/parts';

/** Adds a named measure of the clinic's own. Its definition never changes: another one is another measure. */
export async function addOwnMeasureAction(_before: OwnPartState, form: FormData): Promise<OwnPartState> {
  const therapist = await requireActing('lead');
  const typed = postedText(form);
  const { measures } = await ownPartsOf(therapist);
  const read = readOwnMeasure(typed, measures, freshId());
  if (read.kind === 'refused') return { errors: read.errors, typed };
  await changeSetting(therapist, { key: OWN_MEASURES_KEY, value: [...measures, read.value], reason: 'a named measure added' });
  redirect(PAGE);
}

/** Adds a form of garment of the clinic's own. */
export async function addOwnFormAction(_before: OwnPartState, form: FormData): Promise<OwnPartState> {
  const therapist = await requireActing('lead');
  const typed = {
    ...postedText(form),
    measures: form
      .getAll('measures')
      .filter((one) => typeof one === 'string')
      .join(' '),
  };
  const { measures, forms } = await ownPartsOf(therapist);
  const read = readOwnForm(typed, forms, measures, freshId());
  if (read.kind === 'refused') return { errors: read.errors, typed };
  await changeSetting(therapist, { key: OWN_FORMS_KEY, value: [...forms, read.value], reason: 'a garment form added' });
  redirect(PAGE);
}

/** Retires a measure or a form of the clinic, or asks for it again; what was measured and ordered by it stays. */
export async function askOwnPartAction(form: FormData): Promise<void> {
  const therapist = await requireActing('lead');
  const { id = '', asked = '' } = postedText(form);
  const { measures, forms } = await ownPartsOf(therapist);
  const reason = asked === 'yes' ? 'asked for again' : 'retired';
  const changed = withAsked(measures, id, asked === 'yes');
  const changedForms = withAsked(forms, id, asked === 'yes');
  if (changed) await changeSetting(therapist, { key: OWN_MEASURES_KEY, value: changed, reason });
  else if (changedForms) await changeSetting(therapist, { key: OWN_FORMS_KEY, value: changedForms, reason });
  redirect(PAGE);
}

/** At random, so that no two clinics give one id to two things. */
function freshId(): string {
  return `own-${randomBytes(6).toString('hex')}`;
}
