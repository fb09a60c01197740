import { z } from 'zod';
import { requireActing, requireRole } from '@/app/_auth/therapist';
import { postedJson } from '@/app/_sheet/posted-json';
import { metDraft } from '@/app/_sheet/read-sheet-data';
import { clinicOf } from '@/db/clinic/clinic';
import { discardDraft, draftOf, keepDraft } from '@/db/patients/drafts';
import { patientHead } from '@/db/patients/patients';
import { visitOfSubmission } from '@/db/patients/visits';
import { visitFormSchema } from '@/lib/visit-form/visit-form-schema';

const KIND = z.string().regex(/^(visit|correction:[0-9a-f-]{36})$/);
const sent = z.object({
  kind: KIND,
  version: z.number().int().min(0),
  content: z.object({ form: visitFormSchema, submissionId: z.uuid(), base: z.number().int().min(1).optional() }),
});

type Place = { readonly params: Promise<{ patientId: string }> };

/** How the draft of a sheet (of a new visit, unless it is said) stands: as last kept, or null. Asked by a page that is shown again. */
export async function GET(request: Request, { params }: Place): Promise<Response> {
  const therapist = await requireRole('lead', 'therapist');
  const kind = KIND.safeParse(new URL(request.url).searchParams.get('kind') ?? 'visit');
  if (!kind.success) return new Response(null, { status: 400 });
  const { patientId } = await params;
  if (!(await patientHead(therapist, patientId))) return new Response(null, { status: 404 });
  const { timeZone } = await clinicOf(therapist);
  const draft = metDraft(await draftOf(therapist, patientId, kind.data), timeZone) ?? null;
  return Response.json({ draft }, { headers: { 'cache-control': 'no-store' } });
}

/** Keeps the draft of a sheet over the version it started from; answers with the newer one when another window was faster. */
export async function POST(request: Request, { params }: Place): Promise<Response> {
  const therapist = await requireActing('lead', 'therapist');
  const posted = await postedJson(request, sent);
  if ('refused' in posted) return posted.refused;
  const { patientId } = await params;
  const { kind, version, content } = posted.read;
  const kept = await keepDraft(therapist, patientId, kind, { version, content });
  if (kept.kind === 'kept') return Response.json({ kind: 'kept', version: kept.version });
  const { timeZone } = await clinicOf(therapist);
  const draft = metDraft(kept.draft, timeZone) ?? null;
  const savedAs = draft || kind !== 'visit' ? undefined : await visitOfSubmission(therapist, content.submissionId);
  return Response.json({ kind: 'newer', draft, ...(savedAs ? { savedAs } : {}) }, { status: 409 });
}

/** Gives the draft up. */
export async function DELETE(request: Request, { params }: Place): Promise<Response> {
  const therapist = await requireActing('lead', 'therapist');
  const kind = KIND.safeParse(new URL(request.url).searchParams.get('kind'));
  if (!kind.success) return new Response(null, { status: 400 });
  await discardDraft(therapist, (await params).patientId, kind.data);
  return Response.json({ kind: 'given-up' });
}
