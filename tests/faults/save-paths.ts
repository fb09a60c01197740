import { piecesOfOrder, sentOrder } from '@/lib/orders/order-steps';
import type { Order } from '@/lib/record/order';
import { familyPage } from '@/lib/summary/family/family-page';
import { LETTER_HEADS, LETTER_VERSION } from '@/lib/summary/letter/letter-words';
import type { ReplacementLetter } from '@/lib/summary/letter/replacement-letter';
import { addDays, calendarDay } from '@/lib/units/calendar-day';
import type { MadeUpClinic } from '@/tests/db/made-up-clinic';
import { details, orderFrom, pieceFrom, tapedTwice, visitOn } from '@/tests/db/made-up-records';
import { FACTS } from '@/tests/lib/made-up-noted';
import { madeUpPlan } from '@/tests/lib/study/made-up-plan';
import { FAMILY_TEXTS } from '@/tests/lib/summary/family-texts';

/** One way in which the program writes: what it is called, and the write, which can be tried again from where things stand. */
export type SavePath = { readonly name: string; readonly write: () => Promise<unknown> };

const day = calendarDay('2026-10-14');
const form = () => crypto.randomUUID();

/** The largest study there is: a path is written many times, and each turn of a study only once. */
const MANY_LIMBS = 24;
const longPlan = (measurer: string) => ({
  ...madeUpPlan(measurer),
  repeats: 4,
  limbs: Array.from({ length: MANY_LIMBS }, (_, limb) => ({ person: `P${limb}`, limb: 'leg', side: 'left' }) as const),
});

/**
 * Every way in which the program writes a patient's record, in an order in which each finds what it needs; `words` is put into every
 * free text, so that it can be looked for.
 */
