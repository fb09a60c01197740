'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { loadFamily } from '@/app/_family/load-family';
import { postedText } from '@/app/_form/posted';
import { approveFamilyPage } from '@/db/documents/family-pages';
import { deathIn } from '@/lib/course/phases';
import { emergencyOf } from '@/lib/summary/family/emergency-number';
import type { FamilyPage } from '@/lib/summary/family/family-content';
import { familyFacts } from '@/lib/summary/family/family-facts';
import { familyHelp } from '@/lib/summary/family/family-help';
import { familyPage } from '@/lib/summary/family/family-page';
import { mayBeApproved } from '@/lib/summary/family/help-boxes';
import { readFamilyForm, saysItFits, type TypedFamily } from '@/lib/summary/family/read-family-form';
import { showDay } from '@/lib/units/calendar-day';

/** What came of the form: boxes that stop it, or the page to be read before it is approved; everything typed comes back. */
export type FamilyFormState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: TypedFamily | null;
  readonly page: FamilyPage | null;
};

const NO_PHONE = 'The page does not say whom to call by day and by night. Type both above, then show it again.';

/** Shows the page as it would stand, or freezes it as approved: only a page that was shown just so can be approved. */
export async function familyPageAction(_before: FamilyFormState, form: FormData): Promise<FamilyFormState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', visitId = '', submissionId = '', intent = '', shown = '' } = typed;
  const { visit, limbs, texts, analysis, clinic, details, against, today } = await loadFamily(therapist, patientId, visitId);
  const read = readFamilyForm(typed, limbs, visit.day, against);
  if (read.kind === 'refused') return { errors: read.errors, typed, page: null };
  const measured = familyFacts(analysis, visit.day, read.choice.person);
  if (!measured) return { errors: { limb: 'This limb has no ladder at this visit.' }, typed, page: null };
  const facts = { ...measured, help: familyHelp(analysis, read.choice.person, emergencyOf(details)) };
  const page = familyPage(read.choice, facts, texts[read.choice.language], clinic.name, { by: therapist.name, day: today });
  if (intent !== 'approve') return { errors: {}, typed, page };
  const death = deathIn(analysis.record.phases ?? []);
  if (death) return { errors: { form: `Died on ${showDay(death.from)}. No page is approved.` }, typed, page };
  if (!mayBeApproved(page)) return { errors: { form: NO_PHONE }, typed, page };
  if (shown !== JSON.stringify(page))
    return { errors: { form: 'The page has changed since it was shown. Read it again, then approve it.' }, typed, page };
  const despite = saysItFits(read.choice.right) ? against.outside(read.choice.person) : [];
  const documentId = await approveFamilyPage(therapist, { visitId, submissionId, page, despite });
  if (!documentId) return { errors: { form: 'This visit is not in your clinic. Nothing was saved.' }, typed, page };
  redirect(`/patients/${patientId}/family/${documentId}`);
}
