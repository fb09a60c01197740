import type BetterSqlite from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { familyPage } from '@/lib/summary/family/family-page';
import { calendarDay } from '@/lib/units/calendar-day';
import { FAMILY_TEXTS } from '@/tests/lib/summary/family-texts';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, visitOn } from './made-up-records';

const form = () => crypto.randomUUID();
const day = calendarDay('2026-10-14');
const AT = new Date('2026-10-14T12:00:00Z');
const later = (days: number) => new Date(AT.getTime() + days * 86_400_000);

const PAGE = familyPage(
  {
    language: 'en',
    person: { reader: 'family', name: 'Mira', limb: 'leg', side: 'right' },
    change: 'same',
    right: 'yes',
    why: null,
    hours: 23,
    steps: [],
    note: '',
  },
  { day, unit: 'in', places: 3, taller: null, outlines: null },
  FAMILY_TEXTS,
  'Harbour Lane',
  { by: 'R. Adeyemi', day },
);

describe.each(ENGINES)('approved pages and links to them on %s', (engine) => {
  let at: ClinicOn;
  let visitId: string;
  let patientId: string;
  let documentId: string;

  beforeAll(async () => {
    at = await clinicOn(engine);
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0001') });
    patientId = added.kind === 'saved' ? added.patientId : '';
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-10-14') });
    visitId = saved.kind === 'saved' ? saved.visitId : '';
    documentId = (await at.db.familyPages.approveFamilyPage(at.therapist, { visitId, submissionId: 'page', page: PAGE }, AT)) ?? '';
  });
  afterAll(async () => at?.close());

  it('a page is frozen as it was approved, once for one submission', async () => {
    expect(await at.db.familyPages.approveFamilyPage(at.therapist, { visitId, submissionId: 'page', page: PAGE })).toBe(documentId);
    await at.db.visits.reviseVisit(at.therapist, visitId, 1, {
      submissionId: form(),
      visit: visitOn('2026-10-14', 'corrected'),
      reason: 'slip',
    });
    const kept = await at.db.familyPages.familyPageOf(at.therapist, documentId);
    expect(kept).toMatchObject({ page: PAGE, language: 'en', byName: 'R. Adeyemi', visitId });
    expect(await at.db.familyPages.familyPagesOf(at.therapist, patientId)).toHaveLength(1);
  });

  it('another clinic neither reads nor approves nor shares it; a read-only person approves nothing', async () => {
    const { db, stranger, reader } = at;
    expect(await db.familyPages.familyPageOf(stranger, documentId)).toBeUndefined();
    expect(await db.familyPages.familyPagesOf(stranger, patientId)).toEqual([]);
    expect(await db.familyPages.approveFamilyPage(stranger, { visitId, submissionId: form(), page: PAGE })).toBeUndefined();
    expect(await db.links.openLink(stranger, documentId)).toBeUndefined();
    expect(await db.links.linksOf(stranger, documentId)).toEqual([]);
    await expect(db.links.openLink(reader, documentId)).rejects.toThrow('read-only');
  });

  it('a link is exchanged for a cookie, which shows the page; each opening is noted', async () => {
    const token = (await at.db.links.openLink(at.therapist, documentId, AT)) ?? '';
    const cookie = (await at.db.links.openSharedPage(token, later(1))) ?? '';
    expect(cookie).toMatch(/^[\w-]{43}$/);
    expect(cookie).not.toBe(token);
    expect((await at.db.links.sharedPage(cookie, later(1)))?.page).toEqual(PAGE);
    await at.db.links.openSharedPage(token, later(2));
    const [link] = await at.db.links.linksOf(at.therapist, documentId);
    expect(link?.openings).toEqual([later(1), later(2)]);
  });

  it('expires after fourteen days, the cookie with it', async () => {
    const token = (await at.db.links.openLink(at.therapist, documentId, AT)) ?? '';
    const cookie = (await at.db.links.openSharedPage(token, later(13.9))) ?? '';
    expect((await at.db.links.sharedPage(cookie, later(13.9)))?.page).toEqual(PAGE);
    expect(await at.db.links.sharedPage(cookie, later(14))).toBeUndefined();
    expect(await at.db.links.openSharedPage(token, later(14))).toBeUndefined();
  });

  it('withdrawn it answers nothing at once, nor does a cookie that was made before (replayed)', async () => {
    const token = (await at.db.links.openLink(at.therapist, documentId, later(3))) ?? '';
    const cookie = (await at.db.links.openSharedPage(token, later(4))) ?? '';
    const [link] = await at.db.links.linksOf(at.therapist, documentId);
    expect(await at.db.links.withdrawLink(at.stranger, link?.linkId ?? '')).toBe(false);
    expect(await at.db.links.withdrawLink(at.therapist, link?.linkId ?? '')).toBe(true);
    expect(await at.db.links.sharedPage(cookie, later(4))).toBeUndefined();
    expect(await at.db.links.openSharedPage(token, later(4))).toBeUndefined();
  });

  it('neither token nor cookie stands in the database', async () => {
    const token = (await at.db.links.openLink(at.therapist, documentId, AT)) ?? '';
    const cookie = (await at.db.links.openSharedPage(token, later(1))) ?? '';
    const database = await at.db.client.getDatabase();
    const rows = JSON.stringify([
      await database.select().from(at.db.schema.shareLink),
      await database.select().from(at.db.schema.shareOpening),
    ]);
    expect(rows).not.toContain(token);
    expect(rows).not.toContain(cookie);
  });

  it('10,000 guessed tokens open nothing, and a link answers no more after 200 openings', async () => {
    for (let guess = 0; guess < 10_000; guess += 100) {
      const tried = Array.from({ length: 100 }, (_, offset) =>
        at.db.links.openSharedPage(String(guess + offset).padStart(43, 'A'), later(1)),
      );
      expect((await Promise.all(tried)).filter(Boolean)).toEqual([]);
    }
    const token = (await at.db.links.openLink(at.therapist, documentId, AT)) ?? '';
    for (let opening = 0; opening < at.db.links.MOST_OPENINGS; opening++)
      expect(await at.db.links.openSharedPage(token, later(1))).toBeDefined();
    expect(await at.db.links.openSharedPage(token, later(1))).toBeUndefined();
  }, 60_000);

  it('refuses to be rewritten', async () => {
    const database = await at.db.client.getDatabase();
    for (const name of ['issuedDocument', 'shareOpening'] as const) {
      const before = await database.select().from(at.db.schema[name]);
      await expect(Promise.resolve(database.delete(at.db.schema[name]))).rejects.toThrow();
      expect(await database.select().from(at.db.schema[name])).toEqual(before);
    }
  });
});

