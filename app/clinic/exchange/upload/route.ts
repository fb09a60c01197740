import { requireActing } from '@/app/_auth/therapist';
import { besideTheServer, TOO_MUCH } from '@/app/_exchange/beside-the-server';
import { saidCookie } from '@/app/_exchange/said-of-file';
import { MOST_BYTES, NOT_TAKEN } from '@/app/_exchange/upload';
import { postedText } from '@/app/_form/posted';
import { keepUpload } from '@/db/exchange/imports';

/** What a form adds around its file, bytes. */
const FORM_BYTES = 10_000;

/** Takes a file in to be looked at; nothing of it is in anybody's record yet. Goes to its page, or back with the reason. */
export async function POST(request: Request): Promise<Response> {
  const therapist = await requireActing('lead');
  const form = await formOf(request);
  if (form === 'too large') return goingTo('/clinic/exchange?refused=too large', [NOT_TAKEN[form]]);
  const file = form?.get('file');
  const bytes = new Uint8Array(file instanceof File ? await file.arrayBuffer() : []);
  const given = { fileName: file instanceof File ? file.name : '', bytes, sheet: form ? (postedText(form).sheet ?? '') : '' };
  const taken = await besideTheServer('take', given).catch(() => ({ kind: 'refused', reason: TOO_MUCH }) as const);
  if (taken.kind === 'refused') return goingTo('/clinic/exchange?refused=file', [taken.reason]);
  return goingTo(`/clinic/exchange/${await keepUpload(therapist, taken.upload)}`, taken.said);
}

function goingTo(to: string, said: readonly string[]): Response {
  return new Response(null, { status: 303, headers: { Location: encodeURI(to), ...saidCookie(said) } });
}

/** A form with its file, read no further than the largest that is taken; undefined when there is none. */
async function formOf(request: Request): Promise<FormData | undefined | 'too large'> {
  const parts: BlobPart[] = [];
  let size = 0;
  for await (const chunk of request.body ?? []) {
    size += chunk.length;
    if (size > MOST_BYTES + FORM_BYTES) return 'too large';
    parts.push(chunk);
  }
  const type = request.headers.get('Content-Type') ?? '';
  if (!type.startsWith('multipart/form-data')) return undefined;
  return new Response(new Blob(parts), { headers: { 'Content-Type': type } }).formData().catch(() => undefined);
}
