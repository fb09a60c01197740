import { describe, expect, it } from 'vitest';
import { whatIsKnown } from '@/app/_sheet/read-sheet-data';
import type { KeptRecord } from '@/db/patients/records';
import { keysOf, questionKey, withAsked } from '@/lib/entry/asked-by-server';
import { limbKey } from '@/lib/entry/entry-data';
import { leftOpenInWords, openQuestions, unasked } from '@/lib/entry/open-questions';
import { signedForm } from '@/lib/entry/signed-form';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { calendarDay } from '@/lib/units/calendar-day';
import { firstSheet } from '@/lib/visit-form/first-sheet';
import { readVisitForm } from '@/lib/visit-form/read-visit-form';
import { cellKey, type VisitForm } from '@/lib/visit-form/visit-form';

const DAY = calendarDay('2026-11-25');

/** A made-up leg every 1½ in, 38.1 mm apart. */
const LEG = ['8 1/8', '8 3/8', '8 7/8', '9 5/8', '10 1/2', '11 3/8', '12 1/8', '12 5/8', '12 7/8', '12 3/4'];

function form(girths: readonly string[], kept: Readonly<Record<number, string>> = {}): VisitForm {
  const cells = Object.fromEntries(
    girths.map((text, index) => {
      const doubt = kept[index] ? { kept: [{ kind: kept[index], by: 'somebody else', at: 'long ago' }] } : {};
      return [cellKey('right', String(38_100_000 * (index + 1))), { text, ...doubt }];
    }),
  );
  const sheet = { ...firstSheet('leg', 'in'), sides: ['right'] as const, zero: 'ankle-crease', interval: '1 1/2', count: 10, cells };
  const bare = { posture: 'lying', measurer: 'RA', height: '', weight: '', note: '', readings: [] };
  return { ...bare, day: DAY, time: '10:00', heightUnit: 'in', massUnit: 'lb', sheets: [sheet] };
}

/** What is known of a grown patient with one earlier visit of these girths, or none. */
function known(before?: readonly string[]) {
  const read = before && readVisitForm({ ...form(before), day: '2026-10-14' }, { born: calendarDay('1988-05-06'), today: DAY });
  const visits = read && read.kind === 'read' ? [read.visit] : [];
  const record = { reference: 'A', born: calendarDay('1988-05-06'), sex: 'F', affected: [], pieces: [], visits } as unknown as KeptRecord;
  return whatIsKnown(record, DEFAULT_POLICY, DAY, DAY);
}

/** The same leg with its seventh girth's digits exchanged: 21⅛ for 12⅛. */
const SLIP = LEG.map((girth, index) => (index === 6 ? '21 1/8' : girth));
/** The same with its fourth and fifth figures exchanged: smooth enough by itself, odd beside the last visit. */
const EXCHANGED = [...LEG.slice(0, 3), '10 1/2', '9 5/8', ...LEG.slice(5)];

describe('the questions asked again at save', () => {
  it('a figure nobody was asked about comes back; one that was shown and left open, kept or set right does not', () => {
    const { asks: asked } = unasked(form(SLIP), known(), []);
    expect(asked.map(({ doubt, side, row }) => [doubt.kind, side, row])).toEqual([['swapped-digits', 'right', String(7 * 38_100_000)]]);
    expect(unasked(form(SLIP), known(), asked.map(questionKey)).asks).toEqual([]);
    expect(unasked(form(SLIP, { 6: 'swapped-digits' }), known(), []).asks).toEqual([]);
    expect(unasked(form(LEG), known(), []).asks).toEqual([]);
    expect(leftOpenInWords(form(SLIP), known())).toEqual([expect.stringMatching(/^right: 10½\sin: 21⅛ or 12⅛\?$/)]);
  });

  it('keeping another question of that rung does not answer this one', () => {
    expect(unasked(form(SLIP, { 6: 'equals-last-visit' }), known(), []).asks).toHaveLength(1);
  });

  it('the server knows of a visit that the page did not: exchanged neighbours are seen only beside it', () => {
    expect(known(LEG).last[limbKey('leg', 'right')]?.words).toBe('14 Oct');
    expect(openQuestions(form(EXCHANGED), known()).map(({ doubt }) => doubt.kind)).not.toContain('swapped-neighbours');
    expect(unasked(form(EXCHANGED), known(LEG), []).asks.map(({ doubt }) => doubt.kind)).toEqual(['swapped-neighbours']);
  });

  it('what the server asked stands on the sheet until its figure is typed anew or kept', () => {
    const sent = form(EXCHANGED);
    const { asks } = unasked(sent, known(LEG), []);
    const on = (now: VisitForm) => withAsked([], 0, now, { form: sent, asks }).length;
    expect(on(sent)).toBe(1);
    expect(withAsked(asks, 0, sent, { form: sent, asks })).toHaveLength(1);
    expect(withAsked([], 1, sent, { form: sent, asks })).toHaveLength(0);
    expect(on(form(LEG))).toBe(0);
    expect(on(form(EXCHANGED, { 3: 'swapped-neighbours', 4: 'swapped-neighbours' }))).toBe(0);
    expect(on(form([...EXCHANGED.slice(0, 9), '13']))).toBe(1);
  });

  it('takes nothing but texts from outside', () => {
    expect(keysOf(['0/right/1/neighbours', 7, null])).toEqual(['0/right/1/neighbours']);
    expect(keysOf('0/right/1/neighbours')).toEqual([]);
    expect(keysOf(undefined)).toEqual([]);
  });
});

describe('signatures of kept questions', () => {
  const at = new Date('2026-11-25T14:31:00.000Z');
  const signatures = (one: VisitForm) => one.sheets.flatMap((sheet) => Object.values(sheet.cells).flatMap((cell) => cell.kept ?? []));

  it('are the server’s: who sent it and when it came, whatever the sheet said, also for a question nobody would raise', () => {
    const signed = signedForm(form(LEG, { 2: 'tens-digit' }), 'R. Adeyemi', at);
    expect(signatures(signed)).toEqual([{ kind: 'tens-digit', by: 'R. Adeyemi', at: '2026-11-25T14:31:00.000Z' }]);
  });

  it('that stand on record stay as they are', () => {
    const onRecord = form(LEG, { 2: 'tens-digit' });
    const signed = signedForm(form(LEG, { 2: 'tens-digit', 5: 'neighbours' }), 'R. Adeyemi', at, onRecord);
    expect(signatures(signed).map(({ by }) => by)).toEqual(['somebody else', 'R. Adeyemi']);
  });
});
