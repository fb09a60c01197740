import { describe, expect, it } from 'vitest';
import { buildUp } from '@/lib/garments/build-up';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { answerInWords, askedBy, type FamilyReply, isFarBelowPlan, REPLY_BOUNDS, replyParts } from '@/lib/observations/family-reply';
import { FAMILY_REPLY } from '@/lib/observations/family-reply-schema';
import type { FamilyAsks } from '@/lib/summary/family/family-content';
import { FAMILY_LANGUAGES } from '@/lib/summary/family/family-languages';
import { hoursAskedOn } from '@/lib/summary/family/family-page';
import { readReply, replyToFamily, stateToFamily } from '@/lib/summary/family/read-reply';
import { addDays, calendarDay, daysBetween } from '@/lib/units/calendar-day';

const day = calendarDay('2026-12-01');
const NOW = { day, time: '09:30' };
const ASKS: FamilyAsks = { limb: 'leg', side: 'right', pageOf: calendarDay('2026-11-25'), unit: 'in', hours: 12, plan: [], outline: null };
const wearIn = (firstHours: number, fullHours: number, days: number) => ({
  firstWorn: day,
  wearIn: { firstHours, fullHours, days, callOn: day, called: null, callNote: null },
});

describe.each(FAMILY_LANGUAGES)('a reply in $name', ({ reply: words }) => {
  const read = (typed: Readonly<Record<string, string>>, asks = ASKS) => readReply(typed, asks, NOW, words);

  it('is read as typed: hours with comma or point, places, please call, words and who writes', () => {
    const typed = { hours: ' 7,5 ', 'mark-0': 'sore', 'mark-2': 'red', 'mark-4': '', call: 'yes', words: 'At night.', by: 'Ada' };
    const right = { limb: 'leg', side: 'right' } as const;
    const marks = [
      { place: { ...right, along: 0 }, sign: 'sore' },
      { place: { ...right, along: 0.5 }, sign: 'red' },
    ];
    const told = { pageOf: ASKS.pageOf, hours: 7.5, planned: 12, marks, call: true, words: 'At night.', by: 'Ada', answer: null };
    const answer = read(typed);
    expect(answer).toEqual({ kind: 'read', reply: { ...NOW, ...told } });
    if (answer.kind !== 'read') return;
    expect(FAMILY_REPLY.parse(answer.reply)).toEqual(answer.reply);
    expect(replyToFamily(answer.reply, words)).toContain(`${words.places.leg[2]}: ${words.signs.red}`);
  });

  it.each(['24.5', '-1', '1e1', 'all day', '99', '0x4'])('refuses %s hours beside its box, in its own language', (hours) => {
    expect(read({ hours, call: 'yes' })).toEqual({ kind: 'refused', errors: { hours: words.hoursWrong } });
  });

  it('takes 0 and 24 h; refuses what is too long, a sign that is none, and a reply that says nothing', () => {
    for (const [hours, value] of [
      ['0', 0],
      ['24', 24],
    ] as const)
      expect(read({ hours })).toMatchObject({ kind: 'read', reply: { hours: value } });
    const long = 'x'.repeat(REPLY_BOUNDS.words + 1);
    expect(read({ words: long, by: long })).toMatchObject({
      errors: { words: words.tooLong(REPLY_BOUNDS.words), by: words.tooLong(REPLY_BOUNDS.by) },
    });
    expect(read({ 'mark-0': 'constructor', by: 'Ada' })).toEqual({ kind: 'refused', errors: { form: words.empty } });
  });
});

describe('what a family is told of its reply', () => {
  const [OPEN, SEEN, RUNG] = [null, { did: 'seen', day } as const, { did: 'rung', day } as const];
  const told =
    ({ reply }: (typeof FAMILY_LANGUAGES)[number]) =>
    (asks: boolean, became: typeof OPEN | typeof SEEN | typeof RUNG) =>
      stateToFamily({ asks, became }, reply, () => '1 Dec');

  it('is, in each language, that it came, that nobody noted yet that it was read, or what was done and when', () => {
    const said = FAMILY_LANGUAGES.map((words) => {
      const of = told(words);
      return [words.language, of(false, OPEN), of(true, OPEN), of(true, SEEN), of(false, RUNG)];
    });
    expect(said).toEqual([
      ['en', 'It has come in.', 'Nobody has noted yet that it was read.', 'We read it on 1 Dec.', 'We called you on 1 Dec.'],
      ['es', 'Ha llegado.', 'Aún nadie ha anotado que se leyó.', 'Lo leímos el 1 Dec.', 'Le llamamos el 1 Dec.'],
      [
        'de',
        'Es ist angekommen.',
        'Noch hat niemand notiert, dass es gelesen wurde.',
        'Wir haben es am 1 Dec gelesen.',
        'Wir haben Sie am 1 Dec angerufen.',
      ],
    ]);
  });
});

