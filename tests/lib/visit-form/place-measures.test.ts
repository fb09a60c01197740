import { describe, expect, it } from 'vitest';
import { opened, redoable, step, undoable } from '@/lib/entry/entry-state';
import { firstSheet } from '@/lib/visit-form/first-sheet';
import { formOfVisit } from '@/lib/visit-form/form-of-visit';
import { cutPasted } from '@/lib/visit-form/pasted-columns';
import { planMeasures, withPastedMeasures } from '@/lib/visit-form/place-measures';
import { measureRows, readMeasures, withMeasure, withMeasureAgain } from '@/lib/visit-form/read-measures';
import type { VisitForm } from '@/lib/visit-form/visit-form';
import { visitOf } from '../made-up-ladder';

const HAND = { part: 'hand', side: 'left' } as const;
const rows = measureRows([HAND]);
const row = (id: string) => rows.find(({ measure }) => measure.id === id) ?? (rows[0] as (typeof rows)[number]);
const FORM: VisitForm = {
  ...formOfVisit(visitOf('2026-11-20', []), { lengthUnit: 'cm', massUnit: 'kg' }),
  sheets: [firstSheet('leg', 'cm', ['left'])],
  parts: [HAND],
};
const plan = (text: string, given: Partial<Parameters<typeof planMeasures>[2]> = {}, form = FORM) =>
  planMeasures(cutPasted(text), form, { from: row('hand-girth'), rows, again: false, othersMeant: false, ...given });
const texts = (form: Partial<VisitForm>) => (form.measures ?? []).map(({ side, measure, text }) => `${side} ${measure} ${text}`);

describe('named measures pasted in', () => {
  it('go down the sheet from the box where lines have no names', () => {
    const found = plan('18.7\n24.1\n7.9');
    expect([found.asked, found.refused]).toEqual([null, null]);
    expect(texts(withPastedMeasures(FORM, found, 'cm'))).toEqual([
      'left hand-girth 18.7',
      'left hand-girth-with-thumb 24.1',
      'left hand-breadth 7.9',
    ]);
  });

  it('go where their names say, by name or id, on the side being measured or the one that is named', () => {
    const found = plan('Hand girth\t18.7\nmiddle-finger-length\t7.2\nleft wrist girth\t15.4');
    expect(texts(withPastedMeasures(FORM, found, 'cm'))).toEqual([
      'left hand-girth 18.7',
      'left middle-finger-length 7.2',
      'left wrist-girth 15.4',
    ]);
  });

  it('of another part are asked about, and land with their part only once they are meant', () => {
    const text = 'hand girth\t18.7\nball girth\t22.8';
    expect(plan(text).asked).toBe('Line 2 is of the left foot, and the left hand is being measured. Is that meant?');
    const meant = plan(text, { othersMeant: true });
    expect(meant.asked).toBeNull();
    const filled = withPastedMeasures(FORM, meant, 'cm');
    expect(filled.parts).toEqual([HAND, { part: 'foot', side: 'left' }]);
    expect(texts(filled)).toContain('left ball-girth 22.8');
    expect(plan('right hand girth\t18.9').asked).toContain('Line 1 is of the right hand');
  });

  it('are refused as a whole by line: a name that is none, a figure that is none, one measure twice, nothing measured first', () => {
    expect(plan('hand girth\t18.7\nelbow width\t3').refused).toMatch(/^Line 2: “elbow width” is no measure/);
    expect(plan('hand girth\tabout 19').refused).toMatch(/^Line 1: /);
    expect(plan('hand girth\t18.7\nhand-girth\t18.8').refused).toMatch(/^Line 2: this measure stands twice/);
    expect(plan('18.7', { again: true }).refused).toMatch(/Nothing stands there to be measured again/);
    expect(plan('').refused).toBe('There are no figures in this text.');
  });
});

describe('a measure measured a second time', () => {
  const typed = { ...FORM, ...withMeasure(FORM, row('hand-girth'), '18.7', 'cm') };
  const twice = { ...typed, ...withMeasureAgain(typed, row('hand-girth'), '18.9', 'cm') };
  const read = (form: VisitForm) => {
    const refused: string[] = [];
    return { measures: readMeasures(form, (_where, why) => refused.push(why)), refused };
  };

  it('keeps both, comes back on the form as typed, and goes when emptied', () => {
    const { measures } = read(twice);
    expect(measures.map(({ length, again }) => [length.text, again?.text])).toEqual([['18.7', '18.9']]);
    const back = formOfVisit(visitOf('2026-11-20', [], { measures }), { lengthUnit: 'cm', massUnit: 'kg' });
    expect(back.measures).toEqual(twice.measures);
    expect(withMeasureAgain(twice, row('hand-girth'), '', 'cm').measures).toEqual(typed.measures);
  });

  it('wants a first one, and a figure that can be read', () => {
    const alone = { ...FORM, ...withMeasureAgain(FORM, row('hand-girth'), '18.9', 'cm') };
    expect(read(alone).refused[0]).toContain('first measuring is empty');
    expect(read({ ...twice, ...withMeasureAgain(twice, row('hand-girth'), 'x', 'cm') }).refused[0]).toContain('measured again');
  });
});

describe('acts on named measures', () => {
  it('are taken back and done again by name, and not once the measure has another figure', () => {
    const change = withMeasure(FORM, row('hand-girth'), '18.7', 'cm');
    const done = step(opened(FORM), { kind: 'measures', change, words: 'paste one named measure' });
    expect(undoable(done)?.words).toBe('paste one named measure');
    const back = step(done, { kind: 'undo' });
    expect(back.form.measures).toEqual([]);
    expect(redoable(back)?.words).toBe('paste one named measure');
    expect(step(back, { kind: 'redo' }).form.measures).toEqual(done.form.measures);
    const since = step(done, { kind: 'field', change: withMeasure(done.form, row('hand-girth'), '19', 'cm') });
    expect(undoable(since)).toBeUndefined();
    const beside = step(done, { kind: 'field', change: withMeasure(done.form, row('wrist-girth'), '15', 'cm') });
    expect(texts(step(beside, { kind: 'undo' }).form)).toEqual(['left wrist-girth 15']);
  });
});
