import { actionHeaders, actionId } from '@/tests/built-server';
import type { Random } from '@/tests/cohort/random';

/** What a visit is sent with. */
export type Visit = { readonly form: unknown; readonly leftOpen: readonly string[] };

/** Told after each request: which step it was, the milliseconds it took, and what was wrong with its answer, if anything was. */
export type Tell = (step: string, milliseconds: number, wrong: string | undefined) => void;

/** Waits between two steps, in milliseconds, evenly spread: a step every two seconds, which is faster than any hand with a tape. */
const WAIT_MS = [1000, 3000] as const;

/** Looks at Today, opens a patient and the sheet, keeps a draft twice, saves the visit, reads its result; then the next patient. */
export async function workThroughVisits(
  { address, cookie }: { readonly address: string; readonly cookie: string },
  patientIds: readonly string[],
  { form, leftOpen }: Visit,
  random: Random,
  goOn: () => boolean,
  tell: Tell,
): Promise<void> {
  const saving = actionId('app/patients/[patientId]/visits/new/actions.ts', 'finishVisit');

  /** One request, read to its end; the answer when it is the one wanted. */
  async function ask(step: string, path: string, sent: RequestInit, isRight: (answer: Response) => boolean): Promise<Response | undefined> {
    await new Promise((resolve) => setTimeout(resolve, WAIT_MS[0] + random.uniform() * (WAIT_MS[1] - WAIT_MS[0])));
    if (!goOn()) return undefined;
    const start = performance.now();
    try {
      const answer = await fetch(address + path, { redirect: 'manual', ...sent, headers: { cookie, origin: address, ...sent.headers } });
      const text = await answer.text();
      const right = isRight(answer);
      tell(step, performance.now() - start, right ? undefined : `${answer.status}: ${text.slice(0, 200)}`);
      return right ? answer : undefined;
    } catch (error) {
      tell(step, performance.now() - start, String(error));
      return undefined;
    }
  }

  const page = (step: string, path: string) => ask(step, path, {}, (answer) => answer.status === 200);
  for (let next = 0; goOn(); next++) {
    const patientId = patientIds[next % patientIds.length] ?? '';
    const sheet = `/patients/${patientId}/visits/new`;
    const submissionId = crypto.randomUUID();
    await page('Today', '/');
    await page('patient', `/patients/${patientId}`);
    await page('sheet', sheet);
    for (const version of [0, 1]) {
      const body = JSON.stringify({ kind: 'visit', version, content: { form, submissionId } });
      await ask('draft', `${sheet}/draft`, { method: 'POST', body }, (answer) => answer.status === 200);
    }
    const body = JSON.stringify([patientId, submissionId, form, leftOpen]);
    const headers = actionHeaders(address, cookie, saving);
    const isSaved = (answer: Response) => answer.headers.get('x-action-redirect')?.includes('/visits/') === true;
    const saved = await ask('save', sheet, { method: 'POST', headers, body }, isSaved);
    const result = saved?.headers.get('x-action-redirect')?.split(';')[0];
    if (result) await page('result', result);
  }
}
