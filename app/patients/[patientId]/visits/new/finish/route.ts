import { stringify } from 'devalue';
import { z } from 'zod';
import { requireActing } from '@/app/_auth/therapist';
import { postedJson } from '@/app/_sheet/posted-json';
import { saveNewVisit } from '@/app/_sheet/save-new-visit';

const sent = z.object({ submissionId: z.uuid(), form: z.unknown(), leftOpen: z.array(z.string().max(400)).max(2000) });

/** Saves a visit that was finished while the server could not be reached. Sent twice, it makes one visit. */
export async function POST(request: Request, { params }: { readonly params: Promise<{ patientId: string }> }): Promise<Response> {
  const therapist = await requireActing('lead', 'therapist');
  const posted = await postedJson(request, sent);
  if ('refused' in posted) return posted.refused;
  const { submissionId, form, leftOpen } = posted.read;
  const saved = await saveNewVisit(therapist, (await params).patientId, submissionId, form, leftOpen);
  // What the server asks goes with what it knows, which holds maps.
  return new Response(stringify(saved), { headers: { 'cache-control': 'no-store' } });
}
