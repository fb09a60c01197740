import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import { actionHeaders, actionId, type BuiltServer, runScript, signInAt, startBuilt } from '../built-server';
import { startPostgres } from '../postgres-server';
import { PASSWORD, PEOPLE } from './people';
import { roundRobin } from './round-robin';

const ROOT = path.resolve(import.meta.dirname, '../..');
const SHEET = 'app/patients/[patientId]/visits/new/actions.ts';
const WRITERS = 4;
/** Visits that must be acknowledged after one process was killed. */
const AFTER_THE_KILL = 20;

type Seeded = { readonly patientIds: readonly string[]; readonly form: unknown; readonly leftOpen: readonly string[] };

/** What is saved, signed in, counted, drafted or shared at one process holds at the others, and one of them dying costs nobody anything. */
test('three processes on one server: what one does holds at the others, and one killed in mid-save loses nothing', async () => {
  test.setTimeout(120_000);
  const began = Date.now();
  const server = await startPostgres();
  const nowhere = path.join(ROOT, 'test-results/no-such-folder/clinic.db');
  const secrets = { AUTH_SECRET: 'only for browser tests, signs nothing real', AUDIT_KEY: 'only for tests, seals nothing real' };
  const env = { ...secrets, DATABASE_URL: server.url, DATABASE_POOL: '5', DB_FILE: nowhere };
  const onDisk = () => (fs.existsSync(path.join(ROOT, 'data')) ? fs.readdirSync(path.join(ROOT, 'data')).sort() : []);
  const before = onDisk();
  const { patientIds, form, leftOpen } = JSON.parse(runScript('tests/faults/seed-a-few-patients.ts', env)) as Seeded;
  const processes = await Promise.all([1, 2, 3].map(() => startBuilt(env)));
  const [first, second, third] = processes as [BuiltServer, BuiltServer, BuiltServer];
  const front = await roundRobin(processes.map((one) => one.address));
  try {
    const cookie = await signInAt(first.address, PEOPLE.lead.email, PASSWORD);
    const read = async (at: string, page: string, as = cookie) => {
      const answer = await fetch(at + page, { headers: { cookie: as }, redirect: 'manual' });
      return { status: answer.status, text: await answer.text(), headers: answer.headers };
    };

    /** Sends one visit as the sheet's button does; its address once the server has answered that it is saved. */
    const save = async (at: string, patientId: string, submissionId: string): Promise<string | undefined> => {
      const body = JSON.stringify([patientId, submissionId, form, leftOpen]);
      const headers = actionHeaders(at, cookie, actionId(SHEET, 'finishVisit'));
      const answer = await fetch(`${at}/patients/${patientId}/visits/new`, { method: 'POST', headers, body, redirect: 'manual' });
      const text = await answer.text().catch(() => 'cut off behind its head');
      if (answer.status === 502) return undefined; // the process that had it is gone
      const saved = answer.headers.get('x-action-redirect')?.split(';')[0];
      if (!saved?.includes('/visits/')) throw new Error(`${answer.status}: ${text.slice(0, 500)}`);
      return saved;
    };

    await test.step('signed in at one, saved at another, read at the third', async () => {
      const saved = (await save(second.address, patientIds[0] ?? '', crypto.randomUUID())) ?? '';
      for (const one of processes) expect((await read(one.address, saved)).status).toBe(200);
      expect((await read(third.address, saved, '')).status).not.toBe(200);

      const { documentId, token, linkId } = JSON.parse(runScript('tests/e2e/share-a-page.ts', env, saved.split('/').at(-1)));
      // The script held this process: what the servers closed meanwhile is heard before they are asked again.
      await new Promise((heard) => setTimeout(heard, 100));
      const opened = (await read(first.address, `/share/${token}`, '')).headers.getSetCookie()[0]?.split(';')[0] ?? '';
      expect((await read(second.address, '/share', opened)).text.includes('Mira')).toBe(true);
      // As a browser without script sends a form.
      const given = new FormData();
      given.append(`$ACTION_ID_${actionId('app/_family/share-actions.ts', 'withdrawLinkAction')}`, '');
      given.append('linkId', linkId);
      const page = `/patients/${patientIds[0]}/family/${documentId}`;
      const withdrawn = await fetch(third.address + page, { method: 'POST', headers: { cookie, origin: third.address }, body: given });
      expect(withdrawn.status).toBe(200);
      expect((await read(second.address, '/share', opened)).text.includes('There is nothing here now')).toBe(true);
    });

    await test.step('a draft kept at one is the newer one at another', async () => {
      const draft = { kind: 'visit', version: 0, content: { form, submissionId: crypto.randomUUID() } };
      const keep = (at: string) =>
        fetch(`${at}/patients/${patientIds[1]}/visits/new/draft`, {
          method: 'POST',
          headers: { cookie, origin: at },
          body: JSON.stringify(draft),
        });
      expect(await (await keep(first.address)).json()).toEqual({ kind: 'kept', version: 1 });
      const other = await keep(second.address);
      expect([other.status, (await other.json()).draft.version]).toEqual([409, 1]);
    });

    await test.step('wrong tries are counted over all of them', async () => {
      const statuses: number[] = [];
      for (let tries = 0; tries < 10; tries++) {
        const at = processes[tries % 3]?.address ?? '';
        const headers = { 'content-type': 'application/json', origin: at };
        const body = JSON.stringify({ email: 'guessed@harbour.example', password: 'wrong, each time' });
        statuses.push((await fetch(`${at}/api/auth/sign-in/email`, { method: 'POST', headers, body })).status);
      }
      expect(statuses).toEqual([...Array(8).fill(401), 429, 429]);
    });

    await test.step('one is killed in mid-save, and the others go on', async () => {
      const acknowledged: string[] = [];
      let sentAgain = 0;
      let goOn = true;
      const writers = Array.from({ length: WRITERS }, async (_, writer) => {
        for (let turn = 0; goOn; turn++) {
          const submissionId = crypto.randomUUID();
          const patientId = patientIds[(WRITERS * turn + writer) % patientIds.length] ?? '';
          while (!(await save(front.address, patientId, submissionId))) sentAgain += 1;
          acknowledged.push(submissionId);
        }
      });
      const enough = { timeout: 20_000, intervals: [5] };
      await expect.poll(() => Math.min(...front.answered.values()), enough).toBeGreaterThan(1);
      await expect.poll(() => front.inHand(second.address), { timeout: 5000, intervals: [1] }).toBeGreaterThan(0);
      const killed = second.end('SIGKILL');
      const beforeTheKill = acknowledged.length;
      await killed;
      await expect.poll(() => acknowledged.length - beforeTheKill, enough).toBeGreaterThanOrEqual(AFTER_THE_KILL);
      goOn = false;
      await Promise.all(writers);
      const left = JSON.parse(runScript('tests/faults/print-what-is-left.ts', env, JSON.stringify(acknowledged)));
      const seconds = ((Date.now() - began) / 1000).toFixed(0);
      console.log(
        `3 processes, 1 killed with ${front.cut()} requests in hand (sent again: ${sentAgain}); ${acknowledged.length} visits acknowledged, ` +
          `${acknowledged.length - beforeTheKill} after the kill, ${left.lost} lost, ${left.half} there by half; ${seconds} s in all`,
      );
      expect(left).toEqual({ lost: 0, half: 0, problems: [] });
      expect(front.cut()).toBeGreaterThan(0);
    });

    await test.step('a session ended at one has ended at the other; nothing was left on the disk', async () => {
      await fetch(`${first.address}/sign-out`, { method: 'POST', headers: { cookie, origin: first.address }, redirect: 'manual' });
      expect((await read(third.address, '/patients')).status).not.toBe(200);
      expect([fs.existsSync(path.dirname(nowhere)), onDisk()]).toEqual([false, before]);
    });
  } finally {
    await front.close();
    await Promise.all(processes.map((one) => one.end('SIGKILL')));
    await server.stop();
  }
});
