import { describe, expect, it } from 'vitest';
import { readObservation } from '@/lib/forms/read-observation';
import { readOwnKinds, typedOwnKinds } from '@/lib/forms/read-own-kinds';
import { changeInWords, kindsOf, OBSERVED_KINDS, type OwnKind, timeLines } from '@/lib/observations/catalogue';
import { marksOnOutline } from '@/lib/observations/marks-on-outline';
import type { Observation } from '@/lib/observations/observation';
import { observationFaults } from '@/lib/observations/observation-faults';
import { OBSERVATION } from '@/lib/observations/observation-schema';
import { calendarDay } from '@/lib/units/calendar-day';
import { OBSERVATIONS } from '../made-up-noted';

const at = { born: calendarDay('2015-02-17'), today: calendarDay('2026-11-25'), rater: 'R. Adeyemi', gone: null };
const kindOf = (id: string) => {
  const found = OBSERVED_KINDS.find((one) => one.id === id);
  if (!found) throw new Error(id);
  return found;
};
const read = (id: string, typed: Record<string, string>) => readObservation(kindOf(id), { day: '2026-11-25', ...typed }, at);
const scar = (day: string, redness: number, rest: Partial<Observation> = {}): Observation => ({
  ...{ kind: 'scar', version: '1', day: calendarDay(day), figures: { redness }, choice: null, side: 'left' },
  ...{ place: null, gone: null, rater: 'R. Adeyemi', words: null },
  ...rest,
});

describe('what is looked at', () => {
  it('has a source, a range that rises, and one id each', () => {
    for (const { items, source, error } of OBSERVED_KINDS) {
      expect(items.every(({ low, high }) => low < high)).toBe(true);
      expect(source.length).toBeGreaterThan(20);
      expect(error === null || error.source.length > 20).toBe(true);
    }
    expect(new Set(OBSERVED_KINDS.map(({ id }) => id)).size).toBe(OBSERVED_KINDS.length);
    for (const one of OBSERVATIONS) expect(OBSERVATION.parse(one)).toEqual(one);
  });

  it('is read: figures with comma or minus, a side, a place', () => {
    expect(read('hours-worn', { 'item-days': '6', 'item-hours': '11,5' })).toMatchObject({
      observation: { figures: { days: 6, hours: 11.5 }, rater: 'R. Adeyemi' },
    });
    expect(read('motion', { side: 'right', choice: 'active', 'item-elbow-stretch': '−10' })).toMatchObject({
      observation: { figures: { 'elbow-stretch': -10 } },
    });
    expect(read('skin-mark', { limb: 'left leg', along: '25', choice: 'red' })).toMatchObject({
      observation: { place: { limb: 'leg', side: 'left', along: 0.25 }, figures: {} },
    });
  });

  it.each([
    ['hours-worn', { 'item-hours': '25' }, 'item-hours'],
    ['hours-worn', {}, 'item-days'],
    ['itch', { 'item-itch': 'much' }, 'item-itch'],
    ['itch', { day: '2026-11-26', 'item-itch': '3' }, 'day'],
    ['itch', { day: '2015-02-16', 'item-itch': '3' }, 'day'],
    ['scar', { 'item-redness': '3' }, 'side'],
    ['skin-mark', { limb: 'left leg', along: '25' }, 'choice'],
    ['skin-mark', { limb: 'left leg', along: '101', choice: 'red' }, 'limb'],
  ])('%s is refused at its box: %#', (id, typed, box) => {
    const found = read(id, typed as Record<string, string>);
    expect(found.kind === 'refused' && Object.keys(found.errors)).toEqual([box]);
  });

  it('cannot be before birth, ahead, gone before it was seen, or out of range: each at its field', () => {
    const [mark] = OBSERVATIONS;
    if (!mark) throw new Error('a made-up mark is missing');
    const at = (more: Partial<Observation>, kind = OBSERVED_KINDS.find(({ id }) => id === 'skin-mark')) =>
      observationFaults(kind, { ...mark, ...more }, calendarDay('2015-02-17'), calendarDay('2026-11-25')).map(({ field }) => field);
    expect(at({})).toEqual([]);
    expect(at({ day: calendarDay('2015-02-17') })).toEqual([]);
    expect(at({ day: calendarDay('2015-02-16') })).toEqual(['day']);
    expect(at({ day: calendarDay('2026-11-25'), gone: calendarDay('2026-11-25') })).toEqual([]);
    expect(at({ day: calendarDay('2026-11-26'), gone: null })).toEqual(['day']);
    expect(at({ gone: calendarDay('2026-10-14') })).toEqual([]);
    expect(at({ gone: calendarDay('2026-10-13') })).toEqual(['gone']);
    expect(at({ gone: calendarDay('2026-11-26') })).toEqual(['gone']);
    expect(at({ figures: { 'size-mm': 1 } })).toEqual([]);
    expect(at({ figures: { 'size-mm': 500 } })).toEqual([]);
    expect(at({ figures: { 'size-mm': 0.99 } })).toEqual(['item-size-mm']);
    expect(at({ figures: { 'size-mm': 501 } })).toEqual(['item-size-mm']);
    expect(at({ figures: { depth: 5 } })).toEqual(['item-depth']);
    expect(at({ figures: { depth: 5 }, version: '0' })).toEqual([]);
  });

  it('a mark is drawn at its share of the way between both landmarks, wherever the ladder ends', () => {
    // By hand, landmarks 600 mm apart: to the knee the outline ends halfway; 60 mm past either end the scale is 720 mm long.
    expect(marksOnOutline([0, 0.5, 1], [0, 150, 300], 600)).toEqual({ rungs: [0, 0.25, 0.5], marks: [0, 0.5, 1] });
    const past = marksOnOutline([0, 0.5, 1], [-60, 660], 600);
    expect(past?.rungs).toEqual([0, 1]);
    for (const [at, share] of [60 / 720, 360 / 720, 660 / 720].entries()) expect(past?.marks[at]).toBeCloseTo(share, 12);
    expect(marksOnOutline([0.5], [0, 300], undefined)).toBeUndefined();
    expect(marksOnOutline([0.5], [0, 300], 0)).toBeUndefined();
  });

  it('a corrected mark stays gone, and is not seen after that day', () => {
    const typed = { limb: 'left leg', along: '25', choice: 'red' };
    const gone = { ...at, gone: calendarDay('2026-10-20') };
    expect(readObservation(kindOf('skin-mark'), { ...typed, day: '2026-10-20' }, gone)).toMatchObject({
      observation: { day: '2026-10-20', gone: '2026-10-20' },
    });
    const late = readObservation(kindOf('skin-mark'), { ...typed, day: '2026-10-21' }, gone);
    expect(late.kind === 'refused' && Object.keys(late.errors)).toEqual(['day']);
  });

  it('a change below the least one is within error, another rater is said, versions and sides are never mixed', () => {
    const lines = timeLines(
      [scar('2026-09-01', 6), scar('2026-10-01', 5), scar('2026-10-01', 9, { side: 'right' }), scar('2026-11-01', 1, { version: '0' })],
      OBSERVED_KINDS,
    );
    expect(lines.map(({ side, kind, points }) => [side, kind.version, points.map(({ value }) => value)])).toEqual([
      ['left', '1', [6, 5]],
      ['right', '1', [9]],
      ['left', '0', [1]],
    ]);
    const words = (...values: Observation[]) => {
      const [line] = timeLines(values, OBSERVED_KINDS);
      return line && changeInWords(line);
    };
    expect(words(scar('2026-09-01', 6), scar('2026-10-01', 5))).toBe('down by 1 of 10, within error');
    expect(words(scar('2026-09-01', 6), scar('2026-10-01', 4))).toBe('down by 2 of 10');
    expect(words(scar('2026-09-01', 6), scar('2026-10-01', 6, { rater: 'K. Dunn' }))).toBe('as before, by another rater');
    expect(words(scar('2026-09-01', 6))).toBeUndefined();
  });
});

