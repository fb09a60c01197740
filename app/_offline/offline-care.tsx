'use client';

import { usePathname } from 'next/navigation';
import { lazy, Suspense, useEffect, useState } from 'react';
import type { Signed } from './care';
import { keepsSomething } from './flag';

const CarePanel = lazy(async () => ({ default: (await import('./care-panel')).CarePanel }));

/** Looks after what this device keeps for the time without a connection. A device that keeps nothing, as most, fetches nothing for it. */
export function OfflineCare({ signed }: { readonly signed: Signed | null }) {
  const path = usePathname();
  const [caresFor, setCaresFor] = useState<string | null>(null);
  useEffect(() => setCaresFor(keepsSomething() && path !== '/offline' ? path : null), [path]);
  return caresFor === null ? null : (
    <Suspense>
      <CarePanel signed={signed} path={caresFor} />
    </Suspense>
  );
}
