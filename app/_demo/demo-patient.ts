import type { PatientDetails } from '@/db/patients';
import type { TypedVisit } from '@/db/visits';
import type { LimbSide, PatientRecord, Piece } from '@/lib/record/patient-record';
import { addDays, addMonths, type CalendarDay, dayNumber } from '@/lib/units/calendar-day';
import { storyLength } from './hand';
import type { Story, StoryPiece } from './story';
import { tapeVisit } from './tape-visit';

/** A piece of the demonstration, with its first-fit day and why it was taken out of use. */
export type DemoPiece = Piece & { readonly firstFit: CalendarDay | null; readonly retiredReason: string | null };

/** A made-up patient as a clinic would have written them down; each piece is cut from the visit whose day is `cutFrom`. */
export type DemoPatient = {
  readonly details: PatientDetails & { readonly name: string };
  readonly visits: readonly TypedVisit[];
  readonly pieces: readonly DemoPiece[];
  /** What this person is here to show. */
  readonly shows: string;
};

/** The same person as the rules see them. */
export function demoRecord({ details, visits, pieces }: DemoPatient): PatientRecord {
  return { reference: details.reference, born: details.born, sex: details.sex, affected: details.affected, visits, pieces };
}

/** The working day so many days before today: a Saturday or Sunday becomes the Friday before. */
export function clinicDay(today: CalendarDay, daysBack: number): CalendarDay {
  const day = addDays(today, -daysBack);
  const weekday = (dayNumber(day) + 4) % 7;
  if (weekday === 6) return addDays(day, -1);
  return weekday === 0 ? addDays(day, -2) : day;
}

/** A story told backwards from today as a patient with visits and pieces. */
export function demoPatient(story: Story, today: CalendarDay): DemoPatient {
  const born = addDays(addMonths(today, -(12 * story.years + story.months)), -9);
  const days = story.visits.map((visit) => clinicDay(today, visit.daysBack));
  const { limb } = story.taping;
  return {
    details: {
      reference: story.reference,
      name: story.name,
      born,
      sex: story.sex,
      affected: story.affected.map((side): LimbSide => ({ limb, side })),
      diagnosisGroup: story.diagnosisGroup,
      language: story.language,
      note: story.note,
    },
    visits: story.visits.map((visit, number) => tapeVisit(story, number, visit, born, days[number] as CalendarDay)),
    pieces: story.pieces.map((piece) => demoPiece(story, piece, today, days)),
    shows: story.shows,
  };
}

function demoPiece(story: Story, planned: StoryPiece, today: CalendarDay, days: readonly CalendarDay[]): DemoPiece {
  const end = (text: string) => (/\d/.test(text) ? storyLength(text) : (text as Piece['covers']['from']));
  const firstWorn = planned.firstWornBack === null ? null : clinicDay(today, planned.firstWornBack);
  return {
    piece: planned.piece,
    limb: story.taping.limb,
    side: planned.side,
    covers: { from: end(planned.from), to: end(planned.to) },
    cutFrom: days[planned.cutFromVisit] as CalendarDay,
    reductionPct: planned.reductionPct,
    convention: 'C(1-r)',
    allowance: planned.allowance ? storyLength(planned.allowance) : null,
    firstWorn,
    firstFit: planned.firstFitMissing ? null : firstWorn,
    lifeDays: planned.lifeDays,
    leadDays: planned.leadDays,
    retired: planned.retired ? clinicDay(today, planned.retired.daysBack) : null,
    retiredReason: planned.retired?.reason ?? null,
  };
}
