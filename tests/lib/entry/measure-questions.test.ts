import { describe, expect, it } from 'vitest';
import { firstForm, metDraft, whatIsKnown } from '@/app/_sheet/read-sheet-data';

import type { KeptRecord } from '@/db/patients/records';
import { goneThroughMeasures } from '@/lib/doubts/record-measure-doubts';
import { figureDifferences } from '@/lib/entry/figure-differences';
import { keptMeasure, lastMeasure, measureQuestions } from '@/lib/entry/measure-questions';
import { leftOpenInWords, unasked } from '@/lib/entry/open-questions';
import { signedForm } from '@/lib/entry/signed-form';
import { visitQuestionKey } from '@/lib/entry/visit-question';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import type { ClinicDetails } from '@/lib/record/clinic-details';
import type { NamedMeasure, Visit } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { asNanometres } from '@/lib/units/length';
import { firstSheet } from '@/lib/visit-form/first-sheet';
import { formOfVisit } from '@/lib/visit-form/form-of-visit';
import { measureRows, withMeasure } from '@/lib/visit-form/read-measures';
import { readVisitForm } from '@/lib/visit-form/read-visit-form';
import { isUntouched, type MeasureText, type VisitForm } from '@/lib/visit-form/visit-form';
import { visitFormSchema } from '@/lib/visit-form/visit-form-schema';
import { visitOf } from '@/tests/lib/made-up-ladder';
import { legOf } from '@/tests/lib/prompts/made-up-piece';

const TODAY = calendarDay('2026-11-25');
const DAYS = { born: calendarDay('1980-03-01'), today: TODAY };
const UNITS = { lengthUnit: 'cm', massUnit: 'kg' } as const;

const taken = (measure: string, cm: string, side: NamedMeasure['side'] = 'left'): NamedMeasure => ({
  part: side === 'middle' ? 'head' : 'hand',
  side,
  measure,
  length: { text: cm, unit: 'cm', nm: asNanometres(Math.round(Number(cm) * 1e7)) },
});

/** A grown woman whose hand was measured in August. */
const record = (measures: readonly NamedMeasure[] | undefined) =>
  ({
    reference: 'A',
    born: DAYS.born,
    sex: 'F',
    affected: [{ limb: 'leg', side: 'left' }],
    pieces: [],
    visits: [{ ...visitOf('2026-08-20', [legOf()], { height: '165', weight: '65' }), ...(measures ? { measures } : {}) }],
  }) as unknown as KeptRecord;
const AUGUST = [taken('hand-girth', '18.7'), taken('wrist-girth', '15.4')];
const known = whatIsKnown(record(AUGUST), DEFAULT_POLICY, TODAY, TODAY);

const text = (measure: string, typed: string, rest: Partial<MeasureText> = {}): MeasureText => ({
  part: 'hand',
  side: 'left',
  measure,
  text: typed,
  unit: 'cm',
  ...rest,
});

function form(measures: readonly MeasureText[], rest: Partial<VisitForm> = {}): VisitForm {
  const bare = { time: '10:00', posture: 'lying', measurer: 'RA', height: '', weight: '', note: '', readings: [] };
  const parts = [{ part: 'hand', side: 'left' } as const];
  return { ...bare, day: TODAY, heightUnit: 'cm', massUnit: 'kg', sheets: [firstSheet('leg', 'cm')], parts, measures, ...rest };
}

