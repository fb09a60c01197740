import type { MeasureFit } from '../garments/measure-fit';
import { isNoAnswer } from '../outcome';
import { measureInWords } from '../parts/measure';
import { showDay } from '../units/calendar-day';
import { capitalized } from '../units/capitalized';

const ENDS = { short: 'too short', tighter: 'too tight', looser: 'too loose' } as const;

/** `Left middle finger length: expected to be too short from 9 Mar 2027, possibly from 12 Dec 2026.`: a forecast by growth, said as one. */
export function measureOutlookInWords({ measure, taken, outlook }: Pick<MeasureFit, 'measure' | 'taken' | 'outlook'>): string {
  const name = capitalized(measureInWords(measure, taken.side));
  if (isNoAnswer(outlook)) return `${name}: ${outlook.noAnswer}`;
  const { day, earlyDay, by, lookedUntil } = outlook;
  if (earlyDay === null || by === null) return `${name}: still fits on ${showDay(lookedUntil)}, as far as can be seen.`;
  if (day === null)
    return `${name}: expected to fit until ${showDay(lookedUntil)} at least, possibly ${ENDS[by]} from ${showDay(earlyDay)}.`;
  return `${name}: expected to be ${ENDS[by]} from ${showDay(day)}${earlyDay === day ? '' : `, possibly from ${showDay(earlyDay)}`}.`;
}
