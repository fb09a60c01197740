import { eq } from 'drizzle-orm';
import { getDatabase } from '@/db/client';
import { garmentOrder, orderRevision, piece, pieceRevision, serviceCase, visit, workState } from '@/db/schema/schema';
import { countUncounted } from '@/db/service/renew-parts';
import { addDays, type CalendarDay, dayNumber } from '@/lib/units/calendar-day';
import { seeded } from '@/tests/cohort/random';
import type { FilledClinic } from './filled-clinic';
import { pieceOf } from './made-up-rows';

/** Pieces of a patient, and patients written together. */
const PIECES = 3;
const AT_ONCE = 100;

/** Months in care of a patient. */
const MONTHS = 24;

/**
 * Gives every patient three pieces of one sent order, each fitted within the last two years, about one in twenty made again, and two years of months in care. Written straight,
 * four states a piece; then counted, as the writes would have been.
 */
export async function addServiceRows({ lead, today, patientIds }: Pick<FilledClinic, 'lead' | 'today' | 'patientIds'>): Promise<number> {
  const database = await getDatabase();
  const random = seeded(29);
  const owner = { clinicId: lead.clinicId };
  const signed = () => ({ id: crypto.randomUUID(), author: lead.id, at: new Date(0), reason: null, submissionId: crypto.randomUUID() });
  for (let from = 0; from < patientIds.length; from += AT_ONCE) {
    const some = patientIds.slice(from, from + AT_ONCE).map((patientId) => {
      const orderId = crypto.randomUUID();
      const fitted = addDays(today, -Math.floor(random.uniform() * 720) - 1);
      const [ordered, delivered] = [addDays(fitted, -16), addDays(fitted, -2 - Math.floor(random.uniform() * 3))];
      const taped = { ...owner, id: crypto.randomUUID(), patientId, day: addDays(ordered, -1), revision: 1 };
      const head = { ...owner, id: orderId, patientId, number: 1, state: 'ordered', revision: 1 } as const;
      const revision = { ...owner, ...signed(), orderId, number: 1, cutFromVisitId: taped.id, content: { ordered } as never };
      const pieces = Array.from({ length: PIECES }, (_, index) => {
        const { piece: _label, ...cut } = pieceOf(dayNumber(ordered));
        const isRemake = random.uniform() < 0.05;
        const fit = {
          ...{ day: fitted, zones: [], words: null, taught: false },
          ...(isRemake ? { outcome: 'remake', reason: 'girth wrong' } : { outcome: 'keep', reason: null }),
        } as const;
        const garment = { form: index === 0 ? 'glove' : 'arm-sleeve', use: 'day', pressure: null, options: [] } as const;
        const first = { ...cut, firstWorn: null, orderId, garment, label: `s${index}` };
        const came = { ...first, delivered };
        const kept = { ...came, fit, firstFit: isRemake ? null : fitted };
        const head = { ...owner, id: crypto.randomUUID(), patientId, label: `s${index}`, revision: 4 };
        const states = [first, came, kept, { ...kept, firstWorn: isRemake ? null : fitted }];
        return { head, states: states.map((state, at) => ({ ...owner, ...state, ...signed(), pieceId: head.id, number: at + 1 })) };
      });
      return { taped, head, revision, pieces };
    });
    const care = some.flatMap(({ taped: { patientId } }) =>
      Array.from({ length: MONTHS }, (_, at) => ({
        ...{ ...owner, id: `bench ${patientId} ${at}`, patientId, kind: 'without' as const, limb: 'leg' as const, side: 'left' as const },
        ...{ day: `${addDays(today, -30 * (at + 2)).slice(0, 7)}-01` as CalendarDay, whole: 30, some: random.uniform() < 0.2 ? 5 : 0 },
      })),
    );
    await database.insert(serviceCase).values(care);
    await database.insert(visit).values(some.map(({ taped }) => taped));
    await database.insert(garmentOrder).values(some.map(({ head }) => head));
    await database.insert(orderRevision).values(some.map(({ revision }) => revision));
    await database.insert(piece).values(some.flatMap(({ pieces }) => pieces.map(({ head }) => head)));
    for (const { pieces } of some)
      await database.insert(pieceRevision).values(pieces.flatMap(({ states }) => states as (typeof pieceRevision.$inferInsert)[]));
  }
  await database.update(workState).set({ counted: false }).where(eq(workState.clinicId, lead.clinicId));
  await countUncounted(lead);
  return patientIds.length * PIECES;
}
