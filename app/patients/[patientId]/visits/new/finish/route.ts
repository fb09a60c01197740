import { stringify } from 'devalue';
import { z } from 'zod';
import { requireActing } from '@/app/_auth/therapist';
import { saveNewVisit } from '@/app/_sheet/save-new-visit';

/** Larger than any visit: a stranger may not make the server read more. */
const MOST_BYTES = 300_000;

const sent = z.object({ submissionId: z.uuid(), form: z.unknown(), leftOpen: z.array(z.string().max(400)).max(2000) });

/** Saves a visit that was finished while the server could not be reached. Sent twice, it makes one visit. */
export async function POST(request: Request, { params }: { readonly params: Promise<{ patientId: string }> }): Promise<Response> {
  const therapist = await requireActing('lead', 'therapist');
  const text = await request.text();
  if (text.length > MOST_BYTES) return new Response(null, { status: 413 });
  const read = sent.safeParse(parsed(text));
  if (!read.success) return new Response(null, { status: 400 });
  const { submissionId, form, leftOpen } = read.data;
  const saved = await saveNewVisit(therapist, (await params).patientId, submissionId, form, leftOpen);
  // What the server asks goes with what it knows, which holds maps.
  return new Response(stringify(saved), { headers: { 'cache-control': 'no-store' } });
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
