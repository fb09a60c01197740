import { requireRole } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { besideTheServer } from '@/app/_exchange/beside-the-server';
import { fileResponse } from '@/app/_exchange/file-response';
import { clinicOf } from '@/db/clinic/clinic';
import { uploadOf } from '@/db/exchange/imports';

/** Every cell of a file that could not be read, as a table to mend it by. */
export async function GET(_request: Request, { params }: { params: Promise<{ importId: string }> }): Promise<Response> {
  const therapist = await requireRole('lead');
  const upload = await uploadOf(therapist, (await params).importId);
  if (!upload) return new Response('There is no such file.', { status: 404 });
  const today = todayIn((await clinicOf(therapist)).timeZone);
  return fileResponse(
    await besideTheServer('report', { upload, mapping: upload.mapping, today }),
    'not-read.csv',
    'text/csv; charset=utf-8; header=present',
  );
}
