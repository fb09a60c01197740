'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { besideTheServer, partsOf } from '@/app/_exchange/beside-the-server';
import { postedText } from '@/app/_form/posted';
import { clinicOf } from '@/db/clinic/clinic';
import { bringInNext, keepMapping, lineUp, stopImport, uploadOf } from '@/db/exchange/imports';
import { importWithCounts } from '@/db/exchange/read-imports';
import { undoImport } from '@/db/exchange/undo-import';
import { refreshStale } from '@/db/worklist/refresh-work';
import type { PatientFile } from '@/lib/record/patient-file';
import type { CalendarDay } from '@/lib/units/calendar-day';

/** Patients brought in with one request: a second or so, after which the page can say how far it is and be stopped. */
const AT_ONCE = 20;

/** Keeps what was said of how a spreadsheet is to be read; the page then shows what comes of it. */
export async function keepMappingAction(form: FormData): Promise<void> {
  const therapist = await requireActing('lead');
  const id = idOf(form);
  const upload = await uploadOf(therapist, id);
  if (upload) {
    const given = { upload, mapping: upload.mapping, today: await todayOf(therapist), boxes: postedText(form) };
    const mapping = await besideTheServer('map', given);
    if (mapping) await keepMapping(therapist, id, mapping);
  }
  redirect(`/clinic/exchange/${id}`);
}

/** Puts the patients that could be read in line to be brought in. */
export async function lineUpAction(form: FormData): Promise<void> {
  const therapist = await requireActing('lead');
  const id = idOf(form);
  const upload = await uploadOf(therapist, id);
  const patients: PatientFile[] = [];
  if (upload) {
    const given = { upload, mapping: upload.mapping, today: await todayOf(therapist) };
    for await (const some of partsOf('patients', given)) patients.push(...some);
  }
  if (patients.length > 0) await lineUp(therapist, id, patients);
  redirect(`/clinic/exchange/${id}`);
}

/** Brings the next patients in; gives how many still wait. The page calls it until none does. */
export async function takeNextAction(importId: string): Promise<number> {
  const therapist = await requireActing('lead');
  await bringInNext(therapist, String(importId), AT_ONCE);
  const left = (await importWithCounts(therapist, String(importId)))?.counts.waiting ?? 0;
  if (left === 0) await close(therapist, String(importId));
  return left;
}

/** The same for a browser without script: brings some in and shows the page again. */
export async function continueAction(form: FormData): Promise<void> {
  const therapist = await requireActing('lead');
  const id = idOf(form);
  await bringInNext(therapist, id, AT_ONCE);
  if (!(await importWithCounts(therapist, id))?.counts.waiting) await close(therapist, id);
  redirect(`/clinic/exchange/${id}`);
}

/** Stops an import, or lets go of a file that was only looked at. */
export async function stopAction(form: FormData): Promise<void> {
  const therapist = await requireActing('lead');
  const id = idOf(form);
  await stopImport(therapist, id);
  redirect(`/clinic/exchange/${id}`);
}

/** Takes a whole import back; the page names who stays because their record went on. */
export async function undoAction(form: FormData): Promise<void> {
  const therapist = await requireActing('lead');
  const id = idOf(form);
  const undone = await undoImport(therapist, id);
  await renew(therapist);
  const stayed = undone?.stayed.length ? `?stayed=${encodeURIComponent(undone.stayed.slice(0, 20).join(', '))}` : '';
  redirect(`/clinic/exchange/${id}${stayed}`);
}

type Lead = Awaited<ReturnType<typeof requireActing>>;

/** Closes an import of which nothing waits, and brings Today up to it. */
async function close(therapist: Lead, importId: string): Promise<void> {
  await bringInNext(therapist, importId, AT_ONCE);
  await renew(therapist);
}

async function renew(therapist: Lead): Promise<void> {
  await refreshStale(therapist, await todayOf(therapist), { most: AT_ONCE });
}

async function todayOf(therapist: Lead): Promise<CalendarDay> {
  return todayIn((await clinicOf(therapist)).timeZone);
}

function idOf(form: FormData): string {
  return postedText(form).import ?? '';
}
