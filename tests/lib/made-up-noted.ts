import type { Leaving } from '@/lib/course/leaving';
import type { Booking } from '@/lib/diary/booking';
import type { FamilyReply } from '@/lib/observations/family-reply';
import type { Observation } from '@/lib/observations/observation';
import type { WorkFacts } from '@/lib/record/work-facts';
import { calendarDay } from '@/lib/units/calendar-day';

/** Facts for the work of a made-up person, every box of them filled. */
export const FACTS: WorkFacts = {
  referralDay: calendarDay('2026-09-01'),
  referralUntil: calendarDay('2027-04-30'),
  referralFor: 'two "sleeves", class 2',
  prescriber: 'Dr. Pell',
  prescriberReach: '555-0100, mornings',
  stage: 'II, in the clinic’s words',
  dominantHand: 'right',
  cause: 'scald at home',
  injured: calendarDay('2025-11-20'),
  healed: calendarDay('2025-12-30'),
  grafted: [calendarDay('2025-11-28'), calendarDay('2025-12-06')],
  burntPct: 42.5,
  interpreter: true,
  contacts: [
    { name: 'Ada Vance', relation: 'mother', phone: '555-0177' },
    { name: 'Tom Vance', relation: null, phone: null },
  ],
  consents: [{ to: 'share measures with the prescriber', day: calendarDay('2026-09-02') }],
};

export const BOOKINGS: readonly Booking[] = [
  { day: calendarDay('2026-10-14'), time: '09:30', what: 'measure', state: 'booked' },
  { day: calendarDay('2026-12-02'), time: null, what: null, state: 'cancelled by the person' },
];

export const OBSERVATIONS: readonly Observation[] = [
  {
    kind: 'skin-mark',
    version: '1',
    day: calendarDay('2026-10-14'),
    figures: { 'size-mm': 20 },
    choice: 'red',
    side: null,
    place: { limb: 'leg', side: 'left', along: 0.25 },
    gone: calendarDay('2026-10-20'),
    rater: 'R. Adeyemi',
    words: 'at the seam',
  },
  {
    kind: 'hours-worn',
    version: '1',
    day: calendarDay('2026-10-14'),
    figures: { days: 6, hours: 11.5 },
    choice: null,
    side: null,
    place: null,
    gone: null,
    rater: null,
    words: null,
  },
];

export const LEAVING_GONE: Leaving = {
  day: calendarDay('2026-10-20'),
  criteria: [
    { words: 'Puts the garment on "alone"', met: true },
    { words: 'Knows who supplies the next garment', met: false },
  ],
  supplies: 'the family doctor',
  note: null,
};

/** Replies of a family: one with all there is and its answer, one with hours alone. */
export const REPLIES: readonly FamilyReply[] = [
  {
    ...{ day: calendarDay('2026-10-20'), time: '09:30', pageOf: calendarDay('2026-10-14'), hours: 6.5, planned: 12, call: true },
    marks: [{ place: { limb: 'leg', side: 'left', along: 0.5 }, sign: 'red' }],
    words: '=it rubs, "at night"',
    by: 'Ada',
    answer: { did: 'rung', day: calendarDay('2026-10-21'), by: 'R. Adeyemi', words: 'seam looked at' },
  },
  {
    ...{ day: calendarDay('2026-10-22'), time: '23:59', pageOf: calendarDay('2026-10-14'), hours: 0, planned: null, call: false },
    ...{ marks: [], words: null, by: null, answer: null },
  },
];
