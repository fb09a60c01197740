import { describe, expect, it } from 'vitest';
import { readPatient, type TypedPatient, typedFrom, typedPatient } from '@/app/patients/read-patient';
import { affectedInWords } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';

const TODAY = calendarDay('2026-11-25');

const TYPED: TypedPatient = {
  reference: ' HL-0147 ',
  name: '  Mira Oduya',
  born: '2016-02-29',
  sex: 'F',
  diagnosisGroup: 'burn scar',
  affected: ['right-leg', 'left-arm'],
  language: 'es',
  reason: '',
};

const errorsOf = (change: Partial<TypedPatient>) => {
  const read = readPatient({ ...TYPED, ...change }, TODAY);
  return read.kind === 'refused' ? read.errors : {};
};

describe('a new patient’s form', () => {
  it('is read without the spaces around it', () => {
    expect(readPatient(TYPED, TODAY)).toEqual({
      kind: 'read',
      details: {
        reference: 'HL-0147',
        name: 'Mira Oduya',
        born: '2016-02-29',
        sex: 'F',
        diagnosisGroup: 'burn scar',
        affected: [
          { limb: 'leg', side: 'right' },
          { limb: 'arm', side: 'left' },
        ],
        language: 'es',
        note: null,
      },
    });
  });

  it('a hand alone may be affected, a box of a part is read as one and shown ticked again; nothing ticked is refused', () => {
    const read = readPatient({ ...TYPED, affected: ['left hand', 'head'] }, TODAY);
    if (read.kind !== 'read') throw new Error('refused');
    const affectedParts = [
      { part: 'hand', side: 'left' },
      { part: 'head', side: 'middle' },
    ];
    expect(read.details).toMatchObject({ affected: [], affectedParts });
    expect(affectedInWords(read.details)).toBe('left hand and head');
    expect(typedFrom(read.details).affected).toEqual(['left hand', 'head']);
    expect(errorsOf({ affected: [] })).toEqual({ affected: 'Tick each affected limb or part.' });
    expect(Object.keys(errorsOf({ affected: ['middle hand'] }))).toEqual(['affected']);
  });

  it('has no name when the box is empty or blank', () => {
    expect(readPatient({ ...TYPED, name: '   ' }, TODAY)).toMatchObject({ details: { name: null } });
  });

  it('takes a person born today, and refuses one born tomorrow', () => {
    expect(errorsOf({ born: '2026-11-25' })).toEqual({});
    expect(errorsOf({ born: '2026-11-26' })).toEqual({ born: 'This day has not come yet.' });
  });

  /** 1900 was no leap year (Gregorian calendar), nor was 2023. */
  it.each(['2023-02-29', '1900-02-29', '29/02/2016', '2016-2-29', '2016-02-30'])(
    'refuses the birthday %s, which is not in the calendar as written',
    (born) => {
      expect(Object.keys(errorsOf({ born }))).toEqual(['born']);
    },
  );

  it('names each field that is missing, and only those', () => {
    const empty = { reference: '', name: '', born: '', sex: '', diagnosisGroup: '', affected: [], language: '' };
    expect(Object.keys(errorsOf(empty)).sort()).toEqual(['affected', 'born', 'diagnosisGroup', 'language', 'reference', 'sex']);
  });

  it.each<[keyof TypedPatient, Partial<TypedPatient>]>([
    ['sex', { sex: 'female' }],
    ['diagnosisGroup', { diagnosisGroup: 'anything else' }],
    ['affected', { affected: ['tail'] }],
    ['affected', { affected: ['constructor'] }],
    ['language', { language: 'toString' }],
    ['reference', { reference: 'x'.repeat(41) }],
    ['reference', { reference: 'HL\u0000147' }],
    ['name', { name: 'x'.repeat(121) }],
  ])('refuses a %s that the form does not offer', (field, change) => {
    expect(Object.keys(errorsOf(change))).toEqual([field]);
  });

  it('keeps every box word for word', () => {
    const form = new FormData();
    for (const [name, value] of Object.entries(TYPED)) for (const one of [value].flat()) form.append(name, one);
    expect(typedPatient(form)).toEqual(TYPED);
  });
});
