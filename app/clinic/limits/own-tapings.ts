import type { PolicyInForce } from '@/db/clinic/policy';
import { FEWEST_PAIRS } from '@/lib/ladder/repeat-sd';
import { showDay } from '@/lib/units/calendar-day';

/** What the box of the reading error shows: the clinic's own tapings stand while it is empty, and how many there are either way. */
export function ownTapings({ from, pairs, newest, sdMm }: PolicyInForce['reading']): { now?: string; stands?: string; because: string } {
  const asOf = newest ? `, as of ${showDay(newest)}` : '';
  if (sdMm === undefined)
    return {
      because: `${pairs} of ${FEWEST_PAIRS} places measured twice in this clinic so far${asOf}. From ${FEWEST_PAIRS} on, the clinic’s own figure counts.`,
    };
  const found = `from ${pairs} places measured twice in this clinic${asOf}: ${sdMm} mm`;
  if (from === 'lead') return { because: `Typed by a lead; ${found}. Empty the box to use it.` };
  return { now: '', stands: String(sdMm), because: `In force ${found}. A figure typed here counts instead.` };
}
