import type { ApprovedPage } from '@/db/documents/family-pages';
import { type KeptReply, replyParts } from '@/lib/observations/family-reply';
import { asSentence } from '@/lib/units/as-sentence';
import { showDay } from '@/lib/units/calendar-day';

type Props = {
  readonly pages: readonly ApprovedPage[];
  /** What the family sent back, the oldest first. */
  readonly replies: readonly KeptReply[];
  /** Ids of those that are still to be answered. */
  readonly asked: ReadonlySet<string>;
  readonly patientId: string;
  readonly timeZone: string;
};

/** The family pages that were approved, the newest first, and what the family sent back; nothing while there is neither. */
export function FamilyPagesPanel({ pages, replies, asked, patientId, timeZone }: Props) {
  if (pages.length === 0 && replies.length === 0) return null;
  const clock = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeZone });
  const [newest] = [...replies].reverse();
  return (
    <section className="panel" aria-labelledby="family-pages-head">
      <div className="panel-head">
        <h2 id="family-pages-head">Family pages</h2>
        {newest && (
          <a href={`/patients/${patientId}/replies`} data-soft="">
            {asked.size === 0 ? 'Told by the family' : `Told by the family, ${asked.size} not answered`}
          </a>
        )}
      </div>
      {newest && (
        <p>{`Told by the family, ${showDay(newest.day)} at ${newest.time}: ${asSentence(replyParts(newest))}${asked.has(newest.replyId) ? ' Not answered yet.' : ''}`}</p>
      )}
      <ul className="plain-list">
        {pages.map((one) => (
          <li key={one.documentId}>
            <a href={`/patients/${one.patientId}/family/${one.documentId}`} data-soft="">
              {one.page.title}
            </a>
            {`, approved ${clock.format(one.at)}${one.byName ? ` by ${one.byName}` : ''}`}
          </li>
        ))}
      </ul>
    </section>
  );
}
