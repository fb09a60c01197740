'use client';

import { useRouter } from 'next/navigation';
import { useEffect } from 'react';
import styles from './today.module.css';

const AGAIN_MS = 4000;

/** Says that some patients are still being looked at for today, and asks again until none is. Without script, a reload does the same. */
export function BehindLine({ behind, patients }: { behind: number; patients: number }) {
  const router = useRouter();
  useEffect(() => {
    const timer = setInterval(() => {
      if (document.visibilityState === 'visible') router.refresh();
    }, AGAIN_MS);
    return () => clearInterval(timer);
  }, [router]);
  return (
    <p className={styles.behindLine} role="status">
      {`${behind} of ${patients} ${patients === 1 ? 'patient is' : 'patients are'} still being looked at for today; this list may change.`}
    </p>
  );
}
