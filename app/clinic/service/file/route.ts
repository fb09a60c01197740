import { requireRole } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { fileResponse } from '@/app/_exchange/file-response';
import { periodNamed } from '@/app/_service/service-period-of';
import { noteExport } from '@/db/clinic/audit-exports';
import { clinicOf } from '@/db/clinic/clinic';
import { storedServiceCounts } from '@/db/service/stored-counts';
import { serviceDictionary, serviceTable } from '@/lib/exchange/service-table';
import { serviceFigures } from '@/lib/service/service-figures';
import { servicePeriod } from '@/lib/service/service-period';

/** The figures of the service as CSV, or the dictionary of that table. The log says who took the figures. */
export async function GET(request: Request): Promise<Response> {
  const lead = await requireRole('lead');
  const { searchParams } = new URL(request.url);
  if (searchParams.get('as') === 'dictionary') return fileResponse(serviceDictionary(), 'service-dictionary.csv', CSV);
  const { timeZone } = await clinicOf(lead);
  const today = todayIn(timeZone);
  const period = servicePeriod(periodNamed(searchParams.get('period')), today);
  const table = serviceTable(serviceFigures(await storedServiceCounts(lead, period), period));
  await noteExport(lead, null, 'service figures');
  return fileResponse(table, `service-${period.choice}-${today}.csv`, CSV);
}

const CSV = 'text/csv; charset=utf-8';
