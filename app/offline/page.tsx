import type { Metadata } from 'next';
import { buildId } from '@/app/_offline/build-id';
import { Desk } from '@/app/_offline/desk';
import { ProtocolLine } from '@/app/_shell/protocol-line';

export const metadata: Metadata = { title: 'Without a connection' };

/** Opens without a connection, and so without a guard: there is nothing of a clinic in it. What it shows lies on the device, under a code. */
export default function OfflinePage() {
  return (
    <main id="main">
      <h1>Without a connection</h1>
      <Desk build={buildId()} />
      <ProtocolLine />
    </main>
  );
}
