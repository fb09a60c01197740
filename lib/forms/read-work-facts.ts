import {
  type Consent,
  type Contact,
  DOMINANT,
  factFaults,
  LONGEST_FACT,
  MOST_OF_A_KIND,
  NO_FACTS,
  type WorkFacts,
} from '../record/work-facts';
import { type CalendarDay, readDay } from '../units/calendar-day';

/** What the form says, or a sentence beside each box that stops it. */
export type FactsRead =
  | { readonly kind: 'read'; readonly facts: WorkFacts }
  | { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> };

const PLACES = Array.from({ length: MOST_OF_A_KIND }, (_, place) => place);

/**
 * The facts for the work as typed; every box may be empty.
 *
 * Refuses a day that is none, a burnt area outside 0 to 100 %, a number without a name beside it, a consent without its day, texts that are too
 * long, and what contradicts (`factFaults`). Shape: boxes by name, lists numbered from 0; the day of birth, today.
 */
export function readWorkFacts(typed: Readonly<Record<string, string>>, born: CalendarDay, today: CalendarDay): FactsRead {
  const errors: Record<string, string> = {};
  const text = (box: string, most: number = LONGEST_FACT.short): string | null => {
    const found = (typed[box] ?? '').trim();
    if (found.length > most) errors[box] = `Too long: ${most} characters at most.`;
    return found === '' ? null : found;
  };
  const day = (box: string): CalendarDay | null => {
    const found = text(box);
    if (found === null) return null;
    const read = readDay(found);
    if (read.kind === 'read') return read.value;
    errors[box] = read.reason;
    return null;
  };
  const contacts = PLACES.flatMap((place): Contact[] => {
    const [name, relation, phone] = [text(`contactName${place}`), text(`contactRelation${place}`), text(`contactPhone${place}`)];
    if (name) return [{ name, relation, phone }];
    if (relation || phone) errors[`contactName${place}`] = 'Whose number is it? Write a name.';
    return [];
  });
  const consents = PLACES.flatMap((place): Consent[] => {
    const [to, on] = [text(`consentTo${place}`, LONGEST_FACT.words), day(`consentDay${place}`)];
    if (to && on) return [{ to, day: on }];
    if (to) errors[`consentDay${place}`] ??= 'Choose the day on which it was given.';
    if (on) errors[`consentTo${place}`] = 'Say what it allows.';
    return [];
  });
  const hand = text('dominantHand');
  const facts: WorkFacts = {
    referralDay: day('referralDay'),
    referralUntil: day('referralUntil'),
    referralFor: text('referralFor', LONGEST_FACT.words),
    prescriber: text('prescriber'),
    prescriberReach: text('prescriberReach', LONGEST_FACT.words),
    stage: text('stage'),
    dominantHand: DOMINANT.find((one) => one === hand) ?? null,
    cause: text('cause', LONGEST_FACT.words),
    injured: day('injured'),
    healed: day('healed'),
    grafted: PLACES.flatMap((place) => day(`grafted${place}`) ?? []),
    burntPct: burntPct(text('burntPct'), (reason) => {
      errors.burntPct = reason;
    }),
    interpreter: typed.interpreter === 'yes',
    contacts,
    consents,
  };
  if (hand && !facts.dominantHand) errors.dominantHand = 'Choose one of the three.';
  for (const { field, reason } of factFaults(facts, born, today)) errors[boxOf(field, typed)] ??= reason;
  return Object.keys(errors).length > 0 ? { kind: 'refused', errors } : { kind: 'read', facts };
}

/** Per cent of the body’s surface. Example: `12,5` is 12.5; `120` is refused. */
function burntPct(text: string | null, refuse: (reason: string) => void): number | null {
  if (text === null) return null;
  const figure = /^(\d{1,3}(?:[.,]\d{1,2})?)\s*%?$/.exec(text)?.[1];
  const value = Number((figure ?? '').replace(',', '.'));
  if (figure && value <= 100) return value;
  refuse(`“${text.slice(0, 20)}” is not a part of the body’s surface: 0 to 100 %.`);
  return null;
}

/** The box of a fault of a list: its place counts those that are filled. */
function boxOf(field: string, typed: Readonly<Record<string, string>>): string {
  const listed = /^(grafted|consentDay)(\d)$/.exec(field);
  if (!listed) return field;
  const filled = PLACES.filter((place) => (typed[`${listed[1]}${place}`] ?? '').trim() !== '');
  return `${listed[1]}${filled[Number(listed[2])] ?? listed[2]}`;
}

/** The boxes of the form as they stand for facts: what `readWorkFacts` reads back. */
export function typedFacts(facts: WorkFacts = NO_FACTS): Readonly<Record<string, string>> {
  const { grafted, contacts, consents, burntPct: pct, interpreter, ...single } = facts;
  return {
    ...Object.fromEntries(Object.entries(single).map(([box, value]) => [box, value ?? ''])),
    burntPct: pct === null ? '' : String(pct),
    interpreter: interpreter ? 'yes' : '',
    ...Object.fromEntries(grafted.map((one, place) => [`grafted${place}`, one])),
    ...Object.fromEntries(
      contacts.flatMap(({ name, relation, phone }, place) => [
        [`contactName${place}`, name],
        [`contactRelation${place}`, relation ?? ''],
        [`contactPhone${place}`, phone ?? ''],
      ]),
    ),
    ...Object.fromEntries(
      consents.flatMap((one, place) => [
        [`consentTo${place}`, one.to],
        [`consentDay${place}`, one.day],
      ]),
    ),
  };
}
