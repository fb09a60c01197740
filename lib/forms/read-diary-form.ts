import { type ClosedDays, DIARY_BOUNDS, type Diary } from '../diary/diary';
import { type CalendarDay, daysBetween, readDay, showDay } from '../units/calendar-day';

/** A diary as typed, or a sentence beside each box that stops it. */
export type DiaryRead =
  | { readonly kind: 'read'; readonly diary: Diary }
  | { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> };

/**
 * When a clinic works, as typed: ticks `weekday0` (Sunday) to `weekday6`, closed days as numbered boxes, visits a day.
 *
 * Refuses a week without a working day, closed days without a first day, an end before it, more than a hundred days at once, a reason that is
 * missing or too long, two spans that overlap, and a number of visits that is none. An end that is left empty is the first day.
 */
export function readDiaryForm(typed: Readonly<Record<string, string>>): DiaryRead {
  const errors: Record<string, string> = {};
  const text = (box: string) => (typed[box] ?? '').trim();
  const day = (box: string): CalendarDay | undefined => {
    if (text(box) === '') return undefined;
    const read = readDay(text(box));
    if (read.kind === 'read') return read.value;
    errors[box] = read.reason;
    return undefined;
  };
  const weekdays = [0, 1, 2, 3, 4, 5, 6].filter((weekday) => typed[`weekday${weekday}`] === 'yes');
  if (weekdays.length === 0) errors.weekdays = 'Tick the days on which the clinic works.';
  const closed: ClosedDays[] = [];
  for (let place = 0; place < DIARY_BOUNDS.spans; place++) {
    const why = text(`why${place}`);
    if (text(`from${place}`) === '' && text(`until${place}`) === '' && why === '') continue;
    const from = day(`from${place}`);
    const until = day(`until${place}`) ?? from;
    if (text(`from${place}`) === '') errors[`from${place}`] = 'Choose the first day.';
    if (why === '') errors[`why${place}`] = 'Say why, it is shown where a day is closed.';
    if (why.length > DIARY_BOUNDS.why) errors[`why${place}`] = `Too long: ${DIARY_BOUNDS.why} characters at most.`;
    if (!from || !until) continue;
    const clash = closed.find((one) => one.from <= until && from <= one.until);
    if (until < from) errors[`until${place}`] = `It ends on ${showDay(until)}, before it begins on ${showDay(from)}.`;
    else if (daysBetween(from, until) >= DIARY_BOUNDS.days) errors[`until${place}`] = `More than ${DIARY_BOUNDS.days} days at once.`;
    else if (clash) errors[`from${place}`] = `${showDay(clash.from)} to ${showDay(clash.until)} is closed already: ${clash.why}.`;
    closed.push({ from, until, why });
  }
  const visits = text('capacity');
  const capacity = visits === '' ? null : Number(visits);
  if (capacity !== null && !(/^\d{1,3}$/.test(visits) && capacity >= 1 && capacity <= DIARY_BOUNDS.capacity))
    errors.capacity = `A whole number from 1 to ${DIARY_BOUNDS.capacity}, or nothing.`;
  if (Object.keys(errors).length > 0) return { kind: 'refused', errors };
  return { kind: 'read', diary: { weekdays, closed: closed.sort((one, other) => (one.from < other.from ? -1 : 1)), capacity } };
}

/** The boxes of the form as they stand for a diary. */
export function typedDiary({ weekdays, closed, capacity }: Diary): Readonly<Record<string, string>> {
  return {
    ...Object.fromEntries(weekdays.map((weekday) => [`weekday${weekday}`, 'yes'])),
    ...Object.fromEntries(
      closed.flatMap(({ from, until, why }, place) => [
        [`from${place}`, from],
        [`until${place}`, until],
        [`why${place}`, why],
      ]),
    ),
    capacity: capacity === null ? '' : String(capacity),
  };
}
