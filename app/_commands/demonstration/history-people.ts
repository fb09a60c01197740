import type { CalendarDay } from '@/lib/units/calendar-day';
import { ARMS, armVisit, swollen } from './arm-tapings';
import { clinicDay, type DemoPatient, demoPatient } from './demo-patient';
import { seededRandom } from './seeded-random';

/** Who was in care in the two years before today, besides the named people: by numbers, with plainly made-up names. */
const PEOPLE = 48;
/** Days from one of them to the next, and from one visit and order of theirs to the next. */
const APART = 15;
const BETWEEN = 62;
const STAY = 340;
const FIRST_BACK = 730;

/** Days back in which the makers had misread a column: what a chart is to find. */
const BAD_FROM = 200;
const BAD_UNTIL = 172;

/** A piece of the history: the visit it was cut from, its days, how its fitting ended and whether it was worn out since. */
export type HistoryPiece = {
  readonly visit: number;
  readonly ordered: CalendarDay;
  readonly delivered: CalendarDay;
  readonly fitted: CalendarDay;
  readonly outcome: 'keep' | 'alter' | 'remake';
  readonly reason: (typeof REASONS)[number] | null;
  /** The second fitting of what went back. */
  readonly again: CalendarDay | null;
  readonly retired: CalendarDay | null;
};

/** One of them: as the demonstration writes a person, with pieces of their own kind, and booked visits that were missed. */
export type HistoryPerson = {
  readonly person: DemoPatient;
  readonly pieces: readonly HistoryPiece[];
  readonly missed: readonly CalendarDay[];
};

const REASONS = ['girth wrong', 'girth wrong', 'length wrong', 'sewing fault'] as const;

/**
 * The people of the two years before a day, from a fixed seed: a swollen arm that comes down, visits every two months with two sleeves each, then discharged.
 *
 * About 4 % remakes, half of those of four bad weeks half a year ago; making takes 12 to 16 days, nine more then; 6 % of booked visits are missed.
 * Pure: the same day gives the same people. Example: on any day the first of them, `Background 01`, was measured first two years ago.
 */
export function historyPeople(today: CalendarDay): readonly HistoryPerson[] {
  return Array.from({ length: PEOPLE }, (_, index) => {
    const number = String(index + 1).padStart(2, '0');
    const random = seededRandom(`history ${number}`);
    const firstBack = FIRST_BACK - APART * index;
    const endBack = Math.max(2, firstBack - STAY);
    const backs = Array.from({ length: 6 }, (_, visit) => firstBack - BETWEEN * visit).filter((back) => back > endBack);
    const side = random.uniform() < 0.5 ? 'left' : 'right';
    const kg = 62 + 14 * random.uniform();
    const sizes = backs.map((_, visit) => 0.16 * 0.72 ** visit + 0.01 * random.normal());
    const person = demoPatient(
      {
        ...{
          reference: `BG-${number}`,
          name: `Background ${number}`,
          shows: 'two years behind the clinic',
          sex: 'F',
          years: 48,
          months: index % 12,
        },
        ...{ shape: 'woman', heightCm: 160 + Math.round(10 * random.uniform()), diagnosisGroup: 'lymphoedema', language: 'en' },
        ...{ note: 'Made up: one of those who are behind the figures of the clinic.', affected: [side], affectedFactor: 1 },
        taping: { ...ARMS, interval: 6 },
        visits: backs.map((back, visit) =>
          armVisit(back, '10:00', visit % 3 === 2 ? 'KD' : 'MT', Number((kg + 0.3 * random.normal()).toFixed(1)), {
            swelling: swollen(side, Math.max(0, sizes[visit] ?? 0)),
          }),
        ),
        pieces: [],
        phases: [
          { kind: 'reduction', daysBack: backs[0] ?? 0 },
          ...(backs[1] === undefined ? [] : [{ kind: 'garments' as const, daysBack: backs[1] }]),
          { kind: 'ended', daysBack: endBack, endedAs: 'discharged' },
        ],
      },
      today,
    );
    const piecesOf = (back: number, visit: number) => [0, 1].flatMap(() => pieceOf(back, visit, endBack, today, random) ?? []);
    const missed = backs.flatMap((back) => (random.uniform() < 0.08 && back > endBack + 10 ? [clinicDay(today, back - 6)] : []));
    return { person, pieces: backs.flatMap(piecesOf), missed };
  });
}

function pieceOf(
  back: number,
  visit: number,
  endBack: number,
  today: CalendarDay,
  random: ReturnType<typeof seededRandom>,
): HistoryPiece | undefined {
  const isBad = back <= BAD_FROM && back > BAD_UNTIL;
  const ordered = back - 1;
  const delivered = ordered - 12 - Math.floor(random.uniform() * 5) - (isBad ? 9 : 0);
  const fitted = delivered - 1 - Math.floor(random.uniform() * 3);
  const chance = random.uniform();
  const outcome = chance < (isBad ? 0.5 : 0.04) ? 'remake' : chance > 0.9 ? 'alter' : 'keep';
  const reason = outcome === 'keep' ? null : (REASONS[Math.floor(random.uniform() * REASONS.length)] ?? null);
  const again = outcome === 'keep' ? null : fitted - 12;
  if ((again ?? fitted) <= endBack) return undefined;
  const day = (daysBack: number) => clinicDay(today, daysBack);
  const retired = Math.max(endBack, fitted - 70);
  return {
    visit,
    ...{ ordered: day(ordered), delivered: day(delivered), fitted: day(fitted), outcome, reason },
    ...{ again: again === null ? null : day(again), retired: day(retired) },
  };
}
