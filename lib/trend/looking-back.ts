import { readChange } from '../course-model/read-change';
import type { CalendarDay } from '../units/calendar-day';
import type { LimbCourse } from './limb-course';
import type { SeriesVisit } from './series-visit';

/** What all visits up to the newest say of a change between two earlier ones. */
export type LookingBack = {
  /** Probability of a change beyond what the body explains, 0 to 1, and whether it was rather an increase. */
  readonly probability: number;
  readonly larger: boolean;
  /** The first visit that has the change, and the one before it. */
  readonly since: CalendarDay;
  readonly before: CalendarDay;
  /** The newest visit that was looked back from. */
  readonly from: CalendarDay;
};

/**
 * A change between two visits as it looks now, from every visit of the limb; undefined where the later one is the newest, or the model has no say.
 *
 * The verdict of the day stands as it was given; this stands beside it. Shape: a limb's course, two visits of it.
 * Source: engine section 6, the same posterior read at its newest visit. Example: 2 % at 20 % on the day, and 2 % more at each of the next two
 * visits where nothing came undone: looking back a change by then is likelier than it was.
 */
export function lookBack(course: LimbCourse, earlier: SeriesVisit, later: SeriesVisit): LookingBack | undefined {
  const { visits } = course.series;
  const [from, to, newest] = [visits.indexOf(earlier), visits.indexOf(later), visits.length - 1];
  if (from < 0 || to <= from || to === newest) return undefined;
  const at = course.at(newest, 'clean', false);
  const reading = at && readChange(at, from, course.farShareAt(to), to);
  if (!reading) return undefined;
  const dayOf = (visit: number): CalendarDay => (visits[visit] as SeriesVisit).visit.day;
  return {
    probability: reading.probability,
    larger: reading.up >= reading.down,
    since: dayOf(reading.sinceVisit),
    before: dayOf(reading.sinceVisit - 1),
    from: dayOf(newest),
  };
}