describe('named measures on the sheet', () => {
  it('are read to the typed text, in the order of the catalogue, and shown again as they were typed', () => {
    const typed = form([text('wrist-girth', '6 1/8', { unit: 'in' }), text('hand-girth', '18,9', { note: 'rings on' })]);
    const read = readVisitForm(typed, DAYS);
    if (read.kind === 'refused') throw new Error(JSON.stringify(read.refusals));
    // 1 in = 25.4 mm exactly: 6 1/8 in = 155.575 mm.
    expect(read.visit.measures).toEqual([
      { part: 'hand', side: 'left', measure: 'hand-girth', note: 'rings on', length: { text: '18,9', unit: 'cm', nm: 189_000_000 } },
      { part: 'hand', side: 'left', measure: 'wrist-girth', length: { text: '6 1/8', unit: 'in', nm: 155_575_000 } },
    ]);
    const again = readVisitForm(formOfVisit(read.visit, UNITS), DAYS);
    expect(again.kind === 'read' && again.visit.measures).toEqual(read.visit.measures);
    expect(visitFormSchema.parse(typed)).toEqual(typed);
    expect(isUntouched(typed)).toBe(false);
  });

  it('a form without any says nothing of them', () => {
    const read = readVisitForm({ ...form([]), height: '165' }, DAYS);
    expect(read.kind === 'read' && 'measures' in read.visit).toBe(false);
    expect(isUntouched(form([]))).toBe(true);
  });

  it.each<[string, MeasureText, RegExp]>([
    ['a measure of another part', text('foot-length', '24'), /^“foot-length” is not a measure of the hand\.$/],
    ['a measure that is none', text('hat-size', '24'), /^“hat-size” is not a measure of the hand\.$/],
    ['a side it is not taken on', text('hand-girth', '18', { side: 'middle' }), /^The hand girth.* is not taken on the middle\.$/],
    ['a text that is no length', text('hand-girth', 'abc'), /^Left hand girth.*abc/],
    ['more than a body', text('hand-girth', '2600'), /larger than any measure of a body/],
  ])('refuses %s where it was typed', (_name, wrong, reason) => {
    const read = readVisitForm(form([wrong]), DAYS);
    expect(read.kind === 'refused' && read.refusals).toEqual([
      { where: `measure/${wrong.side}/${wrong.measure}`, reason: expect.stringMatching(reason) },
    ]);
  });

  it('refuses one that stands twice', () => {
    const read = readVisitForm(form([text('hand-girth', '18'), text('hand-girth', '19')]), DAYS);
    expect(read.kind === 'refused' && read.refusals.map(({ reason }) => reason)).toEqual([expect.stringContaining('stands twice')]);
  });

  it('a wrong tens digit is asked about beside the last visit, with what would fit; kept, it rests, typed anew it is asked again', () => {
    const odd = form([text('hand-girth', '28.7')]);
    const [question, ...more] = measureQuestions(odd, known.measures, DAYS.born);
    expect(more).toEqual([]);
    expect(question).toMatchObject({ where: 'left/hand-girth', doubt: 'tens-digit', text: '28.7' });
    expect(question?.wouldFit).toMatch(/^18\.7/);
    expect(question?.message).toContain('20 Aug');
    if (!question) return;
    const kept = { ...odd, ...keptMeasure(odd, question, 'RA', '2026-11-25T10:00:00Z') };
    expect(measureQuestions(kept, known.measures, DAYS.born)).toEqual([]);
    const [row] = measureRows([{ part: 'hand', side: 'left' }]).filter(({ measure }) => measure.id === 'hand-girth');
    if (!row) throw new Error('no row');
    const anew = { ...kept, ...withMeasure(kept, row, '38.7', 'cm') };
    expect(anew.measures?.[0]?.kept).toBeUndefined();
    expect(measureQuestions(anew, known.measures, DAYS.born)).toHaveLength(1);
    expect(measureQuestions(form([text('hand-girth', '18.9')]), known.measures, DAYS.born)).toEqual([]);
    expect(lastMeasure(known.measures, 'left/hand-girth')).toMatchObject({ day: '2026-08-20', taken: { length: { text: '18.7' } } });
  });

  it('come back from the server until they were shown and left open, and go into the log', () => {
    const odd = form([text('hand-girth', '28.7')]);
    const { ofVisit } = unasked(odd, known, []);
    expect(ofVisit.map(({ kind, where }) => [kind, where])).toEqual([['measure', 'left/hand-girth']]);
    expect(unasked(odd, known, ofVisit.map(visitQuestionKey)).ofVisit).toEqual([]);
    expect(leftOpenInWords(odd, known)).toEqual([expect.stringMatching(/^Left hand girth.*28\.7.*\?$/)]);
  });

  it('a kept question is closed on the record too, and its figure is trusted; the name of who kept it is the server’s', () => {
    const kept = [{ kind: 'tens-digit', by: 'somebody else', at: '2020-01-01T00:00:00Z' }];
    const signed = signedForm(form([text('hand-girth', '28.7', { kept })]), 'R. Adeyemi', new Date('2026-11-25T10:00:00Z'));
    expect(signed.measures?.[0]?.kept).toEqual([{ kind: 'tens-digit', by: 'R. Adeyemi', at: '2026-11-25T10:00:00.000Z' }]);
    const read = readVisitForm(signed, DAYS);
    if (read.kind === 'refused') throw new Error('refused');
    const both = (visit: Visit) => ({ ...record(AUGUST), visits: [...record(AUGUST).visits, visit] }) as never;
    expect(goneThroughMeasures(both(read.visit), DEFAULT_POLICY).doubts.size).toBe(0);
    const [odd] = read.visit.measures ?? [];
    if (!odd) throw new Error('nothing read');
    const { kept: _kept, ...bare } = odd;
    const open = goneThroughMeasures(both({ ...read.visit, measures: [bare] }), DEFAULT_POLICY);
    expect([...open.doubts.values()].flat().map(({ kind }) => kind)).toEqual(['tens-digit']);
    expect(open.doubted).toHaveLength(1);
  });

  it('the section opens by itself only where the last visit has some', () => {
    const now = { day: TODAY, time: '10:00', who: 'RA' };
    const clinic = UNITS as unknown as ClinicDetails;
    expect('parts' in firstForm(record(undefined), clinic, now)).toBe(false);
    const begun = firstForm(record([...AUGUST, taken('head-girth', '55', 'middle')]), clinic, now);
    expect(begun.parts).toEqual([
      { part: 'hand', side: 'left' },
      { part: 'head', side: 'middle' },
    ]);
    expect(begun.measures ?? []).toEqual([]);
  });

  it('stand in a draft, and in the differences of two versions by name', () => {
    const one = form([text('hand-girth', '18.7')]);
    const draft = { content: { form: one, submissionId: 'x' }, version: 1, updatedAt: new Date() };
    expect(metDraft(draft as never, 'UTC')?.content.form).toEqual(one);
    expect(figureDifferences(one, form([text('hand-girth', '18.9')]))).toEqual([
      { where: expect.stringMatching(/^Left hand girth/), one: '18.7', other: '18.9' },
    ]);
  });
});
