import { and, asc, eq, inArray } from 'drizzle-orm';
import { phaseOn } from '@/lib/course/phases';
import { askedBy, type FamilyReply, type ReplyAnswer } from '@/lib/observations/family-reply';
import { FAMILY_REPLY } from '@/lib/observations/family-reply-schema';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { getDatabase } from '../client';
import { limitOf } from '../clinic/policy';
import { coursesOfPatients } from '../patients/course';
import { invalidateWork } from '../patients/invalidate-work';
import { notedSteps } from '../patients/noted';
import { notedRevision } from '../schema/schema';
import { deterministicId } from '../sql/deterministic-id';
import { inTransaction } from '../transaction';
import type { SharedLink } from './share-links';

/** How the sending of a reply ended. `ended`: the course of care came to its end. */
export type ReplySent =
  | { readonly kind: 'sent' | 'already-sent' | 'ended' | 'not-now' }
  | { readonly kind: 'too-many'; readonly most: number };

/** Others who write by the same link on the same day and may come in between. */
const TRIES = 5;

/** Who wrote a row that came by a link: the link itself. Nobody who signs in has such an id. */
export function authorOf(linkId: string): string {
  return `link ${linkId}`;
}

/** Whether replies are taken by a link that opens: not once the course of care has ended. */
export async function mayReply(link: SharedLink, day: CalendarDay): Promise<boolean> {
  const course = (await coursesOfPatients(link, [link.patientId])).get(link.patientId);
  return phaseOn(course?.phases ?? [], day)?.kind !== 'ended';
}

/** A reply as it came, whether it asks the clinic for anything, and what became of it: never the clinic's own words about it, nor who wrote them. */
export type SentReply = FamilyReply & { readonly became: Pick<ReplyAnswer, 'did' | 'day'> | null; readonly asks: boolean };

/** What was sent by a link and what became of it, the oldest first; nothing that came by another link. */
export async function repliesBy(link: SharedLink): Promise<readonly SentReply[]> {
  const database = await getDatabase();
  const { thing, content, kind, clinicId, patientId, number, at, id } = notedRevision;
  const sent = database.select({ thing }).from(notedRevision).where(sentBy(link));
  const states = await database
    .select({ thing, content })
    .from(notedRevision)
    .where(and(eq(clinicId, link.clinicId), eq(patientId, link.patientId), eq(kind, 'reply'), inArray(thing, sent)))
    .orderBy(asc(number), asc(at), asc(id));
  const wearToldLowPct = await limitOf(link, 'wearToldLowPct');
  const first = new Map<string, SentReply>();
  for (const { thing: id, content: state } of states) {
    const came = first.get(id) ?? asItCame(FAMILY_REPLY.parse(state));
    const answer = state === null ? null : FAMILY_REPLY.parse(state).answer;
    first.set(id, { ...came, became: answer && { did: answer.did, day: answer.day } });
  }
  return [...first.values()];

  function asItCame(reply: FamilyReply): SentReply {
    return { ...reply, became: null, asks: askedBy({ ...reply, answer: null }, { wearToldLowPct }) !== null };
  }
}

/**
 * Keeps a reply that came by a link, as the first state of a noted thing whose author is the link; sealed like every deed.
 *
 * The n-th reply of a link and day has an id of its own that follows from the three, so that of two sent at once for the last place one is
 * refused by the database itself. Nothing of the record changes but that its stored lines are renewed.
 */
export async function sendReply(link: SharedLink, reply: FamilyReply, submissionId: string, at = new Date()): Promise<ReplySent> {
  if (!(await mayReply(link, reply.day))) return { kind: 'ended' };
  const database = await getDatabase();
  const most = await limitOf(link, 'familyRepliesADay');
  const own = `${authorOf(link.linkId)}/${submissionId}`;
  for (let attempt = 0; attempt < TRIES; attempt++) {
    if ((await database.$count(notedRevision, and(sentBy(link), eq(notedRevision.submissionId, own)))) > 0) return { kind: 'already-sent' };
    const before = await database.$count(notedRevision, and(sentBy(link), eq(notedRevision.day, reply.day)));
    if (before + 1 > most) return { kind: 'too-many', most };
    const thing = deterministicId('reply of a family', link.linkId, reply.day, String(before + 1));
    const steps = notedSteps(
      { id: authorOf(link.linkId), clinicId: link.clinicId },
      link.patientId,
      {
        ...{ submissionId: own, kind: 'reply', thing, expected: 0, day: reply.day, content: FAMILY_REPLY.parse(reply) },
        ...{ deed: 'reply of the family received', reason: null },
      },
      at,
    );
    const written = await inTransaction([...steps, invalidateWork(link, link.patientId)]);
    if (written.kind === 'written') return { kind: 'sent' };
  }
  return { kind: 'not-now' };
}

function sentBy({ linkId, clinicId, patientId }: SharedLink) {
  const { author, kind, number } = notedRevision;
  return and(
    eq(notedRevision.clinicId, clinicId),
    eq(notedRevision.patientId, patientId),
    eq(kind, 'reply'),
    eq(author, authorOf(linkId)),
    eq(number, 1),
  );
}
