import clsx from 'clsx';
import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { requireRole } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { besideTheServer, TOO_MUCH } from '@/app/_exchange/beside-the-server';
import { ImportProgress } from '@/app/_exchange/import-progress';
import { IMPORT_STATES, itemsInWords } from '@/app/_exchange/import-words';
import { MappingForm } from '@/app/_exchange/mapping-form';
import { saidOfFile } from '@/app/_exchange/said-of-file';
import { WhatWasRead } from '@/app/_exchange/what-was-read';
import { clinicOf } from '@/db/clinic/clinic';
import { policyOf } from '@/db/clinic/policy';
import { uploadOf } from '@/db/exchange/imports';
import { importWithCounts } from '@/db/exchange/read-imports';
import type { Therapist } from '@/db/therapist';
import { continueAction, keepMappingAction, lineUpAction, stopAction, takeNextAction, undoAction } from '../actions';

export const metadata: Metadata = { title: 'A file brought in' };

type Props = { readonly params: Promise<{ importId: string }>; readonly searchParams: Promise<{ stayed?: string }> };

/** One file that was brought in: how it is to be read, what comes of it, how far it is brought in, and the way back. */
export default async function ImportPage({ params, searchParams }: Props) {
  const therapist = await requireRole('lead');
  const [{ importId }, { stayed }] = [await params, await searchParams];
  const found = await importWithCounts(therapist, importId);
  if (!found) notFound();
  const { counts, state } = found;
  const all = Object.values(counts).reduce((sum, items) => sum + items, 0);
  return (
    <main id="main">
      <div className="title-row">
        <div>
          <h1>{found.fileName || 'A file brought in'}</h1>
          <p className="secondary">{IMPORT_STATES[state]}</p>
        </div>
        <a className="button" href="/clinic/exchange" data-soft="">
          Back
        </a>
      </div>
      {stayed && (
        <p className="refused-box" role="alert">
          {`These stay, because their records went on since: ${stayed}.`}
        </p>
      )}
      <div className="stack">
        {state === 'reading' && <Reading therapist={therapist} importId={importId} />}
        {state === 'open' && (
          <section className="panel" aria-label="Bringing in">
            <ImportProgress importId={importId} waiting={counts.waiting ?? 0} all={all} takeNext={takeNextAction} />
            <div className="actions">
              <noscript>
                <OneButton importId={importId} action={continueAction} words="Bring in the next patients" main />
              </noscript>
              <OneButton importId={importId} action={stopAction} words="Stop" />
            </div>
            <p className="secondary small">Each patient comes in whole or not at all. You may leave this page and come back.</p>
          </section>
        )}
        {all > 0 && (
          <section className="panel" aria-labelledby="what-became">
            <h2 id="what-became">What became of {all === 1 ? 'the patient' : `the ${all} patients`}</h2>
            <ul>
              {Object.entries(counts).map(([one, items]) => (
                <li key={one}>{itemsInWords(one as keyof typeof counts, items)}</li>
              ))}
            </ul>
            {found.taken.length > 0 && (
              <p>
                {found.taken.map(({ patientId, reference }, index) => (
                  <span key={patientId}>
                    {index > 0 && ', '}
                    <a href={`/patients/${patientId}`} data-soft="">
                      {reference}
                    </a>
                  </span>
                ))}
                {found.taken.length < (counts.new ?? 0) + (counts.extended ?? 0) && ' and more'}
              </p>
            )}
            {found.worded.length > 0 && (
              <ul className="plain-list">
                {found.worded.map(({ id, reference, patientId, words }) => (
                  <li key={id}>
                    {patientId ? (
                      <a href={`/patients/${patientId}`} data-soft="">
                        {words}
                      </a>
                    ) : (
                      `${reference ?? ''}: ${words}`
                    )}
                  </li>
                ))}
              </ul>
            )}
          </section>
        )}
        {(state === 'done' || state === 'stopped') && (counts.new || counts.extended) && (
          <details className="as-table">
            <summary>Take the whole import back</summary>
            <p>
              New patients and added visits leave the records again. A patient whose record went on since stays. The history keeps that they
              were here.
            </p>
            <OneButton importId={importId} action={undoAction} words="Take it back" />
          </details>
        )}
      </div>
    </main>
  );
}

async function Reading({ therapist, importId }: { readonly therapist: Therapist; readonly importId: string }) {
  const upload = await uploadOf(therapist, importId);
  if (!upload) return null;
  const policy = await policyOf(therapist);
  const today = todayIn((await clinicOf(therapist)).timeZone);
  const read = await besideTheServer('look', { upload, mapping: upload.mapping, today, policy }).catch(() => undefined);
  const said = await saidOfFile();
  const open = read?.sheet ? read.sheet.missing.length > 0 : false;
  return (
    <>
      {said.length > 0 && (
        <p className="secondary" role="status">
          {said.join(' ')}
        </p>
      )}
      {!read && (
        <p className="refused-box" role="alert">
          {TOO_MUCH}
        </p>
      )}
      {read?.sheet && (
        <MappingForm importId={importId} {...read.sheet} lost={read.lost} thisYear={Number(today.slice(0, 4))} save={keepMappingAction} />
      )}
      {read && !open && <WhatWasRead read={read} reportAt={`/clinic/exchange/${importId}/report`} />}
      <div className="actions">
        {read && read.patients > 0 && (
          <OneButton
            importId={importId}
            action={lineUpAction}
            words={read.patients === 1 ? 'Bring in this patient' : `Bring in ${read.patients} patients`}
            main
          />
        )}
        <OneButton importId={importId} action={stopAction} words="Let the file go" />
      </div>
    </>
  );
}

function OneButton({
  importId,
  action,
  words,
  main = false,
}: {
  readonly importId: string;
  readonly action: (form: FormData) => Promise<void>;
  readonly words: string;
  readonly main?: boolean;
}) {
  return (
    <form action={action}>
      <input type="hidden" name="import" value={importId} />
      <button type="submit" className={clsx('button', main && 'main')}>
        {words}
      </button>
    </form>
  );
}
