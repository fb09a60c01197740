import { LEAVING_BOUNDS, type Leaving, type LeavingTexts } from '../course/leaving';
import { type CalendarDay, readDay, showDay } from '../units/calendar-day';

type Refused = { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> };

/** What was gone through before somebody left, as typed: a tick a criterion (`met0` …). Refuses a day that is none, before birth or ahead, and long texts. */
export function readLeaving(
  typed: Readonly<Record<string, string>>,
  criteria: readonly string[],
  { born, today }: { readonly born: CalendarDay; readonly today: CalendarDay },
): { readonly kind: 'read'; readonly leaving: Leaving } | Refused {
  const errors: Record<string, string> = {};
  const text = (box: string, most: number) => {
    const found = (typed[box] ?? '').trim();
    if (found.length > most) errors[box] = `Too long: ${most} characters at most.`;
    return found || null;
  };
  const read = readDay(typed.day ?? '');
  const day = read.kind === 'read' ? read.value : undefined;
  if (!day) errors.day = 'Choose the day.';
  else if (day > today) errors.day = `${showDay(day)} has not come yet.`;
  else if (day < born) errors.day = `${showDay(day)} is before birth on ${showDay(born)}.`;
  const supplies = text('supplies', LEAVING_BOUNDS.short);
  const note = text('note', LEAVING_BOUNDS.words);
  if (!day || Object.keys(errors).length > 0) return { kind: 'refused', errors };
  return {
    kind: 'read',
    leaving: { day, criteria: criteria.map((words, at) => ({ words, met: typed[`met${at}`] === 'yes' })), supplies, note },
  };
}

/** A clinic's criteria, one a line, and its way back by language. Refuses too many, too long, and one that stands twice. */
export function readLeavingTexts(
  typed: Readonly<Record<string, string>>,
  languages: readonly string[],
): { readonly kind: 'read'; readonly texts: LeavingTexts } | Refused {
  const errors: Record<string, string> = {};
  const criteria = (typed.criteria ?? '')
    .split(/\r?\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '');
  const long = criteria.find((line) => line.length > LEAVING_BOUNDS.criterion);
  if (criteria.length > LEAVING_BOUNDS.criteria) errors.criteria = `${LEAVING_BOUNDS.criteria} criteria at most, one a line.`;
  else if (long) errors.criteria = `“${long.slice(0, 30)}…” is too long: ${LEAVING_BOUNDS.criterion} characters at most.`;
  else if (new Set(criteria).size < criteria.length) errors.criteria = 'One of them stands twice.';
  const wayBack = Object.fromEntries(languages.map((language) => [language, (typed[`wayBack-${language}`] ?? '').trim()]));
  for (const [language, words] of Object.entries(wayBack))
    if (words.length > LEAVING_BOUNDS.words) errors[`wayBack-${language}`] = `Too long: ${LEAVING_BOUNDS.words} characters at most.`;
  return Object.keys(errors).length > 0 ? { kind: 'refused', errors } : { kind: 'read', texts: { criteria, wayBack } };
}
