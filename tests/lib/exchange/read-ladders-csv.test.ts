import { describe, expect, it } from 'vitest';
import { readLaddersCsv } from '@/lib/exchange/read-ladders-csv';
import { calendarDay } from '@/lib/units/calendar-day';
import { file, HEADER, row, THREE } from './files';

const TODAY = calendarDay('2026-11-25');

function faultOf(text: string) {
  const read = readLaddersCsv(text, TODAY);
  return read.kind === 'fault' ? read.fault : undefined;
}

function recordsOf(text: string) {
  const read = readLaddersCsv(text, TODAY);
  if (read.kind === 'fault') throw new Error(`line ${read.fault.line}, ${read.fault.column}: ${read.fault.reason}`);
  return read.records;
}

const ladderOf = (text: string) => recordsOf(text)[0]?.visits[0]?.ladders[0];

describe('a ladders file', () => {
  it('is read to the typed text and the exact length', () => {
    const text = file(
      row({
        unit: 'in',
        distance: '1 1/2',
        girth: '7-3/4',
        height: '4 ft 11',
        weight: '42 3/4 lb',
        time: '9:05',
        posture: 'lying',
        measurer: 'RA',
      }),
      row({ unit: 'in', distance: '3', girth: '8¼', note: 'scar edge' }),
    );
    const [record] = recordsOf(text);
    const visit = record?.visits[0];
    expect(visit?.ladders[0]?.rungs.map((rung) => [rung.distance.text, rung.girth?.text, rung.girth?.nm, rung.note])).toEqual([
      ['1 1/2', '7-3/4', 196_850_000, undefined],
      ['3', '8¼', 209_550_000, 'scar edge'],
    ]);
    expect([visit?.height?.nm, visit?.weight?.ng, visit?.time, visit?.posture, visit?.measurer]).toEqual([
      1_498_600_000,
      19_391_073_817_500,
      '09:05',
      'lying',
      'RA',
    ]);
    expect(record?.affected).toEqual([{ limb: 'leg', side: 'left' }]);
  });

  it.each([
    ['Windows line ends', file(...THREE).replaceAll('\n', '\r\n')],
    ['a byte order mark', `\ufeff${file(...THREE)}`],
    ['quoted cells', file(...THREE).replaceAll('ankle-crease', '"ankle-crease"')],
    ['empty lines between', file(...THREE).replaceAll('\n', '\n\n')],
    [
      'columns in another order',
      file(...THREE)
        .split('\n')
        .map((line) => line.split(',').reverse().join(','))
        .join('\n'),
    ],
    ['no line end at the end', file(...THREE).trimEnd()],
    ['blanks around cells', file(...THREE).replaceAll(',', ' , ')],
  ])('is the same record with %s', (_what, text) => {
    expect(recordsOf(text)).toEqual(recordsOf(file(...THREE)));
  });

  it('takes a decimal comma in quotes as the figure it is', () => {
    expect(ladderOf(file(row({ distance: '4', girth: '"22,6"' })))?.rungs[0]?.girth).toEqual({ text: '22,6', unit: 'cm', nm: 226_000_000 });
  });

  it('takes the direction from the zero: up from the distal landmark, down from the proximal one, from the knee by what else was met', () => {
    const from = (zero: string, ...marks: [string, string][]) =>
      ladderOf(file(row({ zero, distance: '4', girth: '30' }), ...marks.map(([landmark, distance]) => row({ zero, distance, landmark }))))
        ?.direction;
    expect(from('ankle-crease', ['knee', '28'])).toBe('up');
    expect(from('gluteal-fold', ['knee', '30'], ['ankle-crease', '58'])).toBe('down');
    expect(from('gluteal-fold')).toBe('down');
    expect(from('knee', ['ankle-crease', '28'])).toBe('down');
    expect(from('knee', ['gluteal-fold', '30'])).toBe('up');
    expect(from('above the scar', ['ankle-crease', '20'])).toBe('down');
    expect(from('above the scar', ['gluteal-fold', '20'])).toBe('up');
  });

  it('keeps rows of one day at two times apart, and rows of one visit together wherever they stand', () => {
    const text = file(
      row({ time: '14:00', distance: '4', girth: '23' }),
      row({ time: '08:30', distance: '4', girth: '22' }),
      row({ time: '14:00', distance: '8', girth: '25' }),
    );
    expect(recordsOf(text)[0]?.visits.map((visit) => [visit.time, visit.ladders[0]?.rungs.length])).toEqual([
      ['08:30', 1],
      ['14:00', 2],
    ]);
  });

  it('keeps a note of a landmark’s row and of a place that was not taped', () => {
    const ladder = ladderOf(
      file(
        ...THREE,
        row({ distance: '12', note: 'dressing' }),
        row({ distance: '30', landmark: 'gluteal-fold', note: 'faint' }),
        row({ distance: '30', girth: '40' }),
      ),
    );
    expect(ladder?.rungs.slice(-2).map((rung) => [rung.distance.text, rung.girth?.text, rung.note])).toEqual([
      ['28', '35', undefined],
      ['30', '40', 'faint'],
    ]);
    expect(ladder?.rungs.find((rung) => rung.distance.text === '12')).toEqual({
      distance: { text: '12', unit: 'cm', nm: 120_000_000 },
      girth: null,
      note: 'dressing',
    });
  });

  it('of a header alone has no patients', () => {
    expect(recordsOf(`${HEADER}\n`)).toEqual([]);
  });

  it('takes a zero in words, and none that is a figure', () => {
    expect(ladderOf(file(row({ zero: '5 cm above the wrist scar', distance: '4', girth: '20' })))?.zero).toBe('5 cm above the wrist scar');
    expect(faultOf(file(row({ zero: '5 cm', distance: '4', girth: '20' })))?.column).toBe('zero');
  });
});

