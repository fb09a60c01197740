import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Engine } from '@/db/sql/columns';
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
    schema: await import('@/db/schema/schema'),
    together: await import('@/db/transaction'),
    therapist: await import('@/db/therapist'),
    holds: await import('@/db/patients/holds'),
    people: await import('@/db/people/people'),
    manage: await import('@/db/people/manage-people'),
    oneTimeLinks: await import('@/db/people/one-time-links'),
    factors: await import('@/db/people/second-factor'),
    sessions: await import('@/db/people/sessions'),
    ownAccount: await import('@/db/people/own-account'),
    tries: await import('@/db/people/login-attempts'),
    clinic: await import('@/db/clinic/clinic'),
    audit: await import('@/db/clinic/audit-entries'),
    patients: await import('@/db/patients/patients'),
    find: await import('@/db/patients/find-patients'),
    visits: await import('@/db/patients/visits'),
    reading: await import('@/db/patients/read-visits'),
    pieces: await import('@/db/patients/pieces'),
    readingPieces: await import('@/db/patients/read-pieces'),
    orders: await import('@/db/patients/orders'),
    readingOrders: await import('@/db/patients/read-orders'),
    events: await import('@/db/patients/events'),
    course: await import('@/db/patients/course'),
    noted: await import('@/db/patients/noted'),
    records: await import('@/db/patients/records'),
    answers: await import('@/db/worklist/prompt-answers'),
    drafts: await import('@/db/patients/drafts'),
    moves: await import('@/db/worklist/moved-dates'),
    renew: await import('@/db/worklist/refresh-work'),
    stale: await import('@/db/worklist/stale-work'),
    lines: await import('@/db/worklist/work-lines'),
    counts: await import('@/db/worklist/work-counts'),
    policy: await import('@/db/clinic/policy'),
    feeds: await import('@/db/documents/calendar-feeds'),
    coverage: await import('@/db/clinic/coverage'),
    familyPages: await import('@/db/documents/family-pages'),
    links: await import('@/db/documents/share-links'),
    replies: await import('@/db/documents/family-replies'),
    letters: await import('@/db/documents/letters'),
    cautions: await import('@/db/patients/cautions'),
    files: await import('@/db/exchange/patient-files'),
    imports: await import('@/db/exchange/imports'),
    readingImports: await import('@/db/exchange/read-imports'),
    undo: await import('@/db/exchange/undo-import'),
    repeats: await import('@/db/patients/repeat-tapings'),
    studies: await import('@/db/service/studies'),
    studyDrafts: await import('@/db/service/study-drafts'),
  };
}

async function signedIn(db: Awaited<ReturnType<typeof modules>>, added: { kind: string; id?: string }) {
  const therapist = await db.therapist.therapistWithId(added.id ?? '');
  if (!therapist) throw new Error(`the person was not added: ${added.kind}`);
  return therapist;
}
