import { and, desc, eq, gte, isNull, lte, type SQL, type SQLWrapper, sql } from 'drizzle-orm';
import type { ServicePeriod } from '@/lib/service/service-period';
import { getDatabase } from '../client';
import type { Therapist } from '../therapist';
import { ANSWER_FIGURES, type AnswerFigure, type AnswerRow, answerRows } from './answer-rows';
import { answeredOf } from './answered';
import { careRows } from './care-counts';
import { bookedOf, deliveredOf, fittingsOf, keptOf } from './cases';

/** Figures whose rows can be listed. */
export const ROW_FIGURES = [
  'first-fits',
  'fittings',
  'remakes',
  'to-fit',
  'making',
  'booked',
  'prompts',
  'without',
  'excess',
  ...ANSWER_FIGURES,
] as const;
export type RowFigure = (typeof ROW_FIGURES)[number];

/** One case behind a figure: whose, of which piece (none for a prompt), on which day (a moment for a prompt), and what was counted of it. */
export type ServiceRow = {
  readonly patientId: string;
  readonly pieceId: string | null;
  readonly label: string | null;
  readonly day: string | Date;
  readonly days: number | null;
  readonly what: string | null;
  readonly of: string | null;
  /** Of a given answer: what came of it. */
  readonly answer?: Omit<AnswerRow, 'patientId' | 'day' | 'of' | 'total'>;
};

/** Which cases: of one reason, form, rule or given answer, phase, those that went back or did not (`yes`, `no`), or all; `null` is those that name none. */
export const ROW_KINDS = ['reason', 'form', 'rule', 'back', 'answer', 'phase'] as const;
export type RowChoice = { readonly figure: RowFigure; readonly by?: (typeof ROW_KINDS)[number]; readonly of?: string | null };

/** The cases behind a figure, the newest first, at most so many, and how many there are in all. */
export async function serviceRows(
  therapist: Therapist,
  { figure, by, of }: RowChoice,
  period: ServicePeriod,
  most: number,
): Promise<{ readonly rows: readonly ServiceRow[]; readonly total: number }> {
  const database = await getDatabase();
  const isOf = (column: SQLWrapper): SQL | undefined => (of === null ? isNull(column) : of === undefined ? undefined : eq(column, of));
  const isWithin = (month: SQLWrapper) => and(lte(month, period.to), period.from ? gte(month, period.from) : undefined);
  const total = sql`count(*) over ()`.mapWith(Number);
  if (figure === 'without' || figure === 'excess') {
    const found = await careRows(database, therapist, figure, by === 'phase' && of != null ? of : undefined, period, most);
    return listed(
      found.map(({ limb, side, some, whole, phase, lost, kept, ...row }) => {
        const points = `${((lost ?? 0) / 10).toFixed(1)} percentage points of excess lost`;
        const what =
          figure === 'without' ? `of ${whole} without a working piece` : `${points}${kept === null ? '' : kept ? ', kept' : ', not kept'}`;
        return {
          ...row,
          ...{ pieceId: null, label: null, days: figure === 'without' ? some : null, what },
          of: `${side} ${limb}${phase ? `, ${phase}` : ''}`,
        };
      }),
    );
  }
  if (isOfAnswer(figure)) {
    const found = await answerRows(database, therapist, figure, by === 'answer' && of != null ? of : undefined, period, most);
    return listed(
      found.map(({ patientId, day, of: name, total: all, ...answer }) => ({
        ...{ patientId, day, of: name, total: all, answer },
        ...{ pieceId: null, label: null, days: null, what: null },
      })),
    );
  }
  if (figure === 'prompts') {
    const answered = answeredOf(database, therapist, period);
    const rows = await database
      .select({ patientId: answered.patientId, day: answered.at, what: answered.answer, of: answered.rule, total })
      .from(answered)
      .where(by === 'rule' ? isOf(answered.rule) : undefined)
      .orderBy(desc(answered.at), answered.patientId)
      .limit(most);
    return listed(rows.map((row) => ({ ...row, pieceId: null, label: null, days: null })));
  }
  if (figure === 'to-fit') {
    const kept = keptOf(database, therapist);
    const { patientId, pieceId, label, day, days, wentBack } = kept;
    const rows = await database
      .select({ patientId, pieceId, label, day, days, wentBack, total })
      .from(kept)
      .where(and(isWithin(kept.month), by === 'back' ? eq(wentBack, of === 'yes' ? 1 : 0) : undefined))
      .orderBy(desc(day), pieceId)
      .limit(most);
    return listed(rows.map(({ wentBack: back, ...row }) => ({ ...row, what: Number(back) === 1 ? 'went back before' : null, of: null })));
  }
  if (figure === 'making') {
    const delivered = deliveredOf(database, therapist);
    const { patientId, pieceId, label, day, days, form } = delivered;
    const rows = await database
      .select({ patientId, pieceId, label, day, days, of: form, total })
      .from(delivered)
      .where(and(isWithin(delivered.month), by === 'form' ? isOf(form) : undefined))
      .orderBy(desc(day), pieceId)
      .limit(most);
    return listed(rows.map((row) => ({ ...row, what: null })));
  }
  if (figure === 'booked') {
    const booked = bookedOf(database, therapist);
    const { patientId, day, standing } = booked;
    const rows = await database
      .select({ patientId, day, what: standing, total })
      .from(booked)
      .where(isWithin(booked.month))
      .orderBy(desc(day), booked.bookingId)
      .limit(most);
    return listed(rows.map((row) => ({ ...row, pieceId: null, label: null, days: null, of: null })));
  }
  const fittings = fittingsOf(database, therapist);
  const { patientId, pieceId, label, day, outcome, reason, form } = fittings;
  const wanted = [
    isWithin(fittings.month),
    figure === 'first-fits' ? eq(fittings.turn, 1) : undefined,
    figure === 'remakes' ? eq(outcome, 'remake') : undefined,
    by === 'form' ? isOf(form) : by === 'reason' ? isOf(reason) : undefined,
  ];
  const rows = await database
    .select({ patientId, pieceId, label, day, what: outcome, reason, of: form, total })
    .from(fittings)
    .where(and(...wanted))
    .orderBy(desc(day), pieceId, desc(fittings.number))
    .limit(most);
  return listed(rows.map(({ reason: why, what, ...row }) => ({ ...row, days: null, what: why ? `${what}: ${why}` : what })));
}

function isOfAnswer(figure: RowFigure): figure is AnswerFigure {
  return (ANSWER_FIGURES as readonly string[]).includes(figure);
}

function listed(rows: readonly (ServiceRow & { readonly total: number })[]) {
  return {
    rows: rows.map(({ total: _total, days, ...row }) => ({ ...row, days: days === null ? null : Number(days) })),
    total: rows[0]?.total ?? 0,
  };
}
