import type { ReactNode } from 'react';

/** Head of a page about the clinic: what it is, in a sentence what it is for, and the way back. */
export function ClinicTitle({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <div className="title-row">
      <div>
        <h1>{title}</h1>
        {children}
      </div>
      <a className="button" href="/clinic" data-soft="">
        Back to the clinic
      </a>
    </div>
  );
}
