'use client';

import { usePathname } from 'next/navigation';
import { useEffect, useState } from 'react';
import type { Signed } from './care';
import { keepsSomething } from './flag';
import { LandedLines } from './landed-lines';
import type { Landed } from './send-waiting';

/**
 * Looks after what this device keeps for the time without a connection, and says what became of visits that waited. A device that keeps nothing,
 * as most, fetches nothing for it.
 */
export function OfflineCare({ signed }: { readonly signed: Signed | null }) {
  const path = usePathname();
  const [landed, setLanded] = useState<readonly Landed[]>([]);
  useEffect(() => {
    let isGone = false;
    const look = async () => {
      if (!keepsSomething() || path === '/offline') return;
      const { care } = await import('./care');
      const found = await care(signed, path).catch(() => []);
      if (!isGone) setLanded(found);
    };
    void look();
    window.addEventListener('online', look);
    return () => {
      isGone = true;
      window.removeEventListener('online', look);
    };
  }, [path, signed]);
  if (landed.length === 0) return null;
  return (
    <div className="refused-box no-print" role="status">
      <LandedLines landed={landed} />
    </div>
  );
}
