import type { Metadata } from 'next';
import { requireRole } from '@/app/_auth/therapist';
import { ClinicTitle } from '@/app/clinic/clinic-title';
import { clinicOf } from '@/db/clinic/clinic';
import { peopleOf } from '@/db/people/people';
import { StudyForm } from './study-form';

export const metadata: Metadata = { title: 'Begin a measurer study' };

/** What a study is of: people by codes, limbs, measurers, repeats, heights. */
export default async function NewStudyPage() {
  const therapist = await requireRole('lead', 'therapist');
  const people = (await peopleOf(therapist)).filter(({ role, state }) => role !== 'read-only' && state === 'active');
  const { lengthUnit } = await clinicOf(therapist);
  return (
    <main id="main">
      <ClinicTitle title="Begin a measurer study">
        <p className="secondary">
          Colleagues or volunteers do; nobody needs a record here. Five limbs by three measurers twice take about half an hour.
        </p>
      </ClinicTitle>
      <StudyForm people={people.map(({ id, name }) => ({ id, name }))} unit={lengthUnit} submissionId={crypto.randomUUID()} />
    </main>
  );
}
