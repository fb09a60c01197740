import { dayToAsk } from '../../course/day-to-ask';
import { showDay } from '../../units/calendar-day';
import type { Rule } from '../prompt';

/** The day to ask again, on hold or after the end of a course, has come → ask whether and how it goes on. */
export const askAgain: Rule = {
  id: 'ask-again',
  version: 1,
  apply: ({ record, policy, today }) => {
    const ask = dayToAsk(record.phases ?? [], policy, today);
    if (!ask || today < ask.day) return [];
    const { phase, day } = ask;
    const held = phase.kind === 'on-hold' ? 'on hold' : 'ended';
    return [
      {
        action: 'ask',
        due: day,
        title: `Consider asking whether care goes on: ${held} since ${showDay(phase.from)}.`,
        facts: [`To be asked on ${showDay(day)}${phase.note ? `. Noted: ${phase.note.replace(/\.$/, '')}` : ''}.`],
        missing: [],
        limits: phase.askOn ? [] : ['holdAskDays'],
        cause: 'course: ask again',
        about: {},
        inputs: `${phase.kind} ${phase.from} ${day}`,
      },
    ];
  },
};