describe('a link on a file that cannot be written', () => {
  it('is not exchanged and asks to come back, reads go on, and it is as good as before afterwards', async () => {
    const at = await clinicOn('sqlite');
    try {
      const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0001') });
      const patientId = added.kind === 'saved' ? added.patientId : '';
      const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-10-14') });
      const visitId = saved.kind === 'saved' ? saved.visitId : '';
      const documentId = (await at.db.familyPages.approveFamilyPage(at.therapist, { visitId, submissionId: 'page', page: PAGE })) ?? '';
      const token = (await at.db.links.openLink(at.therapist, documentId)) ?? '';
      const { GET } = await import('@/app/share/[token]/route');
      const exchange = () => GET(new Request(`http://clinic.example/share/${token}`), { params: Promise.resolve({ token }) });
      const file = ((await at.db.client.getDatabase()) as unknown as { $client: BetterSqlite.Database }).$client;
      file.pragma('query_only = on');
      const refused = await exchange();
      expect([refused.status, refused.headers.get('set-cookie')]).toEqual([503, null]);
      expect(await refused.text()).toMatch(/try again in a minute[\s\S]*inténtelo/);
      const visit = { patientId, submissionId: form(), visit: visitOn('2026-10-15') };
      await expect(at.db.visits.saveVisit(at.therapist, visit)).rejects.toMatchObject({ digest: 'storage-read-only' });
      expect((await at.db.reading.keptVisit(at.therapist, visitId))?.visitId).toBe(visitId);
      file.pragma('query_only = off');
      const opened = await exchange();
      expect([opened.status, opened.headers.get('location')]).toEqual([303, '/share']);
      expect(await at.db.visits.saveVisit(at.therapist, visit)).toMatchObject({ kind: 'saved' });
    } finally {
      await at.close();
    }
  });
});
