import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { KeptPiece } from '@/db/patients/read-pieces';
import { readPieceStep } from '@/lib/forms/read-piece-step';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { orderQuestions } from '@/lib/orders/order-questions';
import { figuresToSend, piecesOfOrder, sentOrder, unansweredQuestions } from '@/lib/orders/order-steps';
import type { Order } from '@/lib/record/order';
import type { PatientFile } from '@/lib/record/patient-file';
import type { NamedMeasure } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { backByBundle, backBySet } from './back-by';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, orderFrom, pieceFrom, visitOn } from './made-up-records';

const form = () => crypto.randomUUID();

describe.each(ENGINES)('orders on %s', (engine) => {
  let at: ClinicOn;
  let patientId: string;
  let visitId: string;

  beforeAll(async () => {
    at = await clinicOn(engine);
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0001') });
    patientId = added.kind === 'saved' ? added.patientId : '';
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-10-14') });
    visitId = saved.kind === 'saved' ? saved.visitId : '';
  });
  afterAll(async () => at?.close());

  async function fileOf(reference: string, therapist: ClinicOn['therapist']): Promise<PatientFile> {
    for await (const { file } of at.db.files.everyPatientFile(therapist)) if (file.details.reference === reference) return file;
    throw new Error(`${reference} is not there`);
  }

  const order = () => orderFrom(visitId, '2026-10-14');

  const propose = async (): Promise<{ orderId: string; kept: Order }> => {
    const saved = await at.db.orders.proposeOrder(at.therapist, { patientId, submissionId: form(), order: order() });
    if (!('orderId' in saved)) throw new Error(saved.kind);
    const found = await at.db.readingOrders.orderWithHistory(at.therapist, saved.orderId);
    return { orderId: saved.orderId, kept: found?.current as Order };
  };

  const leaving = (kept: Order, submissionId = form()) => {
    const ladder = visitOn('2026-10-14').ladders[0] as NonNullable<ReturnType<typeof visitOn>['ladders'][number]>;
    const sent = { day: calendarDay('2026-10-14'), visitRevision: 1, measurer: 'RA', ladder, readings: [], height: null, weight: null };
    const left = sentOrder(kept, { sent, ordered: calendarDay('2026-10-16'), expected: calendarDay('2026-10-30'), answers: [] });
    return { left, submissionId };
  };

  it('get numbers of their own, also when many are proposed at once; one form makes one', async () => {
    const submissionId = form();
    const once = await Promise.all(
      Array.from({ length: 5 }, () => at.db.orders.proposeOrder(at.therapist, { patientId, submissionId, order: order() })),
    );
    expect(new Set(once.map((one) => ('orderId' in one ? one.orderId : ''))).size).toBe(1);
    await Promise.all(Array.from({ length: 3 }, propose));
    const numbers = (await at.db.readingOrders.ordersOf(at.therapist, patientId)).map((one) => one.order);
    expect(numbers).toEqual([4, 3, 2, 1]);
  });

  it('freeze the figures when sent: correcting the visit afterwards does not reach them', async () => {
    const { orderId, kept } = await propose();
    const { left, submissionId } = leaving(kept);
    const added = piecesOfOrder(left, []).map((piece) => ({
      ...piece,
      piece: `f${piece.piece}`,
      cutFromVisitId: visitId,
      retiredReason: null,
    }));
    const sent = await at.db.orders.reviseOrder(at.therapist, orderId, 1, {
      submissionId,
      order: left,
      deed: 'sent',
      reason: 'sent',
      pieces: { added },
    });
    expect(sent.kind).toBe('saved');
    const corrected = visitOn('2026-10-14', 'corrected');
    await at.db.visits.reviseVisit(at.therapist, visitId, 1, {
      submissionId: form(),
      visit: { ...corrected, ladders: [] },
      reason: 'wrong leg',
    });
    const found = await at.db.readingOrders.orderWithHistory(at.therapist, orderId);
    expect(found?.current.sent?.ladder?.rungs[0]?.girth?.text).toBe('7 3/4');
    expect(found?.revisions.map((one) => [one.revision, one.state])).toEqual([
      [1, 'proposed'],
      [2, 'ordered'],
    ]);
    const pieces = (await at.db.readingPieces.piecesOfPatients(at.therapist, [patientId])).filter((one) => one.orderId === orderId);
    expect(pieces.map((one) => [one.piece, one.expected, one.delivered, one.allowance?.text])).toEqual([
      ['f1', '2026-10-30', null, '2'],
      ['f2', '2026-10-30', null, '2'],
    ]);
  });

  it('point at the visit: its day corrected, the order and its pieces find it and say the new day; what was sent stays', async () => {
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-09-02') });
    if (!('visitId' in saved)) throw new Error('not found');
    const own = orderFrom(saved.visitId, '2026-09-02');
    const proposed = await at.db.orders.proposeOrder(at.therapist, { patientId, submissionId: form(), order: own });
    if (!('orderId' in proposed)) throw new Error(proposed.kind);
    const piece = { ...pieceFrom(saved.visitId, '2026-09-02'), piece: 'day' };
    await at.db.pieces.savePiece(at.therapist, { patientId, submissionId: form(), piece });
    const day = visitOn('2026-09-03');
    await at.db.visits.reviseVisit(at.therapist, saved.visitId, 1, { submissionId: form(), visit: day, reason: 'the day was wrong' });
    const found = await at.db.readingOrders.orderWithHistory(at.therapist, proposed.orderId);
    expect([found?.current.cutFrom, found?.current.cutFromVisitId]).toEqual(['2026-09-03', saved.visitId]);
    const record = await at.db.records.recordOf(at.therapist, patientId);
    expect(record?.pieces.find((one) => one.piece === 'day')?.cutFrom).toBe('2026-09-03');
    if (!record || !found) throw new Error('not found');
    const asked = orderQuestions(record, found.current, DEFAULT_POLICY, calendarDay('2026-09-20')).map(({ key }) => key.split(' ')[0]);
    expect(asked).not.toContain('ladder-missing');
  });

  it('send all or nothing: a piece whose name is taken leaves the order as it was', async () => {
    const { orderId, kept } = await propose();
    const { left } = leaving(kept);
    const taken = pieceFrom(visitId, '2026-10-14', 'taken');
    await at.db.pieces.savePiece(at.therapist, { patientId, submissionId: form(), piece: taken });
    const before = await at.db.readingPieces.piecesOfPatients(at.therapist, [patientId]);
    const added = [pieceFrom(visitId, '2026-10-14', 'free'), taken];
    const sent = await at.db.orders.reviseOrder(at.therapist, orderId, 1, {
      submissionId: form(),
      order: left,
      deed: 'sent',
      reason: 'sent',
      pieces: { added },
    });
    expect(sent).toMatchObject({ kind: 'conflict', theirs: { state: 'proposed', revision: 1 } });
    expect(await at.db.readingPieces.piecesOfPatients(at.therapist, [patientId])).toEqual(before);
  });

  it('by two people at once: one is kept, the other is shown what stands', async () => {
    const { orderId, kept } = await propose();
    const entries = [1, 2].map((n) => ({
      submissionId: form(),
      order: { ...kept, note: `by ${n}` },
      deed: 'changed' as const,
      reason: 'changed',
    }));
    const ended = await Promise.all(entries.map((entry) => at.db.orders.reviseOrder(at.therapist, orderId, 1, entry)));
    expect(ended.map((one) => one.kind).sort()).toEqual(['conflict', 'saved']);
    expect((await at.db.readingOrders.orderWithHistory(at.therapist, orderId))?.revisions).toHaveLength(2);
  });

  it('stand as open until every piece came or was called off', async () => {
    const { orderId, kept } = await propose();
    const isOpen = async () => (await at.db.readingOrders.openOrders(at.therapist, 100)).some((one) => one.orderId === orderId);
    expect(await isOpen()).toBe(true);
    const { left, submissionId } = leaving(kept);
    const added = piecesOfOrder(left, []).map((piece) => ({
      ...piece,
      piece: `d${piece.piece}`,
      cutFromVisitId: visitId,
      retiredReason: null,
    }));
    await at.db.orders.reviseOrder(at.therapist, orderId, 1, {
      submissionId,
      order: left,
      deed: 'sent',
      reason: 'sent',
      pieces: { added },
    });
    const own = (await at.db.readingPieces.piecesOfPatients(at.therapist, [patientId])).filter((one) => one.orderId === orderId);
    const [first, second] = own;
    if (!first || !second) throw new Error('two pieces were ordered');
    await at.db.pieces.revisePiece(at.therapist, first.pieceId, 1, {
      submissionId: form(),
      piece: { ...first, delivered: calendarDay('2026-10-29') },
      reason: 'delivered',
    });
    expect(await isOpen()).toBe(true);
    await at.db.pieces.revisePiece(at.therapist, second.pieceId, 1, {
      submissionId: form(),
      piece: { ...second, retired: calendarDay('2026-10-30'), retiredReason: 'stopped', retiredAs: 'stopped' },
      reason: 'called off',
    });
    expect(await isOpen()).toBe(false);
  });

  it('with a piece held back stay open until it is released and came; its making counts from the release', async () => {
    const saved = await at.db.orders.proposeOrder(at.therapist, { patientId, submissionId: form(), order: { ...order(), heldBack: 1 } });
    if (!('orderId' in saved)) throw new Error(saved.kind);
    const { orderId } = saved;
    const { left, submissionId } = leaving((await at.db.readingOrders.orderWithHistory(at.therapist, orderId))?.current as Order);
    const added = piecesOfOrder({ ...left, garment: { ...left.garment, form: 'sleeve' } }, []).map((piece) => ({
      ...piece,
      piece: `h${piece.piece}`,
      cutFromVisitId: visitId,
      retiredReason: null,
    }));
    const entry = { submissionId, order: left, deed: 'sent' as const, reason: 'sent', pieces: { added } };
    await at.db.orders.reviseOrder(at.therapist, orderId, 1, entry);
    const own = async () =>
      (await at.db.readingPieces.piecesOfPatients(at.therapist, [patientId])).filter((one) => one.orderId === orderId);
    const come = async (index: number, day: string) => {
      const piece = (await own())[index] as KeptPiece;
      const delivered = { ...piece, delivered: calendarDay(day) };
      await at.db.pieces.revisePiece(at.therapist, piece.pieceId, piece.revision, {
        submissionId: form(),
        piece: delivered,
        reason: 'delivered',
      });
    };
    await come(0, '2026-10-29');
    const isOpen = async () => (await at.db.readingOrders.openOrders(at.therapist, 100)).some((one) => one.orderId === orderId);
    expect(await isOpen()).toBe(true);
    const held = (await own())[1] as KeptPiece;
    const read = readPieceStep('release', { day: '2026-11-05', words: 'they travel' }, held, calendarDay('2026-11-10'), ['not fitted']);
    if (read.kind === 'refused') throw new Error(JSON.stringify(read.errors));
    const piece = { ...held, ...read.piece };
    await at.db.pieces.revisePiece(at.therapist, held.pieceId, 1, { submissionId: form(), piece, reason: read.reason });
    await come(1, '2026-11-17');
    expect(await isOpen()).toBe(false);
    // Sent 16 Oct and here 29 Oct: 13 days. Released 5 Nov and here 17 Nov: 12, not the 32 since the order was sent.
    const { leadTimesByForm } = await import('@/db/service/lead-times');
    const times = (await leadTimesByForm(at.therapist, calendarDay('2026-11-30'))).get('sleeve');
    expect([...(times ?? [])].sort((one, other) => one.days - other.days)).toEqual([
      { days: 12, n: 1 },
      { days: 13, n: 1 },
    ]);
  });

  it('cancelled with words leave no word in the name of the deed, only in its detail', async () => {
    const { orderId, kept } = await propose();
    const reason = 'cancelled: the graft broke down';
    const order = { ...kept, state: 'cancelled' as const };
    await at.db.orders.reviseOrder(at.therapist, orderId, 1, { submissionId: form(), order, deed: 'cancelled', reason });
    const deeds = await at.db.audit.auditEntries(at.therapist, 10, orderId);
    expect(deeds.map(({ action }) => action)).toContain('order cancelled');
    expect(JSON.stringify(deeds.map(({ action }) => action))).not.toContain('graft');
    expect(deeds.find(({ action }) => action === 'order cancelled')?.detail).toEqual({ revision: 2, reason });
  });

  it('are not written with a name of a deed that is not a known one', async () => {
    const { orderId, kept } = await propose();
    const entry = { submissionId: form(), order: kept, deed: 'cancelled: in words' as 'cancelled', reason: 'changed' };
    await expect(at.db.orders.reviseOrder(at.therapist, orderId, 1, entry)).rejects.toThrow('without a known name');
    expect((await at.db.readingOrders.orderWithHistory(at.therapist, orderId))?.revisions).toHaveLength(1);
  });

  it('of another clinic are neither read nor written; a read-only person writes none', async () => {
    const { orderId, kept } = await propose();
    const { stranger, reader, db } = at;
    expect(await db.readingOrders.ordersOf(stranger, patientId)).toEqual([]);
    expect(await db.readingOrders.orderWithHistory(stranger, orderId)).toBeUndefined();
    expect(await db.readingOrders.openOrders(stranger, 10)).toEqual([]);
    expect(await db.orders.proposeOrder(stranger, { patientId, submissionId: form(), order: order() })).toEqual({ kind: 'not-found' });
    const entry = { submissionId: form(), order: kept, deed: 'changed' as const, reason: 'changed' };
    expect(await db.orders.reviseOrder(stranger, orderId, 1, entry)).toEqual({ kind: 'not-found' });
    await expect(db.orders.reviseOrder(reader, orderId, 1, entry)).rejects.toThrow('read-only');
  });

  it('keep the questions that were answered, by the key of what was asked', async () => {
    const { orderId, kept } = await propose();
    const answered = { key: 'ladder-old 2026-10-14', message: 'old', answer: 'stable', by: at.therapist.id, at: '2026-10-16' };
    await at.db.orders.reviseOrder(at.therapist, orderId, 1, {
      submissionId: form(),
      order: { ...kept, questions: [answered] },
      deed: 'changed',
      reason: 'changed',
    });
    const found = await at.db.readingOrders.orderWithHistory(at.therapist, orderId);
    if (!found) throw new Error('gone');
    expect(unansweredQuestions([{ key: answered.key, message: 'old', limit: null }], found.current)).toEqual([]);
  });

  it('of a set freeze every ladder and named measure of it, come back as sent, and go out and in the same by tables and by bundle', async () => {
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('SET-1') });
    const own = 'patientId' in added ? added.patientId : '';
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId: own, submissionId: form(), visit: visitOn('2026-10-14') });
    const setVisit = 'visitId' in saved ? saved.visitId : '';
    const entry = { patientId: own, submissionId: form(), order: orderFrom(setVisit, '2026-10-14') };
    const proposed = await at.db.orders.proposeOrder(at.therapist, entry);
    const orderId = 'orderId' in proposed ? proposed.orderId : '';
    const kept = (await at.db.readingOrders.orderWithHistory(at.therapist, orderId))?.current as Order;
    const set = { ...kept, garment: { ...kept.garment, form: 'waist-high' } };
    const visit = { ...visitOn('2026-10-14'), revision: 1 };
    const figures = figuresToSend(set, visit);
    if (!figures) throw new Error('no figures');
    expect([figures.further?.map(({ side }) => side), figures.measures?.map(({ measure }) => measure)]).toEqual([
      ['left'],
      ['foot-length'],
    ]);
    const left = sentOrder(set, { sent: figures, ordered: calendarDay('2026-10-16'), expected: calendarDay('2026-10-30'), answers: [] });
    await at.db.orders.reviseOrder(at.therapist, orderId, 1, { submissionId: form(), order: left, deed: 'sent', reason: 'sent' });
    expect((await at.db.readingOrders.orderWithHistory(at.therapist, orderId))?.current.sent).toEqual(figures);
    const file = await fileOf('SET-1', at.therapist);
    const ordersIn = (one: PatientFile) => one.orders.map(({ cutFromVisitId, ...order }) => order);
    expect(ordersIn(file).some(({ sent }) => sent?.further?.length === 1 && sent.measures?.length === 1)).toBe(true);
    for (const [reference, back] of [
      ['BY-SET', backBySet(file)],
      ['BY-BUNDLE', backByBundle(file)],
    ] as const) {
      const id = await at.db.imports.keepUpload(at.stranger, { fileName: 'made up', form: 'set', text: '' });
      await at.db.imports.lineUp(at.stranger, id, [{ ...back, details: { ...back.details, reference } }]);
      while ((await at.db.imports.bringInNext(at.stranger, id, 4)) > 0);
      expect(ordersIn(await fileOf(reference, at.stranger)), reference).toEqual(ordersIn(file));
    }
  });

  it('of named measures alone are kept without a ladder, and with their pieces go out and in the same by tables and by bundle', async () => {
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('MASK-1') });
    const own = 'patientId' in added ? added.patientId : '';
    const head = { ...visitOn('2026-10-14').measures?.[0], part: 'head', side: 'middle', measure: 'head-girth' } as NamedMeasure;
    const visit = { ...visitOn('2026-10-14'), ladders: [], measures: [head] };
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId: own, submissionId: form(), visit });
    const cutFromVisitId = 'visitId' in saved ? saved.visitId : '';
    const place = { limb: 'head', side: 'middle', covers: 'measures' } as const;
    const garment = { form: 'mask', use: 'day', pressure: null, options: [] } as const;
    const asked = { ...orderFrom(cutFromVisitId, '2026-10-14'), ...place, garment };
    const proposed = await at.db.orders.proposeOrder(at.therapist, { patientId: own, submissionId: form(), order: asked });
    const orderId = 'orderId' in proposed ? proposed.orderId : '';
    const kept = (await at.db.readingOrders.orderWithHistory(at.therapist, orderId))?.current as Order;
    const sent = figuresToSend(kept, { ...visit, revision: 1 });
    if (!sent) throw new Error('no figures');
    const left = sentOrder(kept, { sent, ordered: calendarDay('2026-10-16'), expected: calendarDay('2026-10-30'), answers: [] });
    const pieces = piecesOfOrder(left, []).map((piece) => ({ ...piece, cutFromVisitId, retiredReason: null }));
    const entry = { submissionId: form(), order: left, deed: 'sent' as const, reason: 'sent', pieces: { added: pieces } };
    expect((await at.db.orders.reviseOrder(at.therapist, orderId, 1, entry)).kind).toBe('saved');
    const file = await fileOf('MASK-1', at.therapist);
    expect(file.orders[0]?.sent).toEqual(sent);
    expect(sent.ladder).toBeUndefined();
    const garmentsIn = ({ orders, pieces: worn }: PatientFile) => [...orders, ...worn].map(({ cutFromVisitId: _visit, ...one }) => one);
    expect(garmentsIn(file)).toEqual([expect.objectContaining(place), expect.objectContaining(place), expect.objectContaining(place)]);
    for (const [reference, back] of [
      ['MASK-SET', backBySet(file)],
      ['MASK-BUNDLE', backByBundle(file)],
    ] as const) {
      const id = await at.db.imports.keepUpload(at.stranger, { fileName: 'made up', form: 'set', text: '' });
      await at.db.imports.lineUp(at.stranger, id, [{ ...back, details: { ...back.details, reference } }]);
      while ((await at.db.imports.bringInNext(at.stranger, id, 4)) > 0);
      expect(garmentsIn(await fileOf(reference, at.stranger)), reference).toEqual(garmentsIn(file));
    }
  });
});
