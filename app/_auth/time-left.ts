import { IDLE_SECONDS } from '@/db/people/sessions';

/** How a session stands: seconds until it ends unless it is used, and until the shift ends whatever happens; or that it has ended. */
export type TimeLeft =
  | { readonly kind: 'open'; readonly person: string; readonly idle: number; readonly shift: number }
  | { readonly kind: 'ended' };

/** Seconds that a session has left. */
export function secondsLeft(
  session: { readonly usedAt: Date; readonly expiresAt: Date },
  now = new Date(),
): { readonly idle: number; readonly shift: number } {
  const until = (end: number) => Math.max(0, Math.round((end - now.getTime()) / 1000));
  return { idle: until(session.usedAt.getTime() + IDLE_SECONDS * 1000), shift: until(session.expiresAt.getTime()) };
}
