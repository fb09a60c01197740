import type { LimbKind } from './limb';

/** One thing to see to before or while measuring, and where it is written. */
export type TapingReminder = { readonly words: string; readonly source: string };

const ANY_LIMB: readonly TapingReminder[] = [
  {
    words: 'Measure in the same position as last time, at a like hour of the day.',
    source: 'published: Support Care Cancer 2021; 29: 3183–3189; common practice',
  },
  {
    words: 'The same person measures where that is possible: two people differ more than one does from herself.',
    source: 'published: Deltombe 2007, Lymphology',
  },
  {
    words: 'Let the limb rest. Lay the tape flat, at a right angle to the limb, without pulling it tight.',
    source: 'published: Lymphoedema Framework 2006; common practice',
  },
  {
    words: 'Mark each place on the skin, and lay the same edge of the tape to the mark each time.',
    source: 'published: All Wales guidance 2013; Lymphoedema Framework 2006',
  },
  {
    words: 'Write how the zero is found again: the landmark, or its distance from one.',
    source: 'published: Lymphoedema Framework 2006; common practice',
  },
  {
    words: 'Measure the other limb too, at the same distances: it tells what growth and weight explain.',
    source: 'common practice',
  },
];

const OWN: Readonly<Record<LimbKind, readonly TapingReminder[]>> = {
  leg: [
    {
      words: 'Bare skin, in the morning or straight after bandages come off. A ten-minute walk alone makes the foot about 1.4 % larger.',
      source: 'published: foot volume after exercise, PMC2953309; common practice',
    },
  ],
  arm: [
    {
      words: 'Sitting, the arm on a table, palm down.',
      source: 'published: Lymphoedema Framework 2006',
    },
  ],
};

/** What to see to when a limb is measured, each with its source. Local protocol comes first. */
export function tapingReminders(limb: LimbKind): readonly TapingReminder[] {
  return [...ANY_LIMB, ...OWN[limb]];
}
