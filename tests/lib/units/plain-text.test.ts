import { describe, expect, it } from 'vitest';
import { isPlainText } from '@/lib/units/plain-text';
import { visitFormSchema } from '@/lib/visit-form/visit-form-schema';

/** Unicode 15, table 23-1 (control codes) and section 3.9, D91 (isolated surrogates are no scalar values). */
describe('a text that is kept to the letter', () => {
  it('has letters of every plane, tabs and line ends', () => {
    expect(['', 'Mira', 'пять 🧵', 'a\tb\r\nc', '\u00a0½\u2044'].map(isPlainText)).toEqual([true, true, true, true, true]);
  });

  it('has no control character and no half of a letter', () => {
    for (let code = 0; code < 0x20; code++)
      expect([code, isPlainText(`a${String.fromCharCode(code)}b`)]).toEqual([code, code === 9 || code === 10 || code === 13]);
    expect(['\u007f', '\ud83e', 'a\udd7bb', '\udd7b\ud83e'].map(isPlainText)).toEqual([false, false, false, false]);
  });

  it('agrees with the platform on what is well formed', () => {
    for (let unit = 0xd7f0; unit < 0xe010; unit++) {
      const text = `x${String.fromCharCode(unit)}y`;
      expect([unit, isPlainText(text)]).toEqual([unit, Buffer.from(text, 'utf8').toString('utf8') === text]);
    }
  });

  it('is asked of every box of a visit', () => {
    const form = {
      day: '2026-10-14',
      time: '',
      posture: 'lying',
      measurer: 'RA',
      height: '',
      heightUnit: 'in',
      weight: '',
      massUnit: 'kg',
      note: '',
      sheets: [],
      readings: [],
    };
    expect(visitFormSchema.safeParse(form).success).toBe(true);
    for (const box of ['day', 'posture', 'measurer', 'height', 'note'])
      for (const bad of ['\0', '\ud83e']) expect([box, visitFormSchema.safeParse({ ...form, [box]: bad }).success]).toEqual([box, false]);
  });
});
