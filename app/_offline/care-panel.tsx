import { useEffect, useState } from 'react';
import { care, type Signed } from './care';
import { LandedLines } from './landed-lines';
import type { Landed } from './send-waiting';

/** Looks after what this device keeps at every page (`care`), and says what became of visits that waited. */
export function CarePanel({ signed, path }: { readonly signed: Signed | null; readonly path: string }) {
  const [landed, setLanded] = useState<readonly Landed[]>([]);
  useEffect(() => {
    let isGone = false;
    const look = async () => {
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
