import { openSession, requireActing } from '@/app/_auth/therapist';
import { secondsLeft, type TimeLeft } from '@/app/_auth/time-left';

const NO_STORE = { headers: { 'Cache-Control': 'no-store' } };

/** How long the session of this browser goes on if nobody uses it. Asking is no use of it; without a session it tells just that. */
export async function GET(): Promise<Response> {
  const session = await openSession();
  const left: TimeLeft = session ? { kind: 'open', person: session.therapist.id, ...secondsLeft(session) } : { kind: 'ended' };
  return Response.json(left, NO_STORE);
}

/** Goes on: the session is in use from now. */
export async function POST(): Promise<Response> {
  const therapist = await requireActing();
  const session = await openSession();
  if (!session) return Response.json({ kind: 'ended' } satisfies TimeLeft, NO_STORE);
  const left: TimeLeft = { kind: 'open', person: therapist.id, ...secondsLeft({ ...session, usedAt: new Date() }) };
  return Response.json(left, NO_STORE);
}
