import { describe, expect, it } from 'vitest';
import { calendarDay } from '@/lib/units/calendar-day';
import { cm, recordOf, visitOf } from '../made-up-ladder';
import { legOf, pieceOf, promptsOf } from './made-up-piece';

const D = calendarDay;
const child = { born: D('2017-03-01'), sex: 'F' as const };

describe('end of a piece’s life', () => {
  const visits = [visitOf('2026-01-05', [legOf()], { weight: '70 kg' })];
  const ends = (today: string, ...pieces: ReturnType<typeof pieceOf>[]) => promptsOf('end-of-life', recordOf(visits, { pieces }), today);
  const worn = pieceOf('2026-01-05', { firstWorn: D('2026-01-19') });

  it('opens a fortnight before the order-by day: 90 days of life less 14 of making and 7 of measuring', () => {
    // 19 Jan + 90 days = 19 Apr; − 21 = 29 Mar; a fortnight earlier is 15 Mar. Counted on a calendar.
    expect(ends('2026-03-14', worn)).toEqual([]);
    const [prompt] = ends('2026-03-15', worn);
    expect([prompt?.action, prompt?.due]).toEqual(['order', '2026-03-29']);
    expect(prompt?.facts[0]).toBe('Replacement due 19 Apr 2026, 90 days after first wear.');
  });

  it('counts from first wear, never from the cut, and is silent before it and after the piece is retired', () => {
    expect(ends('2027-01-01', pieceOf('2026-01-05'))).toEqual([]);
    expect(ends('2026-06-01', { ...worn, retired: D('2026-05-01') })).toEqual([]);
    expect(ends('2026-04-30', { ...worn, retired: D('2026-05-01') })).toHaveLength(1);
  });

  it('leaves the older of two pieces of one cover alone when the newer lasts longer or is still on its way', () => {
    const newer = pieceOf('2026-01-05', { piece: '2', firstWorn: D('2026-03-20') });
    expect(ends('2026-04-01', worn, newer)).toEqual([]);
    expect(ends('2026-06-10', worn, newer).map((prompt) => prompt.about.piece)).toEqual(['2']);
    expect(ends('2026-04-01', worn, pieceOf('2026-01-05', { piece: '2' }))).toEqual([]);
  });

  it('asks once for a set of two that end on one day, and for each cover on its own', () => {
    expect(ends('2026-04-01', worn, { ...worn, piece: '2' })).toHaveLength(1);
    const thigh = { ...worn, piece: '2', covers: { from: 'knee' as const, to: 'gluteal-fold' as const } };
    expect(ends('2026-04-01', worn, thigh)).toHaveLength(2);
    expect(ends('2026-04-01', worn, { ...worn, piece: '2', retired: D('2026-03-01') })).toHaveLength(1);
  });
});

describe('an order whose figures are too old', () => {
  it('says in the plan, as in the dates, that the limb is measured first, with the clinic’s limit; not where they are new enough', () => {
    const piece = pieceOf('2026-01-05', { firstWorn: calendarDay('2026-01-10') });
    const measureFirst = (newest: string) =>
      promptsOf(
        'end-of-life',
        recordOf([visitOf('2026-01-05', [legOf()]), visitOf(newest, [legOf()])], { pieces: [piece] }),
        '2026-04-06',
      ).map(({ before, limits }) => [before, limits.includes('orderLadderDays')]);
    const [old] = measureFirst('2026-01-20');
    expect(old).toEqual([
      expect.stringMatching(
        /^Measure the left leg first: the ladder of 20 Jan 2026 is \d+ days old (by then|today); an order asks for one of \d+ days at most\.$/,
      ),
      true,
    ]);
    expect(measureFirst('2026-03-30')).toEqual([[undefined, false]]);
  });
});

