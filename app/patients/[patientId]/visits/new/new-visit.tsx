'use client';

import { Sheet } from '@/app/_sheet/sheet';
import type { SheetData } from '@/app/_sheet/sheet-data';
import { finishVisit } from './actions';

/** The sheet of a new visit: finishing saves it. */
export function NewVisit({ data }: { data: SheetData }) {
  return (
    <Sheet
      data={data}
      finishWords="Finish visit"
      finish={(submissionId, form, leftOpen) => finishVisit(data.patientId, submissionId, form, leftOpen)}
    />
  );
}
