'use client';

import { useRouter } from 'next/navigation';
import { useCallback, useEffect, useRef, useState } from 'react';

/** How far it is brought in; brings the next patients in until none waits, the page is left, or it is stopped. */
export function ImportProgress({
  importId,
  waiting,
  all,
  takeNext,
}: {
  readonly importId: string;
  readonly waiting: number;
  readonly all: number;
  readonly takeNext: (importId: string) => Promise<number>;
}) {
  const [left, setLeft] = useState(waiting);
  const [failed, setFailed] = useState(false);
  const going = useRef(true);
  const router = useRouter();
  const run = useCallback(async () => {
    setFailed(false);
    try {
      let now = waiting;
      while (now > 0 && going.current) {
        now = await takeNext(importId);
        setLeft(now);
      }
      if (going.current) router.refresh();
    } catch {
      setFailed(true);
    }
  }, [importId, waiting, takeNext, router]);
  useEffect(() => {
    going.current = true;
    run();
    return () => {
      going.current = false;
    };
  }, [run]);
  return (
    <div>
      <progress max={all} value={all - left} aria-label="Patients brought in" />
      <p role="status">
        {all - left} of {all} patients brought in.
      </p>
      {failed && (
        <p className="refused-box" role="alert">
          The server did not answer. What was brought in is kept.{' '}
          <button type="button" className="button" onClick={run}>
            Go on
          </button>
        </p>
      )}
    </div>
  );
}
