import path from 'node:path';
import { hashPassword } from 'better-auth/crypto';
import { BetterSqlite } from '@/db/sql/better-sqlite';
import { familyPage } from '@/lib/summary/family/family-page';
import { LETTER_HEADS, LETTER_VERSION } from '@/lib/summary/letter/letter-words';
import { calendarDay } from '@/lib/units/calendar-day';
import { details, orderFrom, pieceFrom, visitOn } from '@/tests/db/made-up-records';
import { FAMILY_TEXTS } from '@/tests/lib/summary/family-texts';
import { typedStudy } from '@/tests/typed-study';
import { PASSWORD } from './people';

/** The file that the server of the browser tests keeps its records in. */
export const DB_FILE = path.resolve(import.meta.dirname, '../..', process.env.E2E_FOLDER ?? 'test-results/browser', 'clinic.db');

/** Words that stand in no other clinic of the tests: in its records, and over its pages. */
export const MARKERS = { records: ['Quill Everhart', 'MILL-7', 'whistling kettle'], clinic: 'Mill Lane' } as const;

export const MILL = { lead: 'lead@mill.example', therapist: 'therapist@mill.example', reader: 'reader@mill.example' } as const;

const DAY = '2026-10-14';
const form = () => crypto.randomUUID();

/** Makes a clinic with one of everything, straight in the file; answers the id of each thing by the name that addresses and forms use. */
export async function makeMillLane(): Promise<Record<string, string>> {
  process.env.DB_FILE = DB_FILE;
  process.env.DATABASE_URL = '';
  const { closeDatabase } = await import('@/db/client');
  const { addPerson, openClinic } = await import('@/db/people/people');
  const { makeLink } = await import('@/db/people/manage-people');
  const { therapistWithId } = await import('@/db/therapist');
  const units = { subtitle: '', lengthUnit: 'in', massUnit: 'lb', timeZone: 'Europe/London' } as const;
  const passwordHash = await hashPassword(PASSWORD);
  const added = await openClinic({ ...units, name: 'Mill Lane' }, { name: 'P. Vance', email: MILL.lead, role: 'lead', passwordHash });
  const lead = added.kind === 'added' ? await therapistWithId(added.id) : undefined;
  if (!lead) throw new Error('the lead of Mill Lane was not added');
  const person = await addPerson(lead.clinicId, { name: 'J. Orme', email: MILL.therapist, role: 'therapist', passwordHash });
  await addPerson(lead.clinicId, { name: 'L. Pell', email: MILL.reader, role: 'read-only', passwordHash });
  const personId = person.kind === 'added' ? person.id : '';
  await makeLink(lead, personId);
  const records = await recordsOf(lead);
  const other = await therapistWithId(personId);
  const studyId = other ? await typedStudy([lead, other]) : '';
  await closeDatabase();
  return { ...records, personId, clinicId: lead.clinicId, studyId, turn: '0-0-0' };
}

async function recordsOf(lead: import('@/db/therapist').Therapist) {
  const [patients, visits, pieces, orders, drafts] = [
    await import('@/db/patients/patients'),
    await import('@/db/patients/visits'),
    await import('@/db/patients/pieces'),
    await import('@/db/patients/orders'),
    await import('@/db/patients/drafts'),
  ];
  const [pages, letters, links, feeds] = [
    await import('@/db/documents/family-pages'),
    await import('@/db/documents/letters'),
    await import('@/db/documents/share-links'),
    await import('@/db/documents/calendar-feeds'),
  ];
  const imports = await import('@/db/exchange/imports');
  const patient = await patients.addPatient(lead, { submissionId: form(), details: details('MILL-7', 'Quill Everhart') });
  const patientId = idIn(patient, 'patientId');
  const visitId = idIn(
    await visits.saveVisit(lead, { patientId, submissionId: form(), visit: visitOn(DAY, 'whistling kettle') }),
    'visitId',
  );
  const pieceId = idIn(await pieces.savePiece(lead, { patientId, submissionId: form(), piece: pieceFrom(visitId, DAY) }), 'pieceId');
  const orderId = idIn(await orders.proposeOrder(lead, { patientId, submissionId: form(), order: orderFrom(visitId, DAY) }), 'orderId');
  await drafts.keepDraft(lead, patientId, 'visit', { version: 0, content: { note: 'whistling kettle' } });
  const day = calendarDay(DAY);
  const reader = { reader: 'family', name: 'Quill Everhart', limb: 'leg', side: 'right' } as const;
  const choice = { language: 'en', person: reader, change: 'same', right: 'yes', why: null, hours: 23, steps: [], note: '' } as const;
  const facts = { day, unit: 'in', places: 3, taller: null, outlines: null } as const;
  const page = familyPage(choice, facts, FAMILY_TEXTS, 'Mill Lane', { by: lead.name, day });
  const documentId = (await pages.approveFamilyPage(lead, { visitId, submissionId: form(), page })) ?? '';
  const sections = [{ key: 'effect', head: LETTER_HEADS.effect, paragraphs: ['A whistling kettle.'], tables: [] }] as const;
  const signature = { name: lead.name, credentials: 'Occupational therapist', day: '14 Oct 2026' };
  const heads = { version: LETTER_VERSION, language: 'en', clinic: 'Mill Lane', title: 'Request', reference: 'MILL-7' } as const;
  const letter = { ...heads, piece: '1', reason: 'lost', sections, signature, protocol: 'Local protocol is followed.' } as const;
  const letterId = (await letters.signLetter(lead, { patientId, visitId, submissionId: form(), letter })) ?? '';
  await links.openLink(lead, documentId);
  const linkId = (await links.linksOf(lead, documentId))[0]?.linkId ?? '';
  const importId = await imports.keepUpload(lead, { fileName: 'MILL-7.csv', form: 'spreadsheet', text: 'place,2026-03-02\n0,21.5\n' });
  await feeds.openFeed(lead, null);
  const feedId = (await feeds.feedsOf(lead))[0]?.feedId ?? '';
  return { patientId, visitId, pieceId, orderId, documentId, letterId, linkId, feedId, importId };
}

/** Tables that are worked out from the records, whenever somebody of the clinic looks. */
const WORKED_OUT = [
  'due_date',
  'work_count',
  'work_line',
  'given_answer',
  'answer_outcome',
  'service_case',
  'service_part',
  'service_count',
  'work_state',
];

/** Every row, in any table, that names one of these ids; but when a session was used, and what is worked out from records. */
export function rowsNaming(ids: readonly string[]): readonly string[] {
  const file = new BetterSqlite(DB_FILE, { readonly: true });
  const tables = file.prepare("select name from sqlite_master where type = 'table' order by name").pluck().all();
  const rows = (tables as string[])
    .filter((table) => !WORKED_OUT.includes(table))
    .flatMap((table) =>
      (file.prepare(`select * from "${table}"`).all() as Record<string, unknown>[]).map(
        (row) => `${table} ${JSON.stringify({ ...row, last_used_at: null })}`,
      ),
    );
  file.close();
  return rows.filter((row) => ids.some((id) => row.includes(id)));
}

/** The id of a session of the lead of Mill Lane, once they have signed in. */
export function sessionOfLead(): string {
  const file = new BetterSqlite(DB_FILE, { readonly: true });
  const id = file
    .prepare('select session.id from session join user on user.id = session.user_id where user.email = ?')
    .pluck()
    .get(MILL.lead);
  file.close();
  return String(id);
}

function idIn(saved: { readonly kind: string }, name: string): string {
  if (saved.kind !== 'saved') throw new Error(saved.kind);
  return String((saved as unknown as Record<string, unknown>)[name]);
}
