import { describe, expect, it } from 'vitest';
import { LEAVING_DEFAULTS } from '@/lib/course/leaving';
import { LEAVING, LEAVING_TEXTS } from '@/lib/course/leaving-schema';
import { readLeaving, readLeavingTexts } from '@/lib/forms/read-leaving';
import { calendarDay } from '@/lib/units/calendar-day';
import { LEAVING_GONE } from '../made-up-noted';

const at = { born: calendarDay('2015-02-17'), today: calendarDay('2026-11-25') };

describe('leaving', () => {
  it('is read in the words of the day: each criterion met or not', () => {
    const found = readLeaving({ day: '2026-11-25', met1: 'yes', supplies: ' the family doctor ' }, ['a', 'b'], at);
    const leaving = {
      ...{ day: '2026-11-25', supplies: 'the family doctor', note: null },
      criteria: [
        { words: 'a', met: false },
        { words: 'b', met: true },
      ],
    };
    expect(found).toEqual({ kind: 'read', leaving });
    expect(LEAVING.parse(LEAVING_GONE)).toEqual(LEAVING_GONE);
    expect(LEAVING_TEXTS.parse(LEAVING_DEFAULTS)).toEqual(LEAVING_DEFAULTS);
  });

  it.each([
    [{ day: '2026-11-26' }, 'day'],
    [{ day: '2015-02-16' }, 'day'],
    [{}, 'day'],
    [{ day: '2026-11-25', supplies: 'x'.repeat(201) }, 'supplies'],
  ])('is refused at its box: %#', (typed, box) => {
    const found = readLeaving(typed as unknown as Record<string, string>, [], at);
    expect(found.kind === 'refused' && Object.keys(found.errors)).toEqual([box]);
  });

  it('a clinic’s criteria come one a line; too many, too long and the same twice are refused', () => {
    expect(readLeavingTexts({ criteria: ' a \r\n\nb', 'wayBack-en': ' call ' }, ['en', 'es'])).toEqual({
      kind: 'read',
      texts: { criteria: ['a', 'b'], wayBack: { en: 'call', es: '' } },
    });
    const refusedOf = (criteria: string) => {
      const found = readLeavingTexts({ criteria }, ['en']);
      return found.kind === 'refused' && Object.keys(found.errors);
    };
    expect(refusedOf('a\na')).toEqual(['criteria']);
    expect(refusedOf('x'.repeat(161))).toEqual(['criteria']);
    expect(refusedOf(Array.from({ length: 21 }, (_, n) => `c${n}`).join('\n'))).toEqual(['criteria']);
  });
});
