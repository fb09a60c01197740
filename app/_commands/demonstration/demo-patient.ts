import type { TypedVisit } from '@/db/patients/visits';
import type { Phase } from '@/lib/course/phases';
import type { OrderChoice } from '@/lib/forms/read-order-form';
import type { GarmentSpec } from '@/lib/garment-forms/garment-catalogue';
import type { PatientDetails } from '@/lib/record/patient-details';
import type { CoverEnd, LimbSide, Piece } from '@/lib/record/patient-record';
import { addDays, addMonths, type CalendarDay, dayNumber } from '@/lib/units/calendar-day';
import { storyLength } from './hand';
import type { Story, StoryAnswer, StoryOrder, StoryPiece } from './story';
import { tapeVisit } from './tape-visit';

/** A piece of the demonstration, with its first-fit day and why it was taken out of use. */
export type DemoPiece = Piece & { readonly firstFit: CalendarDay | null; readonly retiredReason: string | null };

/** An order of the demonstration: what was chosen, the visit it is cut from, and when it was sent. */
export type DemoOrder = {
  readonly choice: OrderChoice;
  readonly sent: { readonly ordered: CalendarDay; readonly expected: CalendarDay; readonly checked: string | null } | null;
};

/** An answer to a prompt of the demonstration: what the prompt asked for, what was said, when, and until which day it rests. */
export type DemoAnswer = Pick<StoryAnswer, 'action' | 'answer' | 'reason'> & {
  readonly day: CalendarDay;
  readonly until: CalendarDay | null;
};

/** A made-up patient as a clinic would have written them down; each piece is cut from the visit whose day is `cutFrom`. */
export type DemoPatient = {
  readonly details: PatientDetails & { readonly name: string };
  readonly visits: readonly TypedVisit[];
  readonly pieces: readonly DemoPiece[];
  readonly orders: readonly DemoOrder[];
  readonly answers: readonly DemoAnswer[];
  readonly phases: readonly Phase[];
  readonly cautionsAsked: boolean;
  /** What this person is here to show. */
  readonly shows: string;
};

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
    orders: (story.orders ?? []).map((order) => demoOrder(story, order, today, days)),
    cautionsAsked: !story.cautionsUnasked,
    answers: (story.answers ?? []).map(({ action, answer, reason, ...when }) => ({
      action,
      answer,
      reason,
      day: clinicDay(today, when.daysBack),
      until: 'untilAhead' in when ? addDays(today, when.untilAhead) : null,
    })),
    phases: (story.phases ?? []).map(({ daysBack, baselineVisit, askAhead, ...phase }) => ({
      ...phase,
      from: clinicDay(today, daysBack),
      until: null,
      baselineDay: baselineVisit === undefined ? null : (days[baselineVisit] as CalendarDay),
      ...(askAhead !== undefined && { askOn: addDays(today, askAhead) }),
    })),
    shows: story.shows,
  };
}

function demoPiece(story: Story, planned: StoryPiece, today: CalendarDay, days: readonly CalendarDay[]): DemoPiece {
  const firstWorn = planned.firstWornBack === null ? null : clinicDay(today, planned.firstWornBack);
  return {
    piece: planned.piece,
    limb: story.taping.limb,
    side: planned.side,
    covers: planned.madeTo ? 'measures' : coversOf(planned),
    cutFrom: days[planned.cutFromVisit] as CalendarDay,
    reductionPct: planned.reductionPct,
    convention: 'C(1-r)',
    allowance: planned.allowance ? storyLength(planned.allowance) : null,
    firstWorn,
    firstFit: planned.firstFitMissing ? null : firstWorn,
    lifeDays: planned.lifeDays,
    leadDays: planned.leadDays,
    garment: planned.madeTo ? { ...garmentOf(story), form: planned.madeTo, use: 'night' } : garmentOf(story),
    retired: planned.retired ? clinicDay(today, planned.retired.daysBack) : null,
    retiredReason: planned.retired?.reason ?? null,
    retiredAs: planned.retired ? (planned.retired.reason === 'worn out' ? 'worn' : 'condition changed') : null,
  };
}

function demoOrder(story: Story, planned: StoryOrder, today: CalendarDay, days: readonly CalendarDay[]): DemoOrder {
  const { side, reductionPct, quantity, lifeDays, leadDays, reasonCode } = planned;
  const choice: OrderChoice = {
    limb: story.taping.limb,
    side,
    cutFrom: days[planned.cutFromVisit] as CalendarDay,
    covers: coversOf(planned),
    garment: garmentOf(story),
    reductionPct,
    convention: 'C(1-r)',
    quantity,
    lifeDays,
    leadDays,
    reasonCode,
    note: null,
    decided: planned.allowance ? storyLength(planned.allowance) : null,
  };
  if (planned.sentBack === null) return { choice, sent: null };
  const ordered = clinicDay(today, planned.sentBack);
  return { choice, sent: { ordered, expected: addDays(ordered, leadDays), checked: planned.checkedBy ?? null } };
}

function coversOf({ from, to }: { readonly from: string; readonly to: string }): Piece['covers'] {
  const end = (text: string) => (/\d/.test(text) ? storyLength(text) : (text as CoverEnd));
  return { from: end(from), to: end(to) };
}

/** The story's form, else sleeves of the limb; swelling and venous disease by a class of the clinic's own scheme, scars without one. */
function garmentOf(story: Story): GarmentSpec {
  const form = story.form ?? (story.taping.limb === 'leg' ? 'leg-sleeve' : 'arm-sleeve');
  const byClass = story.diagnosisGroup !== 'burn scar';
  const pressure = byClass ? { scheme: 'the clinic’s own scheme', name: 'class 2', lowMmHg: 20, highMmHg: 30 } : null;
  return { form, use: 'day', pressure, options: [] };
}
