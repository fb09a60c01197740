import Link from 'next/link';
import type { ApprovedPage } from '@/db/documents/family-pages';

/** The family pages that were approved, the newest first; nothing while there is none. */
export function FamilyPagesPanel({ pages, timeZone }: { pages: readonly ApprovedPage[]; timeZone: string }) {
  if (pages.length === 0) return null;
  const clock = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeZone });
  return (
    <section className="panel" aria-labelledby="family-pages-head">
      <h2 id="family-pages-head">Family pages</h2>
      <ul className="plain-list">
        {pages.map((one) => (
          <li key={one.documentId}>
            <Link href={`/patients/${one.patientId}/family/${one.documentId}`} prefetch={false}>
              {one.page.title}
            </Link>
            {`, approved ${clock.format(one.at)}${one.byName ? ` by ${one.byName}` : ''}`}
          </li>
        ))}
      </ul>
    </section>
  );
}
