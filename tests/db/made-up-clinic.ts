import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Engine } from '@/db/columns';
import { type PostgresServer, startPostgres } from '@/tests/postgres-server';

/**
 * A fresh database of one engine with two clinics, and the modules of `db` bound to it.
 *
 * `db` picks its engine when it is loaded, so its modules are loaded after the environment is set: one engine a process, unless the
 * modules are forgotten in between (`clinic-on.ts`).
 */
export async function madeUpClinic(engine: Engine) {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-db-'));
  let server: PostgresServer | undefined;
  if (engine === 'postgres') {
    server = await startPostgres();
    process.env.DATABASE_URL = server.url;
    process.env.AUDIT_KEY = 'only for tests, seals nothing real';
  } else {
    delete process.env.DATABASE_URL;
    delete process.env.AUDIT_KEY;
    process.env.DB_FILE = path.join(folder, 'clinic.db');
  }
  const db = await modules();
  const harbour = await db.people.openClinic({ ...UNITS, name: 'Harbour Lane' }, { ...PERSON, email: 'lead@harbour.example' });
  const hill = await db.people.openClinic({ ...UNITS, name: 'Hill Street' }, { ...PERSON, email: 'lead@hill.example' });
  const therapist = await signedIn(db, harbour);
  const stranger = await signedIn(db, hill);
  const reader = await signedIn(
    db,
    await db.people.addPerson(therapist.clinicId, { ...PERSON, role: 'read-only', email: 'reader@harbour.example' }),
  );
  const close = async () => {
    await db.client.closeDatabase();
    await server?.stop();
    fs.rmSync(folder, { recursive: true, force: true });
  };
  const file = path.join(folder, 'clinic.db');
  return { db, therapist, stranger, reader, file, close };
}

export type MadeUpClinic = Awaited<ReturnType<typeof madeUpClinic>>;

const UNITS = { subtitle: 'garment clinic', lengthUnit: 'in', massUnit: 'lb', timeZone: 'Europe/London' } as const;
const PERSON = { name: 'R. Adeyemi', role: 'lead', passwordHash: 'not a hash: nobody signs in here' } as const;

async function modules() {
  return {
    client: await import('@/db/client'),
    schema: await import('@/db/schema'),
    together: await import('@/db/write-together'),
    therapist: await import('@/db/therapist'),
    holds: await import('@/db/holds'),
    people: await import('@/db/people'),
    manage: await import('@/db/manage-people'),
    oneTimeLinks: await import('@/db/one-time-links'),
    factors: await import('@/db/second-factor'),
    sessions: await import('@/db/sessions'),
    ownAccount: await import('@/db/own-account'),
    tries: await import('@/db/tries'),
    clinic: await import('@/db/clinic'),
    audit: await import('@/db/audit'),
    patients: await import('@/db/patients'),
    find: await import('@/db/find-patients'),
    visits: await import('@/db/visits'),
    reading: await import('@/db/read-visits'),
    pieces: await import('@/db/pieces'),
    readingPieces: await import('@/db/read-pieces'),
    orders: await import('@/db/orders'),
    readingOrders: await import('@/db/read-orders'),
    events: await import('@/db/events'),
    records: await import('@/db/records'),
    answers: await import('@/db/prompt-answers'),
    drafts: await import('@/db/drafts'),
    moves: await import('@/db/moved-dates'),
    renew: await import('@/db/renew-work'),
    stale: await import('@/db/stale-work'),
    lines: await import('@/db/work-lines'),
    counts: await import('@/db/work-counts'),
    policy: await import('@/db/policy'),
    feeds: await import('@/db/calendar-feeds'),
    coverage: await import('@/db/coverage'),
    familyPages: await import('@/db/family-pages'),
    links: await import('@/db/share-links'),
    letters: await import('@/db/letters'),
    cautions: await import('@/db/cautions'),
    files: await import('@/db/patient-files'),
    imports: await import('@/db/imports'),
    readingImports: await import('@/db/read-imports'),
    undo: await import('@/db/undo-import'),
    repeats: await import('@/db/repeat-tapings'),
  };
}

async function signedIn(db: Awaited<ReturnType<typeof modules>>, added: { kind: string; id?: string }) {
  const therapist = await db.therapist.therapistWithId(added.id ?? '');
  if (!therapist) throw new Error(`the person was not added: ${added.kind}`);
  return therapist;
}