describe('what a clinic adds', () => {
  const own: OwnKind = { id: 'own-2', label: 'Grip', unit: 'kg', low: 0, high: 90, leastChange: 5, asked: true };

  it('reads back what it shows; name, unit and range of one that stands stay; a new one has the next number', () => {
    const typed = typedOwnKinds([own]);
    expect(readOwnKinds(typed, [own])).toEqual({ kind: 'read', own: [own] });
    const more = { ...typed, unit0: 'lb', asked0: '', label1: 'Steps', low1: '0', high1: '20000' };
    expect(readOwnKinds(more, [own])).toEqual({
      kind: 'read',
      own: [
        { ...own, asked: false },
        { id: 'own-3', label: 'Steps', unit: '', low: 0, high: 20000, leastChange: null, asked: true },
      ],
    });
    expect(kindsOf([own]).at(-1)).toMatchObject({ id: 'own-2', error: { leastChange: 5 }, items: [{ low: 0, high: 90, unit: 'kg' }] });
  });

  it.each([
    [{ low1: '0', high1: '5' }, 'label1'],
    [{ label0: 'Pinch' }, 'label0'],
    [{ label0: '' }, 'label0'],
    [{ least1: '3' }, 'least1'],
    [{ label1: 'Grip', low1: '0', high1: '5' }, 'label1'],
    [{ label1: 'Steps', low1: '5', high1: '5' }, 'high1'],
    [{ label1: 'Steps', low1: 'a', high1: '5' }, 'low1'],
    [{ label1: 'Steps', low1: '0', high1: '5', least1: '0' }, 'least1'],
  ])('is refused at the box: %#', (typed, box) => {
    const found = readOwnKinds({ ...typedOwnKinds([own]), ...(typed as unknown as Record<string, string>) }, [own]);
    expect(found.kind === 'refused' && Object.keys(found.errors)).toEqual([box]);
  });
});