describe('growth since the cut-from ladder', () => {
  const then = visitOf('2026-01-05', [legOf()], { height: '130 cm', weight: '28 kg' });
  const piece = pieceOf('2026-01-05', { firstWorn: D('2026-01-19') });
  const growth = (...visits: ReturnType<typeof visitOf>[]) =>
    promptsOf('growth-since-cut', recordOf([then, ...visits], { ...child, pieces: [piece] }), '2026-07-10');

  it('fires on height and weight alone, when the limb was not taped again', () => {
    // Calf: (31/28)^0.45 · (133/130)^−0.3 = 1.040: above 2 %.
    const [prompt] = growth(visitOf('2026-07-01', [], { height: '133 cm', weight: '31 kg' }));
    expect([prompt?.action, prompt?.due]).toEqual(['remeasure', '2026-07-01']);
    expect(prompt?.facts).toContain('Not measured since 5 Jan 2026.');
    // 133 / 130 − 1 and 31 / 28 − 1.
    expect(prompt?.figures?.slice(0, 2)).toEqual([
      { value: '+2.3\u202f%', label: 'height since 5 Jan 2026' },
      { value: '+10.7\u202f%', label: 'weight, same days' },
    ]);
  });

  it('is silent under the limit: half a kilogram and half a centimetre', () => {
    expect(growth(visitOf('2026-04-01', [], { height: '130.5 cm', weight: '28.5 kg' }))).toEqual([]);
  });

  it('stands beside a ladder that grew as well, and says that it can serve', () => {
    const [prompt] = growth(visitOf('2026-07-01', [legOf(1.04, { stretch: 1.028 })], { height: '133 cm', weight: '31 kg' }));
    expect(prompt?.facts.at(-1)).toMatch(/^Measured since, on 1 Jul 2026: girth \+4\.\d\s% at most; that ladder can serve\.$/u);
  });

  it('yields to a tape that says the leg is no larger and no longer', () => {
    expect(growth(visitOf('2026-07-01', [legOf(0.985)], { height: '133 cm', weight: '31 kg' }))).toEqual([]);
  });

  it('is silent without a height since, for a grown person, and for a retired piece', () => {
    expect(growth(visitOf('2026-07-01', [], { weight: '31 kg' }))).toEqual([]);
    const grown = visitOf('2026-07-01', [], { height: '133 cm', weight: '31 kg' });
    expect(promptsOf('growth-since-cut', recordOf([then, grown], { pieces: [piece] }), '2026-07-10')).toEqual([]);
    const retired = { ...piece, retired: D('2026-06-01') };
    expect(promptsOf('growth-since-cut', recordOf([then, grown], { ...child, pieces: [retired] }), '2026-07-10')).toEqual([]);
  });
});

describe('weight since the cut-from ladder', () => {
  const piece = pieceOf('2026-01-05', { firstWorn: D('2026-01-19') });
  const weights = (...kilograms: string[]) => {
    const visits = kilograms.map((weight, index) => visitOf(`2026-0${index + 1}-05`, index === 0 ? [legOf()] : [], { weight }));
    return promptsOf('weight-since-cut', recordOf(visits, { pieces: [piece] }), '2026-12-01');
  };

  it('looks from 5 % and expects a new piece from 10 %, up or down', () => {
    expect(weights('80 kg', '83.9 kg')).toEqual([]);
    expect(weights('80 kg', '84.1 kg')[0]?.title).toBe('Consider a remeasure for the left-leg piece 1: weight since it was cut.');
    expect(weights('80 kg', '71.9 kg')[0]?.title).toBe('Consider a remeasure and expect a new left-leg piece 1: weight since it was cut.');
  });

  it('compares with the day the piece was cut from, not with the last visit: 2 % at each of three visits fires', () => {
    expect(weights('80 kg', '81.6 kg', '83.2 kg', '84.9 kg')).toHaveLength(1);
    expect(weights('80 kg', '90 kg', '81 kg')).toEqual([]);
  });

  it('is silent once a piece cut from a ladder of that day or later is on its way, and not for an older one', () => {
    const visits = [visitOf('2026-01-05', [legOf()], { weight: '70 kg' }), visitOf('2026-06-05', [legOf(1.02)], { weight: '74 kg' })];
    const worn = pieceOf('2026-01-05', { firstWorn: D('2026-01-19') });
    const asked = (cutFrom: string, rest = {}) =>
      promptsOf(
        'weight-since-cut',
        recordOf(visits, { pieces: [worn, pieceOf(cutFrom, { piece: '2', orderId: 'o', ...rest })] }),
        '2026-06-10',
      ).filter((prompt) => prompt.about.piece === '1');
    expect(asked('2026-06-05')).toEqual([]);
    expect(asked('2026-01-05')).toHaveLength(1);
    expect(asked('2026-06-05', { covers: { from: 'knee', to: 'gluteal-fold' } })).toHaveLength(1);
  });

  it('is silent for a child, whose weight should rise, and without a weight on either side', () => {
    const visits = [visitOf('2026-01-05', [legOf()], { weight: '28 kg' }), visitOf('2026-06-05', [], { weight: '31 kg' })];
    expect(promptsOf('weight-since-cut', recordOf(visits, { ...child, pieces: [piece] }), '2026-07-01')).toEqual([]);
    const unweighed = [visitOf('2026-01-05', [legOf()]), visitOf('2026-06-05', [], { weight: '90 kg' })];
    expect(promptsOf('weight-since-cut', recordOf(unweighed, { pieces: [piece] }), '2026-07-01')).toEqual([]);
  });
});