describe('a fault in a ladders file names line, column and reason', () => {
  const second = (cells: Parameters<typeof row>[0]) =>
    file(row({ distance: '4', girth: '22.6' }), row({ distance: '8', girth: '25', ...cells }));

  it.each([
    ['an empty patient', second({ patient: '' }), 'patient', 'empty'],
    ['a day of birth in another spelling', second({ patient: 'R-2', born: '01/03/1980' }), 'born', 'year-month-day'],
    ['a day that is not in the calendar', second({ day: '2026-02-30' }), 'day', 'not in the calendar'],
    ['a visit before birth', second({ day: '1979-01-01' }), 'day', 'before the day of birth'],
    ['a visit that has not come', second({ day: '2026-12-24' }), 'day', 'has not come yet'],
    ['another day of birth', second({ born: '1980-03-02' }), 'born', '1980-03-01'],
    ['another sex', second({ sex: 'M' }), 'sex', 'earlier row says F'],
    ['a sex that no table has', second({ patient: 'R-2', sex: 'f' }), 'sex', 'F, M, X'],
    ['a time that no clock shows', second({ time: '24:10' }), 'time', 'clock time'],
    [
      'two postures of one visit',
      file(row({ distance: '4', girth: '22', posture: 'lying' }), row({ distance: '8', girth: '25', posture: 'standing' })),
      'posture',
      'lying',
    ],
    [
      'two measurers of one visit',
      file(row({ distance: '4', girth: '22', measurer: 'A' }), row({ distance: '8', girth: '25', measurer: 'B' })),
      'measurer',
      'says A',
    ],
    ['a height without its unit', second({ height: '112.5' }), 'height', 'has no unit'],
    [
      'two heights of one visit',
      file(row({ distance: '4', girth: '22', height: '112 cm' }), row({ distance: '8', girth: '25', height: '113 cm' })),
      'height',
      '112 cm',
    ],
    ['a weight without its unit', second({ weight: '42' }), 'weight', 'has no unit'],
    [
      'two weights of one visit',
      file(row({ distance: '4', girth: '22', weight: '42 kg' }), row({ distance: '8', girth: '25', weight: '43 kg' })),
      'weight',
      '42 kg',
    ],
    ['a limb that is none', second({ limb: 'hand' }), 'limb', 'leg, arm'],
    ['a side that is none', second({ side: 'L' }), 'side', 'left, right'],
    ['affected in other words', second({ affected: 'true' }), 'affected', 'yes, no'],
    ['a limb affected and not', second({ affected: 'no' }), 'affected', 'earlier row says yes'],
    ['a zero of another limb', second({ side: 'right', zero: 'wrist-crease' }), 'zero', 'not on a leg'],
    ['a misspelt zero', second({ side: 'right', zero: 'Ankle crease' }), 'zero', 'ankle-crease'],
    ['an empty zero', second({ side: 'right', zero: '' }), 'zero', 'empty'],
    ['two zeros of one ladder', second({ zero: 'knee' }), 'zero', 'starts at ankle-crease'],
    ['two units of one ladder', second({ unit: 'in' }), 'unit', 'in cm'],
    ['a unit that is none', second({ side: 'right', unit: 'mm' }), 'unit', 'in, cm'],
    ['an empty distance', second({ distance: '' }), 'distance', 'empty'],
    ['a distance below zero', second({ distance: '-8' }), 'distance', 'below zero'],
    ['a distance twice', second({ distance: '4.0' }), 'distance', 'stands twice'],
    ['a girth that is no figure', second({ girth: '25.x' }), 'girth', 'letter'],
    ['a girth with two decimal marks', second({ girth: '2.5.1' }), 'girth', 'more than one decimal mark'],
    ['a girth of two readings', second({ girth: '"1,234"' }), 'girth', 'two ways'],
    ['a girth of nought', second({ girth: '0' }), 'girth', '0 is not a reading'],
    ['a girth in the other unit', second({ girth: '10 in' }), 'girth', 'centimetres'],
    ['a row that says nothing', second({ girth: '' }), 'girth', 'says nothing'],
    ['a landmark of another limb', second({ landmark: 'wrist-crease' }), 'landmark', 'not a landmark of the leg'],
    [
      'a landmark twice',
      file(row({ distance: '28', landmark: 'knee' }), row({ distance: '29', landmark: 'knee' })),
      'landmark',
      'stands twice',
    ],
    ['a zero that lies elsewhere too', second({ landmark: 'ankle-crease' }), 'landmark', 'cannot lie at 8'],
    ['a cell too many', `${file(row({ distance: '4', girth: '22.6' }))}${row({ distance: '8', girth: '25' })},x\n`, 'note', '19 cells'],
    ['a cell too few', `${file(row({ distance: '4', girth: '22.6' }))}R-1,1980-03-01\n`, 'sex', '2 cells'],
  ])('%s', (_what, text, column, reason) => {
    const fault = faultOf(text);
    expect([fault?.line, fault?.column]).toEqual([3, column]);
    expect(fault?.reason).toContain(reason);
  });

  it('landmarks that do not lie in their order, at the ladder’s first row', () => {
    const fault = faultOf(
      file(
        row({ distance: '4', girth: '22' }),
        row({ distance: '28', landmark: 'gluteal-fold' }),
        row({ distance: '60', landmark: 'knee' }),
      ),
    );
    expect([fault?.line, fault?.column]).toEqual([2, 'landmark']);
  });

  it('counts lines as an editor does, over empty lines, Windows line ends and a quoted cell of two lines', () => {
    const rows = [
      row({ distance: '4', girth: '22' }),
      '',
      row({ distance: '8', girth: '25', note: '"two\nlines"' }),
      row({ distance: '12', girth: 'x' }),
    ];
    expect(faultOf(file(...rows))?.line).toBe(6);
    expect(faultOf(file(...rows).replaceAll('\n', '\r\n'))?.line).toBe(6);
  });

  it.each([
    ['an empty file', '', 'patient', 1, 'empty'],
    ['an unknown column', file(...THREE).replace('girth', 'girth_cm'), 'girth_cm', 1, 'Unknown column'],
    [
      'a missing column',
      file(...THREE)
        .split('\n')
        .map((line) => line.split(',').slice(0, -1).join(','))
        .join('\n'),
      'note',
      1,
      'missing',
    ],
    ['a doubled column', file(...THREE).replace('posture', 'time'), 'posture', 1, 'missing'],
    ['semicolons instead of commas', file(...THREE).replaceAll(',', ';'), '', 1, 'Unknown column'],
  ])('%s', (_what, text, column, line, reason) => {
    const fault = faultOf(text);
    expect(fault?.line).toBe(line);
    if (column !== '') expect(fault?.column).toBe(column);
    expect(fault?.reason).toContain(reason);
  });

  it('quotes that do not close', () => {
    const fault = faultOf(file(row({ distance: '4', girth: '22', note: '"open' })));
    expect(fault?.reason).toContain('quotes');
  });
});
