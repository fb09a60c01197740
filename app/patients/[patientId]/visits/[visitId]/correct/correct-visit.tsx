'use client';

import { useState, useTransition } from 'react';
import { Sheet } from '@/app/_sheet/sheet';
import type { SheetData } from '@/lib/entry/entry-data';
import type { VisitForm } from '@/lib/visit-form/visit-form';
import { type Changes, previewCorrection, saveCorrection, type TheirVersion } from './actions';
import { BothVersions, WhatChanges } from './what-changes';

type Previewed = {
  readonly form: VisitForm;
  readonly submissionId: string;
  readonly leftOpen: readonly string[];
  readonly changes: Changes;
};

/** The sheet of a stored visit: first what the correction changes is shown, then it is saved with its reason. */
export function CorrectVisit({ data, visitId }: { data: SheetData; visitId: string }) {
  const [previewed, setPreviewed] = useState<Previewed | null>(null);
  const [theirs, setTheirs] = useState<TheirVersion | null>(null);
  const [refusal, setRefusal] = useState('');
  const [reason, setReason] = useState('');
  const [busy, startSaving] = useTransition();

  const preview = async (submissionId: string, form: VisitForm, leftOpen: readonly string[]) => {
    const shown = await previewCorrection(data.patientId, visitId, form, leftOpen);
    if (shown.kind !== 'answers') return shown;
    setPreviewed({ form, submissionId, leftOpen, changes: shown });
    setRefusal('');
    return { kind: 'refused' as const, refusals: [] };
  };

  const save = (expectedRevision: number) => {
    if (!previewed || busy) return;
    startSaving(async () => {
      const { form, submissionId, leftOpen } = previewed;
      const stopped = await saveCorrection(data.patientId, visitId, { expectedRevision, submissionId, form, reason, leftOpen }).catch(
        () => ({
          kind: 'refused' as const,
          refusals: [{ where: 'form', reason: 'The server did not answer. The draft is kept; save again when it is back.' }],
        }),
      );
      if (!stopped) return;
      if (stopped.kind === 'asked')
        setRefusal('The record has changed since: press “See what changes” once more for the questions it raises.');
      else if (stopped.kind === 'conflict') setTheirs(stopped.theirs);
      else setRefusal(stopped.refusals.map((one) => one.reason).join(' '));
    });
  };

  const panel = (form: VisitForm) => {
    if (theirs && previewed) {
      return (
        <BothVersions
          theirs={theirs}
          busy={busy}
          onMine={() => save(theirs.revision)}
          visitAddress={`/patients/${data.patientId}/visits/${visitId}`}
          data={data}
        />
      );
    }
    if (previewed?.form !== form) return null;
    return (
      <WhatChanges
        figures={previewed.changes.figures}
        answers={previewed.changes.answers}
        reason={reason}
        refusal={refusal}
        busy={busy}
        onReason={setReason}
        onSave={() => save(data.base ?? 1)}
      />
    );
  };

  return <Sheet data={data} finishWords="See what changes" finish={preview} top={panel} />;
}