describe('what a reply asks of the clinic', () => {
  const reply: FamilyReply = {
    ...{ day, time: '09:30', pageOf: day, hours: null, planned: 12, marks: [], call: false, words: null, by: null, answer: null },
  };
  it('to ring, to look, or nothing', () => {
    const asked = (more: Partial<FamilyReply>) => askedBy({ ...reply, ...more }, DEFAULT_POLICY);
    expect(asked({ call: true, hours: 2 })).toBe('call');
    expect(asked({ words: 'It rubs.' })).toBe('look');
    expect(asked({ hours: 8.9 })).toBe('look');
    expect(asked({ hours: 9 })).toBeNull();
    expect(asked({ hours: 0, planned: null })).toBeNull();
    expect(asked({ call: true, answer: { did: 'seen', day, by: 'R. Adeyemi', words: null } })).toBeNull();
    const tried = { did: 'tried', day, by: 'R. Adeyemi', words: null } as const;
    expect([asked({ call: true, answer: tried }), asked({ hours: 12, answer: tried })]).toEqual(['call', null]);
    expect(answerInWords(tried, '1 Dec')).toBe('Tried, nobody answered, on 1 Dec by R. Adeyemi');
    expect(isFarBelowPlan({ hours: 0, planned: 0 }, 75)).toBe(false);
  });
  it('is said part by part, theirs in quotes', () => {
    const place = { limb: 'leg', side: 'right', along: 0.5 } as const;
    expect(replyParts({ ...reply, call: true, hours: 6, marks: [{ place, sign: 'red' }], words: 'It rubs.', by: 'Ada' })).toEqual([
      'asks to be rung',
      'worn 6 h a day, 12 h planned',
      'right leg, knee: a red mark',
      '“It rubs.”',
      'written by Ada',
    ]);
  });
});

describe('the build-up of hours', () => {
  it('is the worked example: 2 to 23 h over 14 days in 4 steps', () => {
    expect(buildUp(wearIn(2, 23, 14), 4).map(({ firstDay, lastDay, hours }) => [firstDay, lastDay, hours])).toEqual([
      [1, 3, 2],
      [4, 7, 7],
      [8, 10, 13],
      [11, 14, 18],
      [15, null, 23],
    ]);
  });
  it('covers each day once, rises from the first to the full hours, and has no two steps alike, whatever the plan', () => {
    for (const first of [1, 2, 8, 23])
      for (const full of [first, first + 1, 24])
        for (const days of [1, 2, 3, 14, 60])
          for (const most of [1, 4, 7]) {
            const steps = buildUp(wearIn(first, full, days), most);
            const hours = steps.map((one) => one.hours);
            expect(hours[0]).toBe(first);
            expect(hours.at(-1)).toBe(full);
            expect(hours).toEqual([...new Set(hours)].sort((one, other) => one - other));
            expect(steps.length).toBeLessThanOrEqual(most + 1);
            for (const [at, one] of steps.entries()) {
              expect(daysBetween(day, one.from)).toBe(one.firstDay - 1);
              expect(one.firstDay).toBe((steps[at - 1]?.lastDay ?? 0) + 1);
            }
          }
  });
  it('is none before first wear, without a plan, or where the plan falls', () => {
    expect(buildUp({ ...wearIn(2, 23, 14), firstWorn: null }, 4)).toEqual([]);
    expect(buildUp({ firstWorn: day, wearIn: null }, 4)).toEqual([]);
    expect(buildUp(wearIn(12, 8, 14), 4)).toEqual([]);
  });
  it('gives the hours planned on a day; a page without it has those the therapist wrote', () => {
    const plan = buildUp(wearIn(2, 23, 14), 4);
    expect([0, 3, 13, 14, 90].map((ahead) => hoursAskedOn({ hours: 12, plan }, addDays(day, ahead)))).toEqual([2, 7, 18, 23, 23]);
    expect(hoursAskedOn({ hours: 12, plan }, addDays(day, -1))).toBe(12);
    expect(hoursAskedOn({ hours: null, plan: [] }, day)).toBeNull();
  });
});
