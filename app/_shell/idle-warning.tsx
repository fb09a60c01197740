'use client';

import { useEffect, useRef } from 'react';
import type { TimeLeft } from '@/app/_auth/time-left';
import styles from './idle-warning.module.css';
import { type Standing, useTimeLeft } from './use-time-left';

/** Says in time that the session is about to end, lets it go on by one button, and covers the page once it has ended. */
export function IdleWarning({ left }: { readonly left: Extract<TimeLeft, { kind: 'open' }> }) {
  const { standing, stay } = useTimeLeft(left);
  if (standing.kind === 'ending') return <Ending standing={standing} stay={stay} />;
  return standing.kind === 'ended' ? <Ended /> : null;
}

/** Takes the focus only from where nobody types; typing on in a box counts as staying. */
function Ending({ standing, stay }: { readonly standing: Extract<Standing, { kind: 'ending' }>; readonly stay: () => void }) {
  const button = useRef<HTMLButtonElement>(null);
  const { canStay } = standing;
  useEffect(() => {
    const before = document.activeElement;
    if (!isBox(before)) button.current?.focus();
    const typing = (event: KeyboardEvent) => {
      if (canStay && isBox(event.target)) stay();
    };
    window.addEventListener('keydown', typing);
    return () => {
      window.removeEventListener('keydown', typing);
      if (document.activeElement === document.body && before instanceof HTMLElement) before.focus({ preventScroll: true });
    };
  }, [canStay, stay]);
  return (
    <section className={`${styles.idleWarning} no-print`} role="alertdialog" aria-labelledby="idle-head" aria-describedby="idle-words">
      <h2 id="idle-head">{canStay ? 'Still there?' : 'Your shift is ending'}</h2>
      <p id="idle-words" role="alert">
        {canStay
          ? `Nobody has used this sign-in for a while. It ends at ${clock(standing.at)} unless you stay.`
          : `You have been signed in for a whole shift. It ends at ${clock(standing.at)}; finish what you are typing, then sign in again.`}
      </p>
      {canStay && (
        <button type="button" className="button main" ref={button} onClick={stay}>
          Stay signed in
        </button>
      )}
    </section>
  );
}

/** Nobody reads on over the shoulder of somebody who has gone. What was typed waits below, and is there again after signing in. */
function Ended() {
  const cover = useRef<HTMLDialogElement>(null);
  useEffect(() => cover.current?.showModal(), []);
  return (
    <dialog className={styles.idleEnded} ref={cover} aria-labelledby="ended-head" onCancel={(event) => event.preventDefault()}>
      <h2 id="ended-head">You have been signed out</h2>
      <p>This window waits as you left it, with everything you typed. Sign in again in a new window, then come back here.</p>
      <div className="actions">
        <a className="button main" href="/sign-in" target="_blank" rel="noreferrer">
          Sign in in a new window
        </a>
        <a className="button" href="/sign-in">
          Leave this page
        </a>
      </div>
    </dialog>
  );
}

function isBox(element: unknown): boolean {
  return element instanceof HTMLInputElement || element instanceof HTMLTextAreaElement || element instanceof HTMLSelectElement;
}

function clock(at: Date): string {
  return at.toTimeString().slice(0, 5);
}
