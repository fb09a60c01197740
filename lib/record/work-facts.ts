import { type CalendarDay, showDay } from '../units/calendar-day';

/** Somebody to ring about a person: who it is to them, and the number. */
export type Contact = { readonly name: string; readonly relation: string | null; readonly phone: string | null };

/** A consent that a person gave: for what, and on which day. */
export type Consent = { readonly to: string; readonly day: CalendarDay };

/** Which hand is used for most things. */
export const DOMINANT = ['left', 'right', 'both'] as const;

/**
 * Who a person is, for the work: what is written down beside the measures, all of it optional.
 *
 * Days are calendar days; `burntPct` is per cent of the body's surface, 0 to 100. The first contact is the one who is rung.
 */
export type WorkFacts = {
  readonly referralDay: CalendarDay | null;
  readonly referralUntil: CalendarDay | null;
  /** What was ordered or asked for. */
  readonly referralFor: string | null;
  readonly prescriber: string | null;
  readonly prescriberReach: string | null;
  readonly stage: string | null;
  readonly dominantHand: (typeof DOMINANT)[number] | null;
  /** What happened: an operation, a burn, from birth. */
  readonly cause: string | null;
  readonly injured: CalendarDay | null;
  readonly healed: CalendarDay | null;
  readonly grafted: readonly CalendarDay[];
  readonly burntPct: number | null;
  readonly interpreter: boolean;
  readonly contacts: readonly Contact[];
  readonly consents: readonly Consent[];
};

/** Most contacts, consents and graft days of one person. */
export const MOST_OF_A_KIND = 3;
/** Longest name, relation, phone number, stage; longest words. */
export const LONGEST_FACT = { short: 120, words: 400 } as const;

/** A person of whom nothing is written down. */
export const NO_FACTS: WorkFacts = {
  referralDay: null,
  referralUntil: null,
  referralFor: null,
  prescriber: null,
  prescriberReach: null,
  stage: null,
  dominantHand: null,
  cause: null,
  injured: null,
  healed: null,
  grafted: [],
  burntPct: null,
  interpreter: false,
  contacts: [],
  consents: [],
};

/** A fact that cannot stand, at the box it is about. */
export type FactFault = { readonly field: string; readonly reason: string };

/**
 * What contradicts among the facts of a person: before birth, a referral that ends before it begins, a healed or graft day before the injury.
 *
 * A referral may lie ahead; what happened may not: `today` bounds it. Injury may be the day of birth. Lists are named by their place from 0.
 */
export function factFaults(facts: WorkFacts, born: CalendarDay, today: CalendarDay): readonly FactFault[] {
  const faults: FactFault[] = [];
  const say = (field: string, reason: string) => faults.push({ field, reason });
  const past = (field: string, of: CalendarDay | null, what: string) => {
    if (of && of < born) say(field, `${what} on ${showDay(of)}, before birth on ${showDay(born)}.`);
    else if (of && of > today) say(field, `${showDay(of)} has not come yet.`);
  };
  const { referralDay, referralUntil, injured, healed, grafted } = facts;
  past('referralDay', referralDay, 'Referred');
  if (referralUntil && referralUntil < (referralDay ?? born))
    say('referralUntil', `It ends on ${showDay(referralUntil)}, before ${referralDay ? `it begins on ${showDay(referralDay)}` : 'birth'}.`);
  past('injured', injured, 'It happened');
  past('healed', healed, 'Healed');
  if (healed && injured && healed < injured) say('healed', `Healed on ${showDay(healed)}, before it happened on ${showDay(injured)}.`);
  grafted.forEach((one, place) => {
    past(`grafted${place}`, one, 'Grafted');
    if (injured && one < injured) say(`grafted${place}`, `Grafted on ${showDay(one)}, before it happened on ${showDay(injured)}.`);
  });
  for (const [place, one] of facts.consents.entries()) past(`consentDay${place}`, one.day, 'Consent');
  return faults.filter(({ field }, place) => faults.findIndex((one) => one.field === field) === place);
}

/** A contact in words, with the number. Example: `Ada Vance (mother), 555-0177`. */
export function contactWords({ name, relation, phone }: Contact): string {
  return `${name}${relation ? ` (${relation})` : ''}${phone ? `, ${phone}` : ', no number'}`;
}

/** Said where somebody is to be rung and nobody is written down. */
export const NOBODY_TO_RING = 'Nobody to call is on record';

/**
 * Whom to call, in words, with the number; undefined where nobody is written down.
 *
 * Example: `Call Ada Vance (mother), 555-0177`.
 */
export function ringWords(facts: WorkFacts | null | undefined): string | undefined {
  const [contact] = facts?.contacts ?? [];
  return contact && `Call ${contactWords(contact)}${facts?.interpreter ? ', with an interpreter' : ''}`;
}
