import { MOST_BYTES, uploadFrom } from '@/app/_exchange/upload';
import { requireActing } from '@/app/_session/therapist';
import { keepUpload } from '@/db/imports';

/** What a form adds around its file, bytes. */
const FORM_BYTES = 10_000;

/** Takes a file in to be looked at; nothing of it is in anybody's record yet. Goes to its page, or back with the reason. */
export async function POST(request: Request): Promise<Response> {
  const therapist = await requireActing('lead');
  const file = await fileOf(request);
  const upload = file === 'too large' ? file : await uploadFrom(file?.name ?? '', new Uint8Array((await file?.arrayBuffer()) ?? []));
  const to =
    typeof upload === 'string'
      ? `/clinic/exchange?refused=${encodeURIComponent(upload)}`
      : `/clinic/exchange/${await keepUpload(therapist, upload)}`;
  return new Response(null, { status: 303, headers: { Location: to } });
}

/** The file of a form, read no further than the largest that is taken; undefined when there is none. */
async function fileOf(request: Request): Promise<File | undefined | 'too large'> {
  const parts: BlobPart[] = [];
  let size = 0;
  for await (const chunk of request.body ?? []) {
    size += chunk.length;
    if (size > MOST_BYTES + FORM_BYTES) return 'too large';
    parts.push(chunk);
  }
  const type = request.headers.get('Content-Type') ?? '';
  if (!type.startsWith('multipart/form-data')) return undefined;
  const form = await new Response(new Blob(parts), { headers: { 'Content-Type': type } }).formData().catch(() => undefined);
  const file = form?.get('file');
  return file instanceof File ? file : undefined;
}
