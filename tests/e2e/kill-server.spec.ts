import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import { actionHeaders, actionId, freePort, runScript, signInAt, startBuilt } from '../built-server';
import { seeded } from '../cohort/random';
import { PASSWORD, PEOPLE } from './people';

/** How often the server is killed; the campaign asks for more. */
const KILLS = Number(process.env.SERVER_KILLS ?? 30);

/** How it is ended: without warning, or asked to, as an update does (the campaign of restarts). */
const SIGNAL = (process.env.SERVER_SIGNAL ?? 'SIGKILL') as NodeJS.Signals;

const root = path.resolve(import.meta.dirname, '../..');
const file = path.join(root, 'test-results/browser/killed/clinic.db');
const env = { DATABASE_URL: '', DB_FILE: file, AUTH_SECRET: 'only for browser tests, signs nothing real' };

type Seeded = { readonly patientIds: readonly string[]; readonly form: unknown; readonly leftOpen: readonly string[] };

/** The built server, killed without warning at random moments while two writers save visits through it, as the sheet does. */
test('the real server killed while visits are saved: nothing acknowledged is lost, nothing is there by half', async () => {
  test.setTimeout(60_000 + KILLS * 10_000);
  fs.rmSync(path.dirname(file), { recursive: true, force: true });
  const { patientIds, form, leftOpen } = JSON.parse(runScript('tests/faults/seed-a-few-patients.ts', env)) as Seeded;
  const port = await freePort();
  const address = `http://127.0.0.1:${port}`;
  const random = seeded(9301);
  const acknowledged: string[] = [];
  let server = await startBuilt(env, port);
  const cookie = await signInAt(address, PEOPLE.lead.email, PASSWORD);
  const saving = actionId('app/patients/[patientId]/visits/new/actions.ts', 'finishVisit');

  /** Sends one visit as the sheet's button does; true once the server has answered that it is saved. */
  async function save(patientId: string): Promise<boolean> {
    const submissionId = crypto.randomUUID();
    const headers = actionHeaders(address, cookie, saving);
    const body = JSON.stringify([patientId, submissionId, form, leftOpen]);
    try {
      const answer = await fetch(`${address}/patients/${patientId}/visits/new`, { method: 'POST', headers, body, redirect: 'manual' });
      if (!/\/visits\/[0-9a-f-]{36}/.test(answer.headers.get('x-action-redirect') ?? ''))
        throw new Error(`${answer.status}: ${await answer.text()}`);
      acknowledged.push(submissionId);
      await answer.body?.cancel();
      return true;
    } catch (error) {
      if (error instanceof TypeError) return false; // the server is gone
      throw error;
    }
  }

  for (let kill = 0; kill < KILLS; kill++) {
    const writers = [0, 1].map(async (writer) => {
      while (await save(patientIds[(2 * kill + writer) % patientIds.length] ?? '')) {}
    });
    const before = acknowledged.length;
    await expect.poll(() => acknowledged.length, { timeout: 10_000, intervals: [5] }).toBeGreaterThan(before);
    await new Promise((resolve) => setTimeout(resolve, random.uniform() * 150));
    await server.end(SIGNAL);
    await Promise.all(writers);
    server = await startBuilt(env, port);
  }
  await server.end('SIGKILL');
  const left = JSON.parse(runScript('tests/faults/print-what-is-left.ts', env, JSON.stringify(acknowledged)));
  console.log(`${KILLS} times ${SIGNAL}, ${acknowledged.length} visits acknowledged, ${left.lost} lost, ${left.half} there by half`);
  expect(left).toEqual({ lost: 0, half: 0, problems: [] });
  expect(acknowledged.length).toBeGreaterThanOrEqual(KILLS);
});
