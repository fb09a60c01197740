import { useCallback, useEffect, useRef, useState } from 'react';
import type { TimeLeft } from '@/app/_auth/time-left';

/** How the session stands for this window: nothing to say, about to end, or ended. */
export type Standing =
  | { readonly kind: 'quiet' }
  | { readonly kind: 'ending'; readonly at: Date; readonly canStay: boolean }
  | { readonly kind: 'ended' };

type Open = Extract<TimeLeft, { kind: 'open' }>;

/**
 * Seconds before the end at which a person is warned.
 *
 * Source: WCAG 2.2, success criterion 2.2.1: at least 20 seconds to answer, by something simple, at least ten times. The server notes use
 * to the minute, so that a minute of these two is sure.
 */
const WARN_SECONDS = 120;
const ASK_AGAIN_MS = 10_000;
const ADDRESS = '/account/session';

/**
 * Watches the session from one window.
 *
 * The server counts, in one place for all windows; this window only asks it when the time it last heard of runs short, and every few
 * seconds from then on. A window in which somebody has typed or pointed since then goes on without a question.
 */
export function useTimeLeft(first: Open): { readonly standing: Standing; readonly stay: () => void } {
  const [standing, setStanding] = useState<Standing>({ kind: 'quiet' });
  const watch = useRef({ person: first.person, dueAt: 0, wasUsed: false, timer: undefined as ReturnType<typeof setTimeout> | undefined });

  const ask = useCallback(async (method: 'GET' | 'POST') => {
    const now = watch.current;
    clearTimeout(now.timer);
    now.wasUsed = false;
    const left = await timeLeft(method);
    if (left?.kind === 'open' && left.person !== now.person) return window.location.reload();
    const short = left?.kind === 'open' ? Math.min(left.idle, left.shift) - WARN_SECONDS : 0;
    if (left) setStanding(standingOf(left));
    const waitMs = Math.max(short * 1000, ASK_AGAIN_MS);
    now.dueAt = Date.now() + waitMs;
    now.timer = setTimeout(() => void ask(now.wasUsed ? 'POST' : 'GET'), waitMs);
  }, []);

  useEffect(() => {
    const now = watch.current;
    const waitMs = Math.max((Math.min(first.idle, first.shift) - WARN_SECONDS) * 1000, 0);
    now.dueAt = Date.now() + waitMs;
    now.timer = setTimeout(() => void ask(now.wasUsed ? 'POST' : 'GET'), waitMs);
    const used = () => {
      now.wasUsed = true;
    };
    const back = () => {
      if (document.visibilityState === 'visible' && Date.now() >= now.dueAt) void ask('GET');
    };
    const uses = ['keydown', 'pointerdown', 'wheel'] as const;
    for (const use of uses) window.addEventListener(use, used, { passive: true });
    document.addEventListener('visibilitychange', back);
    return () => {
      clearTimeout(now.timer);
      for (const use of uses) window.removeEventListener(use, used);
      document.removeEventListener('visibilitychange', back);
    };
  }, [ask, first.idle, first.shift]);

  const stay = useCallback(() => void ask('POST'), [ask]);
  return { standing, stay };
}

function standingOf(left: TimeLeft): Standing {
  if (left.kind === 'ended') return { kind: 'ended' };
  const seconds = Math.min(left.idle, left.shift);
  if (seconds > WARN_SECONDS) return { kind: 'quiet' };
  return { kind: 'ending', at: new Date(Date.now() + seconds * 1000), canStay: left.shift > WARN_SECONDS };
}

/** What the server says; undefined when it cannot be reached, which ends nothing. */
async function timeLeft(method: 'GET' | 'POST'): Promise<TimeLeft | undefined> {
  try {
    const answer = await fetch(ADDRESS, { method, redirect: 'manual' });
    if (answer.type === 'opaqueredirect') return { kind: 'ended' };
    return answer.ok ? await answer.json() : undefined;
  } catch {
    return undefined;
  }
}
