import { asc, type SQLWrapper, sql } from 'drizzle-orm';
import { areRemakesRare } from '@/lib/service/service-charts';
import type { AnswerCount, Month, ServiceCounts } from '@/lib/service/service-counts';
import { betweenRemakes, type FittingDay } from '@/lib/service/service-parts';
import type { ServicePeriod } from '@/lib/service/service-period';
import { getDatabase } from '../client';
import type { Database } from '../sql/database';
import type { Therapist } from '../therapist';
import { rightCounts } from './answer-counts';
import { answeredOf } from './answered';
import { careCounts } from './care-counts';
import { bookedOf, deliveredOf, fittingsOf, keptOf } from './cases';

const N = sql`count(*)`.mapWith(Number);
const by = (...columns: readonly SQLWrapper[]) => columns.map((column) => sql`${column}`);

/** What the clinic's record holds of its own service, counted by the database; answers to prompts, what came of what was given, and care are those of the period. */
export async function serviceCounts(therapist: Therapist, period: ServicePeriod): Promise<ServiceCounts> {
  return { ...(await wholeCounts(therapist)), ...(await periodCounts(therapist, period)) };
}

/** What is counted over the whole record, whatever the period. */
async function wholeCounts(therapist: Therapist): Promise<Omit<ServiceCounts, 'answers' | 'right' | 'care'>> {
  const database = await getDatabase();
  const fittings = await fittingCounts(database, therapist);
  return {
    fittings,
    kept: await keptCounts(database, therapist),
    delivered: await deliveredCounts(database, therapist),
    booked: await bookedCounts(database, therapist),
    betweenRemakes: areRemakesRare(fittings) ? betweenRemakes(await fittingDays(database, therapist)) : [],
  };
}

/** What is counted of a period. */
async function periodCounts(therapist: Therapist, period: ServicePeriod): Promise<Pick<ServiceCounts, 'answers' | 'right' | 'care'>> {
  const database = await getDatabase();
  return {
    answers: await answerCounts(database, therapist, period),
    right: await rightCounts(database, therapist, period),
    care: await careCounts(database, therapist, period),
  };
}

async function fittingCounts(database: Database, therapist: Therapist): Promise<ServiceCounts['fittings']> {
  const fittings = fittingsOf(database, therapist);
  const { month, form, outcome, reason } = fittings;
  const turns = database
    .select({ month, form, outcome, reason, later: sql<number>`case when ${fittings.turn} = 1 then 0 else 1 end`.as('later') })
    .from(fittings)
    .as('turns');
  const rows = await database
    .select({ month: turns.month, form: turns.form, outcome: turns.outcome, reason: turns.reason, later: turns.later, n: N })
    .from(turns)
    .groupBy(...by(turns.month, turns.form, turns.outcome, turns.reason, turns.later))
    .orderBy(asc(turns.month));
  return rows.map(({ later, month: of, ...row }) => ({ ...row, month: of as Month, isFirst: Number(later) === 0 }));
}

async function keptCounts(database: Database, therapist: Therapist): Promise<ServiceCounts['kept']> {
  const kept = keptOf(database, therapist);
  const sum = (days: ReturnType<typeof sql>) =>
    sql`coalesce(sum(case when ${kept.making} is null then 0 else ${days} end), 0)`.mapWith(Number);
  const rows = await database
    .select({
      month: kept.month,
      wentBack: kept.wentBack,
      days: kept.days,
      n: N,
      parted: sql`count(${kept.making})`.mapWith(Number),
      measuring: sum(sql`${kept.measuring}`),
      making: sum(sql`${kept.making}`),
      waiting: sum(sql`${kept.waiting}`),
    })
    .from(kept)
    .groupBy(...by(kept.month, kept.wentBack, kept.days))
    .orderBy(asc(kept.month));
  return rows.map(({ month, wentBack, days, ...row }) => ({
    ...row,
    month: month as Month,
    wentBack: Number(wentBack) === 1,
    days: Number(days),
  }));
}

async function deliveredCounts(database: Database, therapist: Therapist): Promise<ServiceCounts['delivered']> {
  const delivered = deliveredOf(database, therapist);
  const { month, form, days } = delivered;
  const rows = await database
    .select({ month, form, days, n: N })
    .from(delivered)
    .groupBy(...by(month, form, days))
    .orderBy(asc(month));
  return rows.map((row) => ({ ...row, month: row.month as Month, days: Number(row.days) }));
}

async function bookedCounts(database: Database, therapist: Therapist): Promise<ServiceCounts['booked']> {
  const booked = bookedOf(database, therapist);
  const { month, standing } = booked;
  const rows = await database
    .select({ month, standing, n: N })
    .from(booked)
    .groupBy(...by(month, standing))
    .orderBy(asc(month));
  return rows.map((row) => ({ ...row, month: row.month as Month }));
}

/** How many fittings of each day were a remake and how many not. */
async function fittingDays(database: Database, therapist: Therapist): Promise<readonly FittingDay[]> {
  const fittings = fittingsOf(database, therapist);
  const isRemake = sql`case when ${fittings.outcome} = 'remake' then 1 else 0 end`;
  return database
    .select({ day: fittings.day, others: sql`sum(1 - ${isRemake})`.mapWith(Number), remakes: sql`sum(${isRemake})`.mapWith(Number) })
    .from(fittings)
    .groupBy(...by(fittings.day))
    .orderBy(asc(fittings.day));
}

async function answerCounts(database: Database, therapist: Therapist, period: ServicePeriod): Promise<ServiceCounts['answers']> {
  const answered = answeredOf(database, therapist, period);
  const { rule, answer } = answered;
  const rows = await database
    .select({ rule, answer, n: N })
    .from(answered)
    .groupBy(...by(rule, answer))
    .orderBy(asc(rule));
  return rows.map((row) => ({ ...row, answer: row.answer as AnswerCount['answer'] }));
}