export function savePaths({ db, therapist }: MadeUpClinic, reference: string, words: string): readonly SavePath[] {
  let patientId = '';
  let made = 0;
  let studyId = '';
  /** Tapings of the study that were saved: each turn once. */
  let taped = 0;
  const person = (again = '') => ({ ...details(`${reference}${again}`, `${words} name`), note: `${words} note` });
  const visits = async () => db.reading.visitsOfPatients(therapist, [patientId]);
  const visitId = async () => (await visits())[0]?.visitId ?? '';
  const pieceNow = async () => (await db.readingPieces.piecesOfPatients(therapist, [patientId]))[0];
  const orderNow = async () => (await db.readingOrders.ordersOf(therapist, patientId))[0];
  const documentId = async () => (await db.familyPages.familyPagesOf(therapist, patientId))[0]?.documentId ?? '';
  return [
    {
      name: 'new patient',
      write: async () => {
        const again = patientId === '' ? '' : ` ${++made}`;
        const added = await db.patients.addPatient(therapist, { submissionId: form(), details: person(again) });
        if ('patientId' in added) patientId = added.patientId;
      },
    },
    {
      name: 'patient corrected',
      write: async () => {
        const head = await db.patients.patientHead(therapist, patientId);
        if (!head) throw new Error('no patient');
        const { revision, patientId: _id, ...known } = head;
        const corrected = { ...known, note: `${words} note ${++made}` };
        await db.patients.revisePatient(therapist, patientId, revision, {
          submissionId: form(),
          details: corrected,
          reason: `${words} reason`,
        });
      },
    },
    {
      name: 'new visit',
      write: () =>
        db.visits.saveVisit(therapist, {
          patientId,
          submissionId: form(),
          visit: tapedTwice('2026-10-14', `${words} visit`),
          leftOpen: [words],
        }),
    },
    {
      name: 'visit corrected',
      write: async () => {
        const [visit] = await visits();
        const typed = visitOn('2026-10-14', `${words} corrected`);
        const measures = (typed.measures ?? []).map((one) => ({ ...one, note: `${words} measure` }));
        const entry = { submissionId: form(), visit: { ...typed, measures }, reason: `${words} slip` };
        await db.visits.reviseVisit(therapist, visit?.visitId ?? '', visit?.revision ?? 0, entry);
      },
    },
    {
      name: 'new piece',
      write: async () =>
        db.pieces.savePiece(therapist, { patientId, submissionId: form(), piece: pieceFrom(await visitId(), day, `${words} ${++made}`) }),
    },
    {
      name: 'piece step',
      write: async () => {
        const piece = await pieceNow();
        if (!piece) throw new Error('no piece');
        const stepped = { ...pieceFrom(await visitId(), day, piece.piece), firstWorn: day, retiredReason: `${words} worn` };
        await db.pieces.revisePiece(therapist, piece.pieceId, piece.revision, {
          submissionId: form(),
          piece: stepped,
          reason: `${words} worn`,
        });
      },
    },
    {
      name: 'order proposed',
      write: async () =>
        db.orders.proposeOrder(therapist, {
          patientId,
          submissionId: form(),
          order: { ...orderFrom(await visitId(), '2026-10-14'), note: `${words} order` },
        }),
    },
    {
      name: 'order sent with its pieces',
      write: async () => {
        const found = await orderNow();
        if (!found) throw new Error('no order');
        const left = sent(found, words);
        const added = piecesOfOrder(left, []).map((piece) => ({
          ...piece,
          piece: `${words} order ${++made}`,
          retiredReason: null,
          cutFromVisitId: left.cutFromVisitId,
        }));
        await db.orders.reviseOrder(therapist, found.orderId, found.revision, {
          submissionId: form(),
          order: left,
          deed: 'sent',
          reason: 'sent',
          pieces: { added },
        });
      },
    },
    {
      name: 'order cancelled',
      write: async () => {
        const found = await orderNow();
        if (!found) throw new Error('no order');
        await db.orders.reviseOrder(therapist, found.orderId, found.revision, {
          submissionId: form(),
          order: { ...found, state: 'cancelled' },
          deed: 'cancelled',
          reason: `cancelled: ${words} why`,
        });
      },
    },
    {
      name: 'event',
      write: () =>
        db.events.addEvent(therapist, { patientId, submissionId: form(), event: { day, kind: 'operation', words: `${words} graft` } }),
    },
    {
      name: 'event withdrawn',
      write: async () => {
        const [event] = await db.events.eventsOfPatients(therapist, [patientId]);
        await db.events.withdrawEvent(therapist, event?.eventId ?? '', { submissionId: form(), reason: `${words} mistaken` });
      },
    },
    {
      name: 'facts for the work written',
      write: async () => {
        const now = (await db.noted.notedOfPatients(therapist, [patientId])).get(patientId);
        await db.noted.saveNoted(therapist, patientId, {
          ...{ submissionId: form(), kind: 'facts', thing: patientId, expected: now?.factsNumber ?? 0, day: null },
          ...{ content: { ...FACTS, cause: `${words} cause ${++made}` }, deed: 'facts for the work written', reason: `${words} facts` },
        });
      },
    },
    {
      name: 'phase begun or corrected',
      write: async () => {
        const now = (await db.course.coursesOfPatients(therapist, [patientId])).get(patientId);
        await db.course.saveCourse(therapist, patientId, now?.number ?? 0, {
          submissionId: form(),
          phases: [{ kind: 'garments', from: day, until: null, baselineDay: null, note: `${words} course ${++made}` }],
          deed: now ? 'phase corrected' : 'phase begun',
          reason: `${words} phase`,
        });
      },
    },
    {
      name: 'cautions answered',
      write: async () => {
        const card = { card: 'c', cardVersion: '1', answer: 'present', wording: 'w', words: `${words} caution`, figures: {} } as const;
        await db.cautions.answerCautions(therapist, patientId, {
          visitId: await visitId(),
          day,
          answers: [card],
          submissionId: crypto.randomUUID(),
        });
      },
    },
    {
      name: 'prompt answered',
      write: () => {
        const asked = { promptKey: 'k', rule: 'r', ruleVersion: '1', inputsHash: 'h', inputs: { words } };
        return db.answers.answerPrompt(therapist, patientId, { ...asked, answer: 'not-now', until: null, reason: `${words} later` });
      },
    },
    {
      name: 'date moved',
      write: () => db.moves.moveDate(therapist, patientId, { key: 'k', computed: day, day, reason: `${words} holiday` }),
    },
    {
      name: 'coverage set',
      write: () => db.coverage.setCoverage(therapist, patientId, { ruleId: null, from: day, note: `${words} payer` }),
    },
    {
      name: 'family page approved',
      write: async () => db.familyPages.approveFamilyPage(therapist, { visitId: await visitId(), submissionId: form(), page: page(words) }),
    },
    { name: 'link made', write: async () => db.links.openLink(therapist, await documentId()) },
    {
      name: 'reply of the family received',
      write: async () => {
        const [link] = await db.links.linksOf(therapist, await documentId());
        const { id: therapistId, clinicId } = therapist;
        const by = { linkId: link?.linkId ?? therapistId, clinicId, patientId, timeZone: 'UTC', page: page(words) };
        const told = { hours: 6, planned: 12, marks: [], call: true, words: `${words} told`, by: `${words} aunt`, answer: null };
        await db.replies.sendReply(by, { day: addDays(day, ++made), time: '09:30', pageOf: day, ...told }, form());
      },
    },
    {
      name: 'reply of the family answered',
      write: async () => {
        const [reply] = (await db.noted.notedOfPatients(therapist, [patientId])).get(patientId)?.replies ?? [];
        if (!reply) throw new Error('no reply');
        const { replyId, number, ...told } = reply;
        const answer = { did: 'rung', day, by: therapist.name, words: `${words} answer ${++made}` } as const;
        await db.noted.saveNoted(therapist, patientId, {
          ...{ submissionId: form(), kind: 'reply', thing: replyId, expected: number, day: reply.day },
          ...{ content: { ...told, answer }, deed: 'reply of the family answered', reason: `${words} answer` },
        });
      },
    },
    {
      name: 'letter signed',
      write: async () =>
        db.letters.signLetter(therapist, { patientId, visitId: await visitId(), submissionId: form(), letter: letter(words) }),
    },
    { name: 'calendar address opened', write: () => db.feeds.openFeed(therapist, patientId) },
    { name: 'draft kept', write: () => db.drafts.keepDraft(therapist, patientId, `visit ${++made}`, { version: 0, content: { words } }) },
    { name: 'worklist renewed', write: () => db.renew.refreshPatient(therapist, patientId, addDays(calendarDay('2026-11-25'), ++made)) },
    { name: 'setting changed', write: () => db.clinic.changeSetting(therapist, { key: 'reference', value: 'cdc', reason: null }) },
    {
      name: 'study begun',
      write: async () => {
        studyId = (await db.studies.beginStudy(therapist, form(), longPlan(therapist.id))).studyId;
      },
    },
    {
      name: 'draft of a study kept',
      write: () => db.studyDrafts.keepStudyDraft(therapist, studyId, { measurer: 0, limb: MANY_LIMBS - 1, repeat: 3 }, [`${++made}`]),
    },
    {
      name: 'taping of a study saved',
      write: async () => {
        const turn = { measurer: 0, limb: taped % MANY_LIMBS, repeat: Math.floor(taped / MANY_LIMBS) };
        const girths = madeUpPlan('').heights;
        const saved = await db.studies.saveStudyRun(therapist, studyId, { submissionId: form(), turn, girths, expected: 0, reason: null });
        if (saved.kind === 'saved') taped += 1;
      },
    },
  ];
}

