import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { ClinicTitle } from '@/app/clinic/clinic-title';
import { SettingChanges } from '@/app/clinic/setting-changes';
import { clinicOf, historyOfSetting } from '@/db/clinic/clinic';
import { DIARY_KEY, diaryOf } from '@/db/clinic/diary';
import { peopleOf } from '@/db/people/people';
import { WEEKDAYS } from '@/lib/diary/diary';
import { typedDiary } from '@/lib/forms/read-diary-form';
import { showDay } from '@/lib/units/calendar-day';
import { DiaryForm } from './diary-form';

export const metadata: Metadata = { title: 'Working days' };

/** When the clinic works: proposed dates lie on a working day, and a booking on another is asked about. */
export default async function DiaryPage() {
  const therapist = await requireTherapist('/clinic/diary');
  const [diary, clinic, history, people] = await Promise.all([
    diaryOf(therapist),
    clinicOf(therapist),
    historyOfSetting(therapist, DIARY_KEY),
    peopleOf(therapist),
  ]);
  return (
    <main id="main">
      <ClinicTitle title="Working days">
        <p className="secondary">A date that falls on a closed day is proposed for the working day before it, and says so.</p>
      </ClinicTitle>
      {therapist.role === 'lead' ? (
        <DiaryForm key={history.length} number={history.length} start={typedDiary(diary)} spans={diary.closed.length} />
      ) : (
        <section className="panel">
          <p>{`Works on ${diary.weekdays.map((weekday) => WEEKDAYS[weekday]).join(', ')}${diary.capacity ? `; ${diary.capacity} visits a day are usual` : ''}.`}</p>
          <ul>
            {diary.closed.map(({ from, until, why }) => (
              <li key={from}>{`Closed ${showDay(from)} to ${showDay(until)}: ${why}`}</li>
            ))}
          </ul>
        </section>
      )}
      <SettingChanges history={history} people={people} timeZone={clinic.timeZone} />
    </main>
  );
}
