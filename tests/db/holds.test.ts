import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { HandOver } from '@/db/patients/holds';
import { LIFTED_CARD, stopsOn, UNASKED_CARD } from '@/lib/cautions/hold';
import type { CardAnswered } from '@/lib/cautions/read-caution-form';
import { piecesOfOrder, sentOrder } from '@/lib/orders/order-steps';
import type { Order } from '@/lib/record/order';
import { calendarDay } from '@/lib/units/calendar-day';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, orderFrom, pieceFrom, visitOn } from './made-up-records';

const DAY = calendarDay('2026-10-20');
const form = () => crypto.randomUUID();
let minute = 0;
const next = () => new Date(Date.UTC(2026, 9, 20, 9, minute++));

describe.each(ENGINES)('a caution that says stop, on %s', (engine) => {
  let at: ClinicOn;
  let patientId: string;
  let visitId: string;
  let pieces = 0;

  beforeAll(async () => {
    at = await clinicOn(engine);
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0001') });
    patientId = added.kind === 'saved' ? added.patientId : '';
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-10-14') });
    visitId = saved.kind === 'saved' ? saved.visitId : '';
  });
  afterAll(async () => at?.close());

  async function answer(card: string, said: CardAnswered['answer'], words: string | null = null) {
    const answers: CardAnswered[] = [{ card, cardVersion: '2', answer: said, wording: 'w', words, figures: {} }];
    await at.db.cautions.answerCautions(at.therapist, patientId, { visitId, day: DAY, answers, submissionId: form() }, next());
  }
  const stops = async () => stopsOn(await at.db.cautions.cautionsOfPatients(at.therapist, [patientId]), { limb: 'leg', side: 'right' });
  const lifting = async (): Promise<HandOver> => ({
    day: DAY,
    lifted: (await stops()).map(({ key }) => ({ key, reason: 'wound closed', prescriber: 'Dr Hale', word: 'go on, by phone' })),
    unasked: { cards: ['Pregnancy (not asked)'], why: 'asked last week' },
  });

  async function waiting() {
    const piece = { ...pieceFrom(visitId, '2026-10-14', `w${++pieces}`), firstWorn: null, firstFit: null, delivered: null };
    const saved = await at.db.pieces.savePiece(at.therapist, { patientId, submissionId: form(), piece }, next());
    if (saved.kind !== 'saved') throw new Error(saved.kind);
    return { pieceId: saved.pieceId, piece };
  }

  it('holds delivery, first fit and first wear, and nothing of the piece is written', async () => {
    await answer('broken-skin', 'present', 'heel');
    for (const step of ['delivered', 'firstFit', 'firstWorn'] as const) {
      const { pieceId, piece } = await waiting();
      const entry = { submissionId: form(), piece: { ...piece, [step]: DAY }, reason: step };
      expect(await at.db.pieces.revisePiece(at.therapist, pieceId, 1, entry, next()), step).toMatchObject({
        kind: 'held',
        stops: [{ card: 'broken-skin' }],
      });
      const kept = (await at.db.readingPieces.piecesOfPatients(at.therapist, [patientId])).find((one) => one.pieceId === pieceId);
      expect([kept?.revision, kept?.[step]]).toEqual([1, null]);
    }
  });

  it('holds a piece that is written down as worn already, and not one that goes out of use', async () => {
    const worn = { ...pieceFrom(visitId, '2026-10-14', 'straight'), firstWorn: DAY };
    expect(await at.db.pieces.savePiece(at.therapist, { patientId, submissionId: form(), piece: worn }, next())).toMatchObject({
      kind: 'held',
    });
    const { pieceId, piece } = await waiting();
    const gone = { ...piece, retired: DAY, retiredReason: 'lost', retiredAs: 'lost' as const };
    const entry = { submissionId: form(), piece: gone, reason: 'out of use' };
    expect(await at.db.pieces.revisePiece(at.therapist, pieceId, 1, entry, next())).toMatchObject({ kind: 'saved' });
  });

  it('is lifted by name, reason and the prescriber’s word, which are kept beside the piece in one write', async () => {
    const { pieceId, piece } = await waiting();
    const entry = { submissionId: form(), piece: { ...piece, firstWorn: DAY }, reason: 'first worn', handOver: await lifting() };
    expect(await at.db.pieces.revisePiece(at.therapist, pieceId, 1, entry, next())).toMatchObject({ kind: 'saved' });
    const history = await at.db.cautions.cautionHistory(at.therapist, patientId);
    const lifted = history.find(({ card }) => card === LIFTED_CARD);
    expect(lifted).toMatchObject({
      by: at.therapist.id,
      answer: 'not-known',
      words: expect.stringMatching(/wound closed.*Dr Hale.*by phone/),
    });
    expect(history.find(({ card }) => card === UNASKED_CARD)?.words).toBe('asked last week');
    const [deed] = (await at.db.audit.auditEntries(at.therapist, 20, patientId)).filter(
      ({ action }) => action === 'hold lifted by override',
    );
    expect(deed).toBeDefined();
    expect(await stops()).toHaveLength(1);
  });

  it('that is answered between the reading of stops and the write holds it all the same', async () => {
    await answer('broken-skin', 'absent', 'closed');
    const { writeUnlessHeld, stopsNotLifted } = at.db.holds;
    let reads = 0;
    const notLifted = async () => {
      const found = await stopsNotLifted(at.therapist, patientId, { limb: 'leg', side: 'right' }, [], new Date());
      if (++reads === 1) await answer('broken-skin', 'present', 'heel');
      return found;
    };
    const { pieceId, statements } = at.db.pieces.newPiece(
      at.therapist,
      patientId,
      { submissionId: form(), piece: pieceFrom(visitId, '2026-10-14', 'raced') },
      next(),
    );
    expect(await writeUnlessHeld(at.therapist, patientId, notLifted, statements)).toMatchObject({
      kind: 'held',
      stops: [{ card: 'broken-skin' }],
    });
    expect(reads).toBe(2);
    expect((await at.db.readingPieces.piecesOfPatients(at.therapist, [patientId])).some((one) => one.pieceId === pieceId)).toBe(false);
  });

  it('is not lifted by what was said of an earlier answer', async () => {
    const before = await lifting();
    await answer('broken-skin', 'present', 'heel and ankle');
    const { pieceId, piece } = await waiting();
    const entry = { submissionId: form(), piece: { ...piece, firstWorn: DAY }, reason: 'first worn', handOver: before };
    expect(await at.db.pieces.revisePiece(at.therapist, pieceId, 1, entry, next())).toMatchObject({ kind: 'held' });
  });

  it('holds an order that is sent and its delivery; each is lifted on its own', async () => {
    const saved = await at.db.orders.proposeOrder(at.therapist, {
      patientId,
      submissionId: form(),
      order: orderFrom(visitId, '2026-10-14'),
    });
    if (!('orderId' in saved)) throw new Error(saved.kind);
    const kept = (await at.db.readingOrders.orderWithHistory(at.therapist, saved.orderId))?.current as Order;
    const [ladder] = visitOn('2026-10-14').ladders;
    if (!ladder) throw new Error('no ladder');
    const figures = { day: calendarDay('2026-10-14'), visitRevision: 1, measurer: 'RA', ladder, readings: [], height: null, weight: null };
    const left = (answers: Order['questions']) => sentOrder(kept, { sent: figures, ordered: DAY, expected: DAY, answers });
    const send = (order: Order) => {
      const added = piecesOfOrder(order, ['900']).map((piece) => ({ ...piece, cutFromVisitId: visitId, retiredReason: null }));
      return at.db.orders.reviseOrder(
        at.therapist,
        saved.orderId,
        1,
        { submissionId: form(), deed: 'sent', reason: 'sent', order, pieces: { added } },
        next(),
      );
    };
    expect(await send(left([]))).toMatchObject({ kind: 'held', stops: [{ card: 'broken-skin' }] });
    const said = (text: string) => left([{ key: key ?? '', message: 'm', answer: text, by: at.therapist.id, at: '2026-10-20T09:00:00Z' }]);
    const [{ key } = { key: '' }] = await stops();
    expect(await send(said(' '))).toMatchObject({ kind: 'held' });
    expect(await send(said('Goes on because: closed.'))).toMatchObject({ kind: 'saved' });
    const deliver = (handOver?: HandOver) =>
      at.db.orders.reviseOrder(
        at.therapist,
        saved.orderId,
        2,
        { submissionId: form(), deed: 'delivered', reason: 'delivered', order: said('x'), ...(handOver ? { handOver } : {}) },
        next(),
      );
    expect(await deliver()).toMatchObject({ kind: 'held' });
    expect(await deliver(await lifting())).toMatchObject({ kind: 'saved' });
  });

  it('of another limb holds nothing here, and a card answered anew holds nothing any more', async () => {
    await answer('broken-skin', 'absent', 'closed, looked at today');
    await answer('new-swelling-left-arm', 'present');
    const { pieceId, piece } = await waiting();
    const entry = { submissionId: form(), piece: { ...piece, firstWorn: DAY }, reason: 'first worn' };
    expect(await at.db.pieces.revisePiece(at.therapist, pieceId, 1, entry, next())).toMatchObject({ kind: 'saved' });
  });
});
