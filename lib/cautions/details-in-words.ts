import type { CautionFigures } from '../record/caution-answer';
import { readDay, showDay } from '../units/calendar-day';
import { capitalized } from '../units/capitalized';
import type { CautionAbout, CautionCard } from './caution-card';

/**
 * What was typed beside an answer, in words; empty where nothing was.
 *
 * Example: `Checked on 15 Jan 2026; ankle–brachial index of this leg 0.72.` Boxes that the card no longer has keep their short name.
 */
export function detailsInWords(card: CautionCard | undefined, figures: CautionFigures | null, about: CautionAbout): string {
  const boxes = card?.boxes?.(about) ?? [];
  const details = Object.entries(figures?.details ?? earlier(figures));
  const said = details.map(([name, typed]) => {
    const box = boxes.find((one) => one.name === name);
    const day = box?.kind === 'day' || name === 'abpiDay' ? readDay(typed) : undefined;
    const chosen = box?.kind === 'choice' ? box.choices.find(({ key }) => key === typed)?.words : undefined;
    const unit = box?.kind === 'number' && box.unit !== '' ? ` ${box.unit}` : '';
    const label = box ? box.label.charAt(0).toLowerCase() + box.label.slice(1) : name;
    return `${label} ${day?.kind === 'read' ? showDay(day.value) : (chosen ?? typed)}${unit}`;
  });
  return said.length > 0 ? `${capitalized(said.join('; '))}.` : '';
}

/** Answers from before boxes were kept by name have an index and its day only. */
function earlier(figures: CautionFigures | null): Readonly<Record<string, string>> {
  const { abpi, abpiDay } = figures ?? {};
  return { ...(abpi === undefined ? {} : { abpi: String(abpi) }), ...(abpiDay === undefined ? {} : { abpiDay }) };
}
