import { requireTherapist } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { fileResponse, workbookResponse } from '@/app/_exchange/file-response';
import { partsOf } from '@/app/_exchange/set-parts';
import { SET_STYLES, setStyleNamed } from '@/app/_exchange/set-style';
import { setWorkbook, WORKBOOK_STYLE } from '@/app/_exchange/set-workbook';
import { setZip } from '@/app/_exchange/set-zip';
import { noteExport } from '@/db/clinic/audit-exports';
import { clinicOf } from '@/db/clinic/clinic';
import { policyOf } from '@/db/clinic/policy';
import { patientFiles } from '@/db/exchange/patient-files';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import { transactionBundle } from '@/lib/exchange/fhir/transaction-bundle';
import { bundleText, patientBundle } from '@/lib/exchange/fhir/write-bundle';
import { writeLaddersCsv } from '@/lib/exchange/write-ladders-csv';
import { recordOfFile } from '@/lib/record/patient-file';

/** One patient to take along: a FHIR bundle (`?as=fhir`, or `fhir-transaction` for a server), the ladders file (`ladders`), or a set of tables. The log says who took what. */
export async function GET(request: Request, { params }: { params: Promise<{ patientId: string }> }): Promise<Response> {
  const { patientId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}`);
  const [patient] = await patientFiles(therapist, [patientId]);
  if (!patient) return new Response('There is no such patient in your clinic.', { status: 404 });
  const as = new URL(request.url).searchParams.get('as');
  const [policy, clinic] = [await policyOf(therapist), await clinicOf(therapist)];
  const today = todayIn(clinic.timeZone);
  const { reference } = patient.file.details;
  if (as === 'fhir' || as === 'fhir-transaction') {
    await noteExport(therapist, patientId, as);
    const analysis = analysePatient(recordOfFile(patient.file), policy, today);
    const bundle = patientBundle(patient.file, analysis, new Date().toISOString(), { patientId, clinic });
    return as === 'fhir'
      ? fileResponse(bundleText(bundle), `${reference}.fhir.json`, 'application/fhir+json')
      : fileResponse(bundleText(transactionBundle(bundle)), `${reference}.transaction.fhir.json`, 'application/fhir+json');
  }
  if (as === 'ladders') {
    await noteExport(therapist, patientId, 'ladders');
    return fileResponse(
      writeLaddersCsv([recordOfFile(patient.file)]),
      `${reference}-ladders.csv`,
      'text/csv; charset=utf-8; header=present',
    );
  }
  const once = async function* () {
    yield patient;
  };
  if (as === 'workbook') {
    await noteExport(therapist, patientId, as);
    return workbookResponse(await setWorkbook(once(), partsOf(WORKBOOK_STYLE, policy, today), today), `${reference}.xlsx`);
  }
  const name = setStyleNamed(as);
  if (!name) return new Response('This is not a form that a patient goes out in.', { status: 400 });
  await noteExport(therapist, patientId, name);
  const { style } = SET_STYLES[name];
  const fileName = style.research ? `patient-${name}.zip` : `${reference}-${name}.zip`;
  return fileResponse(setZip(once, partsOf(style, policy, today), style, today), fileName, 'application/zip');
}
