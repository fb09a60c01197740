import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';

export const metadata: Metadata = { title: 'Not with your role' };

/** Where a person lands who asked for something their role does not cover. */
export default async function NotAllowedPage() {
  const { role } = await requireTherapist('/not-allowed');
  return (
    <main id="main" className="narrow">
      <h1>Your role does not cover this</h1>
      <div className="form">
        <p>You are signed in as {role}. Nothing was changed. The clinic lead can change roles.</p>
        <a className="button main" href="/" data-soft="">
          Go to Today
        </a>
      </div>
    </main>
  );
}
