import type { Metadata } from 'next';
import { requireRole } from '@/app/_auth/therapist';
import { ClinicTitle } from '@/app/clinic/clinic-title';
import { SettingChanges } from '@/app/clinic/setting-changes';
import { historyOfSetting } from '@/db/clinic/clinic';
import { clinicDetailsOf, DETAILS_KEY } from '@/db/clinic/clinic-details';
import { peopleOf } from '@/db/people/people';
import { emergencyNumber } from '@/lib/summary/family/emergency-number';
import { ClinicDetailsForm } from './clinic-details-form';
import { timeZones } from './time-zones';

export const metadata: Metadata = { title: 'Name, address, units' };

/** What the clinic is called, where pieces are delivered, and what it measures in. */
export default async function ClinicDetailsPage({ searchParams }: { searchParams: Promise<{ saved?: string }> }) {
  const { saved } = await searchParams;
  const therapist = await requireRole('lead');
  const [details, history, people] = await Promise.all([
    clinicDetailsOf(therapist),
    historyOfSetting(therapist, DETAILS_KEY),
    peopleOf(therapist),
  ]);
  const { address, phone, emergency = '', setUp = {}, posture = '', ...own } = details;
  const measured = Object.fromEntries(
    Object.entries(setUp).flatMap(([limb, { zero, direction, interval, unit = own.lengthUnit }]) => [
      [`${limb}Zero`, zero],
      [`${limb}Direction`, direction],
      [`${limb}Interval`, interval],
      [`${limb}Unit`, unit],
    ]),
  );
  return (
    <main id="main">
      <ClinicTitle title="Name, address, units">
        <p className="secondary">What was typed keeps its unit: a change holds for what is typed from now on.</p>
      </ClinicTitle>
      {saved !== undefined && <p role="status">Saved.</p>}
      <ClinicDetailsForm
        key={history.length}
        number={history.length}
        start={{ ...own, ...measured, posture, emergency, address: address.join('\n'), phone: phone ?? '' }}
        zones={timeZones(own.timeZone)}
        proposedEmergency={emergencyNumber(own.timeZone)}
      />
      <SettingChanges history={history} people={people} timeZone={own.timeZone} />
    </main>
  );
}
