import type { Metadata } from 'next';
import { cookies } from 'next/headers';
import styles from '@/app/_family/family.module.css';
import { FamilySheet } from '@/app/_family/family-sheet';
import { shareCookie } from '@/app/_family/share-cookie';
import { sharedPage } from '@/db/documents/share-links';

export const metadata: Metadata = {
  title: { absolute: 'Your page · Su hoja' },
  robots: { index: false, follow: false },
  referrer: 'no-referrer',
};

/** The family page behind a link, for someone without an account and without script. Whatever does not answer looks the same. */
export default async function SharedPage() {
  const cookie = (await cookies()).get(shareCookie().name)?.value ?? '';
  const page = /^[\w-]{43}$/.test(cookie) ? await sharedPage(cookie) : undefined;
  return (
    <main id="main" className={styles.familyPageFrame}>
      {page ? (
        <FamilySheet page={page} />
      ) : (
        <div className={styles.familySheet}>
          <h1>There is nothing here now</h1>
          <p>The link may have run out. Ask your clinic for a new one or for a printed page.</p>
          <p lang="es">Puede que el enlace haya caducado. Pida otro a su clínica, o una hoja impresa.</p>
        </div>
      )}
    </main>
  );
}