describe('tightness, room and first fit', () => {
  const piece = pieceOf('2026-01-05', { firstWorn: D('2026-01-19') });
  const later = (factor: number, one = piece) =>
    recordOf([visitOf('2026-01-05', [legOf()], { weight: '70 kg' }), visitOf('2026-03-05', [legOf(factor)], { weight: '70 kg' })], {
      pieces: [one],
    });

  it('asks for a refit when tightness has left 0.75 to 1.25: at r 15 % about +4.6 and −4.2 % of girth', () => {
    expect(promptsOf('tightness-left-band', later(1.03), '2026-03-10')).toEqual([]);
    const unworn = { ...piece, firstWorn: null };
    const [tight] = promptsOf('tightness-left-band', later(1.06, unworn), '2026-03-10');
    expect([tight?.action, tight?.title.includes('tighter')]).toEqual(['refit', true]);
    expect(tight?.facts).toContain('Judged as cut: it has not been worn yet.');
    expect(tight?.title).toContain(': it is not worn yet and would sit tighter than');
    const [loose] = promptsOf('tightness-left-band', later(0.94), '2026-03-10');
    expect(loose?.title.includes('looser')).toBe(true);
    expect(promptsOf('tightness-left-band', later(1.06, { ...piece, retired: D('2026-02-01') }), '2026-03-10')).toEqual([]);
  });

  it('judges a worn piece as worn: 1.33 as cut is no alarm once wear took its share, twice the growth is, and it says which figure it used', () => {
    // 50 worn days of an unknown fabric leave exp(−0.37 √(50/90)) = 0.76 of the tension: 1.33 × 0.76 = 1.01, and at +15 % of girth 1.80 × 0.76 = 1.37.
    expect(promptsOf('tightness-left-band', later(1.06), '2026-03-10')).toEqual([]);
    const [tight] = promptsOf('tightness-left-band', later(1.15), '2026-03-10');
    expect(tight?.title).toMatch(/tighter than the working band/);
    expect(tight?.facts[0]).toMatch(/^1\.\d\d \(\d\.\d\d–\d\.\d\d\) as worn, 1\.\d\d as cut × the tightness as fitted/);
    expect(tight?.facts.some((fact) => fact.startsWith('Judged as worn. 50 worn days take about 24'))).toBe(true);
  });

  it('says when the room that was sewn in is used up: 6 % of a relaxed 31 cm is 1.9 cm', () => {
    expect(promptsOf('allowance-used-up', later(1.06, { ...piece, allowance: cm(1.5) }), '2026-03-10')[0]?.action).toBe('let-out');
    expect(promptsOf('allowance-used-up', later(1.06, { ...piece, allowance: cm(2.5) }), '2026-03-10')).toEqual([]);
    expect(promptsOf('allowance-used-up', later(1.06), '2026-03-10')).toEqual([]);
  });

  it('misses a first-fit check a fortnight after first wear, only where first fits are recorded', () => {
    const checked = (firstFit: null | undefined | ReturnType<typeof D>, today: string) =>
      promptsOf('first-fit-missing', later(1, { ...piece, firstFit }), today);
    expect(checked(null, '2026-02-01')).toEqual([]);
    expect(checked(null, '2026-02-02')[0]?.action).toBe('first-fit');
    expect(checked(D('2026-01-25'), '2026-03-02')).toEqual([]);
    expect(checked(undefined, '2026-03-02')).toEqual([]);
  });

  it('orders before a child’s piece is outgrown when that comes before it is worn out', () => {
    const visits = [visitOf('2026-01-05', [legOf()], { height: '130 cm', weight: '28 kg' })];
    const lasting = { ...piece, reductionPct: 10, lifeDays: 270 };
    const [prompt] = promptsOf('outgrown-before-worn-out', recordOf(visits, { ...child, pieces: [lasting] }), '2026-03-01');
    expect(prompt?.action).toBe('order');
    expect(prompt?.facts.some((fact) => fact.startsWith('Room to grow'))).toBe(true);
    expect(promptsOf('outgrown-before-worn-out', recordOf(visits, { pieces: [lasting] }), '2026-06-01')).toEqual([]);
  });

  it('calls a piece outgrown where the limb became larger, and too loose where it became smaller', () => {
    // Cut at 15 % reduction: at 0.88 times the girth hardly any stretch is left, at 1.12 it is nearly doubled (C against G = 0.85 C₀).
    const ends = (factor: number) => {
      const visits = [visitOf('2026-01-05', [legOf()]), visitOf('2026-02-20', [legOf(factor)])];
      const worn = { ...piece, firstWorn: D('2026-01-19'), lifeDays: 270 };
      return promptsOf('outgrown-before-worn-out', recordOf(visits, { pieces: [worn] }), '2026-03-01')[0]?.facts[0];
    };
    expect(ends(0.88)).toBe('Expected to be too loose from 20 Feb 2026.');
    expect(ends(1.12)).toBe('Expected to be outgrown from 20 Feb 2026.');
  });
});
