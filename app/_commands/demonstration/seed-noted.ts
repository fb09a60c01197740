import { type NotedEntry, saveNoted } from '@/db/patients/noted';
import type { Therapist } from '@/db/therapist';
import type { Booking } from '@/lib/diary/booking';
import type { Observation } from '@/lib/observations/observation';
import { NO_FACTS, type WorkFacts } from '@/lib/record/work-facts';
import { addDays, type CalendarDay } from '@/lib/units/calendar-day';
import { clinicDay, type DemoPatient } from './demo-patient';
import { writtenAt } from './written-at';

/** What is noted of a made-up person beside the measures; days count back from today, bookings ahead. */
type NotedStory = {
  readonly facts?: (back: (days: number) => CalendarDay) => Partial<WorkFacts>;
  readonly bookings?: readonly (Pick<Booking, 'time' | 'what' | 'state'> & { readonly ahead: number })[];
  readonly seen?: readonly (Pick<Observation, 'kind' | 'figures' | 'side' | 'choice' | 'words'> & {
    readonly back: number;
    readonly place?: Observation['place'];
  })[];
};

type Seen = NonNullable<NotedStory['seen']>[number];

const scar = (back: number, redness: number, height: number): Seen => ({
  ...{ kind: 'scar', side: 'right', choice: null, words: null, back },
  figures: { redness, height, firmness: height + 1, colour: 4 },
});

/** By name: a swelling with all that is asked for the work, a burnt child with scar and marks, a visit that was missed, one that is booked. */
const STORIES: Readonly<Record<string, NotedStory>> = {
  'Grete Holloway': {
    facts: (back) => ({
      ...{ referralDay: back(260), referralUntil: addDays(back(0), 33), referralFor: 'two sleeves, class 2', prescriber: 'Dr. Pell' },
      ...{
        prescriberReach: '555-0100, mornings',
        stage: 'II',
        dominantHand: 'right',
        cause: 'operation of the breast',
        injured: back(900),
      },
      contacts: [{ name: 'Grete', relation: 'herself', phone: '555-0177, after 16:00' }],
      consents: [{ to: 'share measures with the prescriber', day: back(260) }],
    }),
    seen: [
      { kind: 'hours-worn', figures: { days: 7, hours: 12, planned: 12 }, side: null, choice: null, words: null, back: 92 },
      { kind: 'hours-worn', figures: { days: 4, hours: 7, planned: 12 }, side: null, choice: null, words: 'too hot at work', back: 3 },
    ],
  },
  'Lia Fontane': {
    facts: (back) => ({
      ...{ cause: 'scald at home', injured: back(420), healed: back(380), grafted: [back(408)], burntPct: 12, prescriber: 'Dr. Orm' },
      contacts: [{ name: 'Ada Fontane', relation: 'mother', phone: '555-0142' }],
      interpreter: false,
    }),
    seen: [
      ...[scar(180, 7, 6), scar(90, 5, 5), scar(20, 4, 5)],
      { kind: 'itch', figures: { itch: 6 }, side: null, choice: null, words: null, back: 90 },
      { kind: 'itch', figures: { itch: 3 }, side: null, choice: null, words: null, back: 20 },
      {
        ...{ kind: 'skin-mark', figures: { 'size-mm': 15 }, side: null, choice: 'red', words: 'under the seam', back: 20 },
        place: { limb: 'leg', side: 'right', along: 0.4 },
      },
    ],
  },
  'Rui Castellan': {
    facts: () => ({ contacts: [{ name: 'Joana Castellan', relation: 'aunt', phone: '555-0119' }], interpreter: true }),
    bookings: [{ ahead: -5, time: '10:30', what: 'measure', state: 'missed' }],
  },
  'Inga Tolland': { bookings: [{ ahead: 6, time: '11:00', what: 'fit the made sleeve', state: 'booked' }] },
};

/** Writes what is noted of a made-up person, as a therapist would have on those days. */
export async function seedNoted(lead: Therapist, patientId: string, { details }: DemoPatient, today: CalendarDay): Promise<void> {
  const story = STORIES[details.name];
  if (!story) return;
  const back = (days: number) => clinicDay(today, days);
  const facts = story.facts && { ...NO_FACTS, ...story.facts(back) };
  if (facts)
    await write(
      lead,
      patientId,
      { kind: 'facts', thing: patientId, day: null, content: facts, deed: 'facts for the work written' },
      back(30),
    );
  for (const { ahead, ...rest } of story.bookings ?? []) {
    const day = clinicDay(addDays(today, ahead), 0);
    await write(
      lead,
      patientId,
      { kind: 'booking', thing: crypto.randomUUID(), day, content: { day, ...rest }, deed: 'visit booked' },
      back(12),
    );
  }
  for (const { back: days, place = null, ...rest } of story.seen ?? []) {
    const day = back(days);
    const content: Observation = { ...rest, version: '1', day, place, gone: null, rater: lead.name };
    await write(lead, patientId, { kind: 'observation', thing: crypto.randomUUID(), day, content, deed: 'observation added' }, day);
  }
}

async function write(
  lead: Therapist,
  patientId: string,
  entry: Pick<NotedEntry, 'kind' | 'thing' | 'day' | 'content' | 'deed'>,
  on: CalendarDay,
): Promise<void> {
  const saved = await saveNoted(lead, patientId, { ...entry, expected: 0, reason: null, submissionId: crypto.randomUUID() }, writtenAt(on));
  if (saved.kind !== 'saved') throw new Error(`what is noted of a made-up person was not saved: ${saved.kind}`);
}
