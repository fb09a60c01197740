import type { Metadata } from 'next';
import { cookies } from 'next/headers';
import { todayIn } from '@/app/_auth/today';
import styles from '@/app/_family/family.module.css';
import { FamilySheet } from '@/app/_family/family-sheet';
import { ReplyPart } from '@/app/_family/reply-part';
import { shareCookie } from '@/app/_family/share-cookie';
import { mayReply, repliesBy } from '@/db/documents/family-replies';
import { sharedPage } from '@/db/documents/share-links';

export const metadata: Metadata = {
  title: { absolute: 'Your page · Su hoja · Ihr Blatt' },
  robots: { index: false, follow: false },
  referrer: 'same-origin',
};

/** The family page behind a link, for someone without an account and without script, with the form of a reply. Whatever does not answer looks the same. */
export default async function SharedPage({ searchParams }: { searchParams: Promise<{ sent?: string }> }) {
  const cookie = (await cookies()).get(shareCookie().name)?.value ?? '';
  const link = /^[\w-]{43}$/.test(cookie) ? await sharedPage(cookie) : undefined;
  const sent = link ? await repliesBy(link) : [];
  const isOpen = link ? await mayReply(link, todayIn(link.timeZone)) : false;
  return (
    <main id="main" className={styles.familyPageFrame}>
      {link ? (
        <>
          <FamilySheet page={link.page} />
          <ReplyPart page={link.page} sent={sent} justSent={(await searchParams).sent !== undefined} isOpen={isOpen} />
        </>
      ) : (
        <div className={styles.familySheet}>
          <h1>There is nothing here now</h1>
          <p>The link may have run out. Ask your clinic for a new one or for a printed page.</p>
          <p lang="es">Puede que el enlace haya caducado. Pida otro a su clínica, o una hoja impresa.</p>
          <p lang="de">Der Link gilt vielleicht nicht mehr. Fragen Sie in der Klinik nach einem neuen oder nach einem Blatt.</p>
        </div>
      )}
    </main>
  );
}
