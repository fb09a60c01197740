import { requireRole } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { fileResponse, workbookResponse } from '@/app/_exchange/file-response';
import { partsOf, randomRank } from '@/app/_exchange/set-parts';
import { SET_STYLES, setStyleNamed } from '@/app/_exchange/set-style';
import { setWorkbook, WORKBOOK_STYLE } from '@/app/_exchange/set-workbook';
import { setZip } from '@/app/_exchange/set-zip';
import { noteExport } from '@/db/clinic/audit-exports';
import { clinicOf } from '@/db/clinic/clinic';
import { policyOf } from '@/db/clinic/policy';
import { everyPatientFile } from '@/db/exchange/patient-files';

/** The whole clinic as a set of tables in one of its styles, packed while it is sent. The log says who took it. */
export async function GET(request: Request): Promise<Response> {
  const therapist = await requireRole('lead');
  const as = new URL(request.url).searchParams.get('as');
  const name = setStyleNamed(as === 'workbook' ? 'raw' : as);
  if (!name) return new Response('This is not a form that a clinic goes out in.', { status: 400 });
  const [policy, { timeZone }] = [await policyOf(therapist), await clinicOf(therapist)];
  const [today, { style }] = [todayIn(timeZone), SET_STYLES[name]];
  await noteExport(therapist, null, as === 'workbook' ? as : name);
  if (as === 'workbook') {
    const made = await setWorkbook(everyPatientFile(therapist), partsOf(WORKBOOK_STYLE, policy, today), today);
    return workbookResponse(made, `clinic-${today}.xlsx`);
  }
  const rank = style.research ? randomRank() : undefined;
  const zip = setZip(() => everyPatientFile(therapist, { rank }), partsOf(style, policy, today), style, today);
  return fileResponse(zip, `clinic-${name}-${style.research ? today.slice(0, 7) : today}.zip`, 'application/zip');
}
