'use client';

import type { ReactNode } from 'react';
import { Sheet } from '@/app/_sheet/sheet';
import type { SheetData } from '@/lib/entry/entry-data';
import { finishVisit } from './actions';

/** The sheet of a new visit, what is to be seen to before taping above it: finishing saves it. */
export function NewVisit({ data, children }: { data: SheetData; children: ReactNode }) {
  return (
    <Sheet
      data={data}
      finishWords="Finish visit"
      top={() => children}
      finish={(submissionId, form, leftOpen) => finishVisit(data.patientId, submissionId, form, leftOpen)}
    />
  );
}
