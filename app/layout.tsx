import './globals.css';
import type { Metadata, Viewport } from 'next';
import type { ReactNode } from 'react';
import { currentTherapist } from '@/app/_auth/therapist';
import { clinicOf } from '@/db/clinic/clinic';
import { RememberTyped } from './_form/remember-typed';
import { FONTS } from './_look/fonts';
import { OfflineCare } from './_offline/offline-care';
import { signedOn } from './_offline/signed-on';
import { ClientNavigation } from './_shell/client-navigation';
import { PageHead } from './_shell/page-head';
import { ReachableScrollers } from './_shell/reachable-scrollers';
import { TapeLine } from './_shell/tape-line';
import { TroubleBanner } from './_shell/trouble-banner';

export const metadata: Metadata = { title: { default: 'Rungwise', template: '%s · Rungwise' }, robots: { index: false, follow: false } };

export const viewport: Viewport = {
  themeColor: [
    { media: '(prefers-color-scheme: light)', color: '#fdfdfb' },
    { media: '(prefers-color-scheme: dark)', color: '#172126' },
  ],
};

/** The frame of every page. It guards nothing: each page and action asks for its therapist itself. */
export default async function Layout({ children }: { children: ReactNode }) {
  const therapist = await currentTherapist();
  return (
    <html lang="en" className={FONTS}>
      <body>
        {therapist ? <PageHead clinic={await clinicOf(therapist)} therapist={therapist} /> : <TapeLine />}
        {therapist && <TroubleBanner />}
        <OfflineCare signed={therapist ? signedOn(therapist) : null} />
        {children}
        <ClientNavigation />
        <RememberTyped />
        <ReachableScrollers />
      </body>
    </html>
  );
}
