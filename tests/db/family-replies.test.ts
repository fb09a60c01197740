import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SharedLink } from '@/db/documents/share-links';
import type { FamilyReply } from '@/lib/observations/family-reply';
import { addDays, calendarDay } from '@/lib/units/calendar-day';
import { page } from '@/tests/faults/save-paths';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, visitOn } from './made-up-records';

const form = () => crypto.randomUUID();
const day = calendarDay('2026-10-14');
const AT = new Date('2026-10-14T12:00:00Z');
const DESPITE = 'Piece 2, left leg: 3 of 23 places tighter than its band (up to 1.31 as cut; band 0.75–1.25).';
const TOLD: FamilyReply = {
  ...{ day, time: '13:00', pageOf: day, hours: 6, planned: 23, call: true, words: 'It rubs at night.', by: 'Ada', answer: null },
  marks: [{ place: { limb: 'leg', side: 'right', along: 0.5 }, sign: 'red' }],
};

describe.each(ENGINES)('replies of a family on %s', (engine) => {
  let at: ClinicOn;
  let patientId = '';
  let cookie = '';
  let link: SharedLink;

  beforeAll(async () => {
    at = await clinicOn(engine);
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0900') });
    patientId = added.kind === 'saved' ? added.patientId : '';
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-10-14') });
    const visitId = saved.kind === 'saved' ? saved.visitId : '';
    const documentId = await at.db.familyPages.approveFamilyPage(
      at.therapist,
      { visitId, submissionId: form(), page: page('w'), despite: [DESPITE] },
      AT,
    );
    cookie = (await at.db.links.openSharedPage((await at.db.links.openLink(at.therapist, documentId ?? '', AT)) ?? '', AT)) ?? '';
    const found = await at.db.links.sharedPage(cookie, AT);
    if (!found) throw new Error('the link opens nothing');
    link = found;
  });
  afterAll(async () => at?.close());

  const repliesNow = async () => (await at.db.noted.notedOfPatients(at.therapist, [patientId])).get(patientId)?.replies ?? [];

  it('stands under a page whose deed says what the record had against it; the page itself does not', async () => {
    const [approved] = await at.db.familyPages.familyPagesOf(at.therapist, patientId);
    const deeds = await at.db.audit.auditEntries(at.therapist, 20, approved?.documentId);
    expect(deeds.find(({ action }) => action === 'family page approved')).toMatchObject({
      detail: { visitId: approved?.visitId, despite: [DESPITE] },
    });
    expect(JSON.stringify(approved?.page)).not.toContain('than its band');
  });

  it('is kept as it came, once for one form, under the link as its author; another clinic sees none', async () => {
    const id = form();
    expect(await at.db.replies.sendReply(link, TOLD, id, AT)).toEqual({ kind: 'sent' });
    expect(await at.db.replies.sendReply(link, TOLD, id, AT)).toEqual({ kind: 'already-sent' });
    expect(await at.db.replies.repliesBy(link)).toEqual([{ ...TOLD, became: null, asks: true }]);
    expect(await repliesNow()).toMatchObject([{ ...TOLD, number: 1 }]);
    expect((await at.db.noted.notedOfPatients(at.stranger, [patientId])).size).toBe(0);
    const deeds = await at.db.audit.auditEntries(at.therapist, 20, patientId);
    const deed = deeds.find(({ action }) => action === 'reply of the family received');
    expect(deed).toMatchObject({ who: `link ${link.linkId}`, whoName: null });
    expect(JSON.stringify(deed)).not.toContain('rubs');
  });

  it('is answered by a further state; what was sent stays', async () => {
    const [reply] = await repliesNow();
    if (!reply) throw new Error('no reply');
    const { replyId, number, ...told } = reply;
    const answer = { did: 'rung', day, by: at.therapist.name, words: 'all well' } as const;
    const entry = { submissionId: form(), kind: 'reply' as const, thing: replyId, expected: number, day, content: { ...told, answer } };
    const answered = { ...entry, deed: 'reply of the family answered' as const, reason: null };
    expect(await at.db.noted.saveNoted(at.stranger, patientId, answered)).toEqual({ kind: 'not-found' });
    await expect(at.db.noted.saveNoted(at.reader, patientId, answered)).rejects.toThrow();
    expect(await at.db.noted.saveNoted(at.therapist, patientId, answered)).toEqual({ kind: 'saved' });
    expect(await repliesNow()).toMatchObject([{ ...told, answer, number: 2 }]);
    expect(await at.db.replies.repliesBy(link)).toEqual([{ ...TOLD, became: { did: 'rung', day }, asks: true }]);
  });

  it('shows a family what became of what it sent itself, without the clinic’s words, and nothing that came by another link', async () => {
    const [mine] = await at.db.replies.repliesBy(link);
    expect(JSON.stringify(mine)).not.toMatch(/all well|Rowan|answer":{/);
    const [page] = await at.db.familyPages.familyPagesOf(at.therapist, patientId);
    const token = (await at.db.links.openLink(at.therapist, page?.documentId ?? '', AT)) ?? '';
    const other = await at.db.links.sharedPage((await at.db.links.openSharedPage(token, AT)) ?? '', AT);
    if (!other) throw new Error('the second link opens nothing');
    expect(await at.db.replies.repliesBy(other)).toEqual([]);
    expect(await at.db.replies.repliesBy({ ...link, patientId: 'another' })).toEqual([]);
  });

  it('says of enough hours alone that they came and ask for nothing, by the clinic’s own limit; no answer is awaited', async () => {
    const hours = { ...TOLD, marks: [], call: false, words: null };
    const before = addDays(day, -1);
    expect(await at.db.replies.sendReply(link, { ...hours, day: before, hours: 20 }, form(), AT)).toEqual({ kind: 'sent' });
    expect(await at.db.replies.sendReply(link, { ...hours, day: before, hours: 12 }, form(), AT)).toEqual({ kind: 'sent' });
    const sent = (await at.db.replies.repliesBy(link)).filter((one) => one.day === before);
    expect(sent.map((one) => [one.hours, one.asks, one.became]).sort()).toEqual([
      [12, true, null],
      [20, false, null],
    ]);
  });

  it('takes four a day of one link, also of many sent at once, and begins anew on the next day', async () => {
    const sent = await Promise.all(Array.from({ length: 8 }, () => at.db.replies.sendReply(link, TOLD, form(), AT)));
    expect(sent.filter(({ kind }) => kind === 'sent').length).toBe(3);
    expect(sent.filter(({ kind }) => kind !== 'sent').every(({ kind }) => kind === 'too-many' || kind === 'not-now')).toBe(true);
    expect(await at.db.replies.sendReply(link, TOLD, form(), AT)).toEqual({ kind: 'too-many', most: 4 });
    expect(await at.db.replies.sendReply(link, { ...TOLD, day: addDays(day, 1) }, form(), AT)).toEqual({ kind: 'sent' });
    expect((await repliesNow()).length).toBe(7);
  });

  it('stands in the order it came, also within one minute, whatever was answered first', async () => {
    const early = addDays(day, -2);
    for (const hours of [1, 2, 3, 4])
      await at.db.replies.sendReply(link, { ...TOLD, day: early, hours }, form(), new Date(AT.getTime() + hours * 1000));
    const those = async () => (await repliesNow()).filter((one) => one.day === early);
    expect((await those()).map(({ hours }) => hours)).toEqual([1, 2, 3, 4]);
    const [first] = await those();
    if (!first) throw new Error('no reply');
    const { replyId, number, ...told } = first;
    const answer = { did: 'seen', day, by: at.therapist.name, words: null } as const;
    const entry = {
      submissionId: form(),
      kind: 'reply' as const,
      thing: replyId,
      expected: number,
      day: early,
      content: { ...told, answer },
    };
    await at.db.noted.saveNoted(at.therapist, patientId, { ...entry, deed: 'reply of the family answered', reason: null });
    expect((await those()).map(({ hours }) => hours)).toEqual([1, 2, 3, 4]);
  });

  it('is not taken after the end of the course, and no page opens after a death or a withdrawal', async () => {
    const phase = { from: addDays(day, 2), until: null, baselineDay: null, note: '' } as const;
    const course = (number: number, phases: Parameters<typeof at.db.course.saveCourse>[3]['phases']) =>
      at.db.course.saveCourse(at.therapist, patientId, number, { submissionId: form(), phases, deed: 'phase begun', reason: 'made up' });
    expect(await course(0, [{ ...phase, kind: 'ended' }])).toEqual({ kind: 'saved' });
    const late = { ...TOLD, day: addDays(day, 3) };
    expect(await at.db.replies.mayReply(link, late.day)).toBe(false);
    expect(await at.db.replies.sendReply(link, late, form(), AT)).toEqual({ kind: 'ended' });
    expect(await at.db.links.sharedPage(cookie, AT)).toBeDefined();
    expect(await course(1, [{ ...phase, kind: 'ended', endedAs: 'died' }])).toEqual({ kind: 'saved' });
    expect(await at.db.links.sharedPage(cookie, AT)).toBeUndefined();
  });
});
