import type { Metadata } from 'next';
import { currentTherapist } from '@/app/_auth/therapist';
import { buildId } from '@/app/_offline/build-id';
import { Desk } from '@/app/_offline/desk';
import { signedOn } from '@/app/_offline/signed-on';
import { ProtocolLine } from '@/app/_shell/protocol-line';

export const metadata: Metadata = { title: 'Without a connection' };

/** Opens without a connection, and so without a guard: there is nothing of a clinic in it. What it shows lies on the device, under a code. */
export default async function OfflinePage() {
  const therapist = await currentTherapist();
  const mayMeasure = therapist !== undefined && therapist.role !== 'read-only';
  return (
    <main id="main">
      <h1>Without a connection</h1>
      <Desk build={buildId()} person={mayMeasure ? signedOn(therapist).person : null} />
      <ProtocolLine />
    </main>
  );
}