function sent(order: Order, words: string): Order {
  const [ladder] = visitOn('2026-10-14').ladders;
  if (!ladder) throw new Error('no ladder');
  const figures = { day, visitRevision: 2, measurer: `${words} measurer`, ladder, readings: [], height: null, weight: null };
  return sentOrder(order, { sent: figures, ordered: day, expected: calendarDay('2026-10-30'), answers: [] });
}

export function page(words: string) {
  const person = { reader: 'family', name: `${words} child`, limb: 'leg', side: 'right' } as const;
  const said = { language: 'en', person, change: 'same', right: 'yes', why: null, hours: 23, steps: [], note: `${words} page` } as const;
  return familyPage(said, { day, unit: 'in', places: 3, taller: null, outlines: null }, FAMILY_TEXTS, 'Harbour Lane', {
    by: 'R. Adeyemi',
    day,
  });
}

function letter(words: string): ReplacementLetter {
  const signature = { name: 'R. Adeyemi', credentials: 'Occupational therapist', day: '14 Oct 2026' };
  const sections = [{ key: 'effect', head: LETTER_HEADS.effect, paragraphs: [`${words} letter`], tables: [] }] as const;
  return {
    version: LETTER_VERSION,
    language: 'en',
    clinic: 'Harbour Lane',
    title: 'Request',
    reference: words,
    piece: '1',
    reason: 'lost',
    sections,
    signature,
    protocol: 'Local protocol is followed.',
  };
}
