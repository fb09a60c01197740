import type { Metadata } from 'next';
import { deviceInWords } from '@/app/_auth/device-in-words';
import { offerFactor } from '@/app/_auth/second-factor';
import { openSession, requireTherapist } from '@/app/_auth/therapist';
import { dayAndTime } from '@/app/_shell/day-and-time';
import { clinicOf } from '@/db/clinic/clinic';
import { ownProof } from '@/db/people/own-account';
import { factorOf } from '@/db/people/second-factor';
import { sessionsOf } from '@/db/people/sessions';
import styles from './account.module.css';
import { FactorOn } from './factor-on';
import { OfferFactor } from './offer-factor';
import { OwnSessions } from './own-sessions';
import { PasswordForm } from './password-form';

export const metadata: Metadata = { title: 'Your account' };

/** A person's own ways in: password, second factor, and where they are signed in. */
export default async function AccountPage() {
  const therapist = await requireTherapist('/account');
  const [clinic, factor, sessions] = [await clinicOf(therapist), await factorOf(therapist), await sessionsOf(therapist)];
  const { email } = await ownProof(therapist);
  const clock = dayAndTime(clinic.timeZone);
  const own = (await openSession())?.id;
  return (
    <main id="main">
      <div className="title-row">
        <div>
          <h1>Your account</h1>
          <p className="secondary">
            {therapist.name}, {email}, {therapist.role} at {clinic.name}.
          </p>
        </div>
      </div>
      <div className={`stack ${styles.account}`}>
        <PasswordForm />
        {factor ? (
          <FactorOn since={clock.format(factor.since)} codesLeft={factor.codesLeft} />
        ) : (
          <OfferFactor offer={await offerFactor({ id: therapist.id, email }, clinic.name)} />
        )}
        <OwnSessions
          sessions={sessions.map((one) => ({
            id: one.id,
            device: deviceInWords(one.userAgent),
            address: one.ipAddress && one.ipAddress !== 'unknown' ? one.ipAddress : 'not known',
            since: clock.format(one.createdAt),
            lastUsed: clock.format(one.lastUsedAt ?? one.createdAt),
            isThis: one.id === own,
          }))}
        />
      </div>
    </main>
  );
}
