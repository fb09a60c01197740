'use client';

import { usePathname } from 'next/navigation';
import { useEffect, useState } from 'react';
import type { Signed } from './care';
import type { Landed } from './send-waiting';

/**
 * Looks after what this device keeps for the time without a connection, and says what became of visits that waited. A device that keeps nothing,
 * as most, fetches nothing for it.
 */
export function OfflineCare({ signed }: { readonly signed: Signed | null }) {
  const path = usePathname();
  const [landed, setLanded] = useState<readonly Landed[]>([]);
  const person = signed?.person;
  // biome-ignore lint/correctness/useExhaustiveDependencies: a person brings the same key each time
  useEffect(() => {
    let isGone = false;
    const look = async () => {
      if (!isFlagged() || path === '/offline') return;
      const { care } = await import('./care');
      const found = await care(signed, path).catch(() => []);
      if (!isGone && found.length > 0) setLanded(found);
    };
    void look();
    window.addEventListener('online', look);
    return () => {
      isGone = true;
      window.removeEventListener('online', look);
    };
  }, [path, person]);
  if (landed.length === 0) return null;
  return (
    <div className="refused-box no-print" role="status">
      {landed.map((one, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: two visits of one name may land
        <p key={index}>
          <LandedLine one={one} />
        </p>
      ))}
    </div>
  );
}

/** What became of one visit. */
export function LandedLine({ one }: { readonly one: Landed }) {
  if (one.kind === 'saved')
    return (
      <>
        {`The visit of ${one.name}, finished at ${one.finishedAt} without a connection, is on the server. `}
        <a href={one.href}>Open its result</a>
      </>
    );
  if (one.kind === 'back')
    return (
      <>
        {`The visit of ${one.name} is not saved yet. ${one.why} Its figures are on its sheet. `}
        <a href={one.href}>Open the sheet</a>
      </>
    );
  if (one.kind === 'renewed')
    return (
      <>
        {'The program was renewed: for this device to open without a connection, '}
        <a href="/offline">open its page once</a>.
      </>
    );
  const why = one.why === 'offline' ? 'the server cannot be reached' : 'sign in as whoever finished it, and it is sent';
  return <>{`${one.name === null ? 'A finished visit' : `The finished visit of ${one.name}`} waits on this device: ${why}.`}</>;
}

function isFlagged(): boolean {
  try {
    return localStorage.getItem('rungwise-offline') !== null;
  } catch {
    return false;
  }
}
