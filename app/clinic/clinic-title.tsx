import Link from 'next/link';
import type { ReactNode } from 'react';

/** Head of a page about the clinic: what it is, in a sentence what it is for, and the way back. */
export function ClinicTitle({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <div className="title-row">
      <div>
        <h1>{title}</h1>
        {children}
      </div>
      <Link className="button" href="/clinic" prefetch={false}>
        Back to the clinic
      </Link>
    </div>
  );
}
