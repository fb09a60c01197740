import { fileResponse } from '@/app/_exchange/file-response';
import { partsOf, randomRank } from '@/app/_exchange/set-parts';
import { SET_STYLES, setStyleNamed } from '@/app/_exchange/set-style';
import { setZip } from '@/app/_exchange/set-zip';
import { requireRole } from '@/app/_session/therapist';
import { todayIn } from '@/app/_session/today';
import { noteExport } from '@/db/clinic/audit-exports';
import { clinicOf } from '@/db/clinic/clinic';
import { policyOf } from '@/db/clinic/policy';
import { everyPatientFile } from '@/db/exchange/patient-files';

/** The whole clinic as a set of tables in one of its styles, packed while it is sent. The log says who took it. */
export async function GET(request: Request): Promise<Response> {
  const therapist = await requireRole('lead');
  const name = setStyleNamed(new URL(request.url).searchParams.get('as'));
  if (!name) return new Response('This is not a form that a clinic goes out in.', { status: 400 });
  const [policy, { timeZone }] = [await policyOf(therapist), await clinicOf(therapist)];
  const [today, { style }] = [todayIn(timeZone), SET_STYLES[name]];
  await noteExport(therapist, null, name);
  const rank = style.research ? randomRank() : undefined;
  const zip = setZip(() => everyPatientFile(therapist, { rank }), partsOf(style, policy, today), style, today);
  return fileResponse(zip, `clinic-${name}-${style.research ? today.slice(0, 7) : today}.zip`, 'application/zip');
}
