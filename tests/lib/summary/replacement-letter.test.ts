import { describe, expect, it } from 'vitest';
import { demoClinic } from '@/app/_commands/demonstration/demo-clinic';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { raisePrompts } from '@/lib/prompts/decide-prompts';
import type { CoverageRule } from '@/lib/record/coverage';
import type { NamedMeasure, Piece, Visit } from '@/lib/record/patient-record';
import { letterDraft } from '@/lib/summary/letter/letter-draft';
import { letterEvidence } from '@/lib/summary/letter/letter-evidence';
import { type LetterFacts, letterFacts } from '@/lib/summary/letter/letter-facts';
import { letterGaps } from '@/lib/summary/letter/letter-gaps';
import { isExcepted, LETTER_REASONS, type LetterReason } from '@/lib/summary/letter/letter-reasons';
import { readLetterForm, type TypedLetter } from '@/lib/summary/letter/read-letter-form';
import { replacementLetter } from '@/lib/summary/letter/replacement-letter';
import { verdictSentence } from '@/lib/summary/verdict-sentence';
import { calendarDay } from '@/lib/units/calendar-day';
import { demoRecord } from '@/tests/demo-record';
import { cm, ladderOf, recordOf, visitOf } from '../made-up-ladder';
import { pieceOf } from '../prompts/made-up-piece';

const TODAY = calendarDay('2026-11-25');
const OLD = '2026-05-04';
const NEW = '2026-11-02';

const PIECE: Piece = pieceOf(OLD, { firstWorn: calendarDay('2026-05-20') });

const FORM: TypedLetter = {
  payer: 'County plan',
  diagnosis: 'Lymphoedema of the left leg.',
  prescriber: 'Dr P. Lindqvist',
  asked: 'One thigh-high garment.',
  custom1: 'on',
  replaces: 'Piece 1.',
  reason: 'change in condition',
  effect: 'The limb would swell again.',
  wear: 'Worn 14 hours a day.',
  signer: 'R. Adeyemi',
  credentials: 'Occupational therapist',
};

/** Facts of an adult woman's left leg, the piece cut from the first of the visits. */
function factsOf(visits: readonly Visit[], rest: Partial<LetterFacts> = {}): LetterFacts {
  const analysis = analysePatient(recordOf(visits, { pieces: [PIECE] }), DEFAULT_POLICY, TODAY);
  return { ...letterFacts({ analysis, name: 'Mira Oduya', piece: PIECE, orders: [], coverage: null }), ...rest };
}

function taped(day: string, girths: readonly (readonly [number, number])[], rest: Parameters<typeof visitOf>[2] = {}): Visit {
  return visitOf(day, [ladderOf({ girths })], { height: '165', weight: '70', ...rest });
}

const even = (girthCm: number): [number, number][] => [0, 4, 8, 12, 16].map((place) => [place, girthCm]);

function letterFrom(facts: LetterFacts, typed: TypedLetter = FORM): ReturnType<typeof replacementLetter> {
  const read = readLetterForm(typed, TODAY);
  if (read.kind !== 'read') throw new Error(JSON.stringify(read.errors));
  return replacementLetter(facts, read.choice, 'Harbour Lane');
}

const sentencesOf = (facts: LetterFacts, reason: LetterReason | null = null): string => letterEvidence(facts, reason).sentences.join(' ');

describe('the girths of a letter', () => {
  // Worked by hand from the formula in engine sections 3 and 4. One shared landmark (the zero), an adult: places stay, variance 5² + 5² = 50 mm².
  // At 6 cm: old girth half way between 22 and 24 cm is 23 cm. Change +2 cm, +8.7 %.
  // Error: 9 × (1 + ¼ + ¼) + 2 × (0.004 × 240)² + 0.5² × (50 + (0.002 × 60)²) = 13.5 + 1.8432 + 12.5036 = 27.8468; 1.96 × 5.277 = 10.34 mm.
  const old = taped(OLD, [
    [0, 20],
    [4, 22],
    [8, 24],
    [12, 26],
  ]);
  const now = taped(NEW, [
    [0, 21],
    [6, 25],
    [12, 26],
    [16, 28],
  ]);
  const { evidence } = factsOf([old, now]);

  it('stand at the same places, an old girth read between two rungs', () => {
    expect(evidence?.girths.map((row) => row.beforeMm)).toEqual([200, expect.closeTo(230, 6), 260, null]);
    expect(evidence?.girths.map((row) => row.nowMm)).toEqual([210, 250, 260, 280]);
  });

  it('carry the error of their change', () => {
    expect(evidence?.girths[1]?.errorMm).toBeCloseTo(10.343, 2);
    // At 0: 9 × 2 + 2 × (0.004 × 205)² + 0.25 × 50 = 31.8448; 1.96 × 5.6431 = 11.06 mm.
    expect(evidence?.girths[0]?.errorMm).toBeCloseTo(11.061, 2);
    expect(evidence?.girths[3]?.errorMm).toBeNull();
  });

  it('show the old girth on record where the old measurements do not reach the new place, and make no change of it', () => {
    const [table] = letterEvidence(factsOf([old, now]), null).tables;
    expect(table?.rows[3]).toEqual(['16 cm', '26 cm, as recorded at 12 cm', '28 cm', '–', '–', '–']);
    const far = taped(NEW, [...[0, 4, 8, 12].map((place): [number, number] => [place, 26]), [24, 30]]);
    expect(letterEvidence(factsOf([old, far]), null).tables[0]?.rows.at(-1)?.[1]).toBe('not measured');
  });

  it('are a table with unit, days and measurers, without an empty cell', () => {
    const [table] = letterEvidence(factsOf([old, now]), null).tables;
    expect(table?.caption).toContain('old 4 May 2026 by RA, new 2 Nov 2026 by RA');
    expect(table?.rows[1]).toEqual(['6 cm', '23.0 cm', '25 cm', '+2.0', '+8.7\u202f%', '1.0']);
    expect(table?.caption).toMatch(/^Circumference, cm/);
    expect(table?.rows.flat().every((cell) => cell.trim() !== '')).toBe(true);
  });
});

describe('the change of volume', () => {
  // A cylinder of five girths 30 cm, 16 cm long, worked by hand. Reading: 9 × 14 / (16 C²), C = 300 then 306 mm: 8.75e-5 + 8.41e-5;
  // tension 8 × 0.004² = 1.28e-4; placement (0.002 × 160)² / 160² = 4e-6. Sum 3.036e-4, 1.96 SD = 3.4 %. Girth +2 %: volume +4.0 %.
  it('exceeds measurement error where it is larger than the smallest real change', () => {
    const text = sentencesOf(factsOf([taped(OLD, even(30)), taped(NEW, even(30.6))]));
    expect(text).toContain(
      'The volume changed by +4.0\u202f%. This exceeds measurement error: a change of more than 3.4\u202f% is larger than the error of the two measurements.',
    );
  });

  it('does not exceed it where it is smaller', () => {
    const text = sentencesOf(factsOf([taped(OLD, even(30)), taped(NEW, even(30.3))]));
    expect(text).toContain('The volume changed by +2.0\u202f%. This does not exceed measurement error');
    expect(text).not.toContain('This exceeds');
  });
});

describe('the volume against the other limb', () => {
  // Cylinders of 33 and 30 cm over 16 cm, by hand: 33² / 30² − 1 = 21.0 %. Reading 9 × 0.875 / C²: 7.23e-5 + 8.75e-5 = 1.598e-4; no placement
  // part, both ends being equal; 1.96 × 1.21 × 0.01264 = 3.0 %. Volume of 30 cm: 30² × 16 / 4π = 1146 ml.
  const right = ladderOf({ girths: even(30), side: 'right' });
  const both = visitOf(NEW, [ladderOf({ girths: even(33) }), right], { height: '165', weight: '70' });

  it('is given over the same heights with its error', () => {
    expect(sentencesOf(factsOf([taped(OLD, even(30)), both]))).toContain(
      'On 2 Nov 2026 the left leg held 1,387\u202fml and the right leg 1,146\u202fml over the same heights, 0.0–16.0 cm above the ankle crease: +21.0\u202f% against the other, give or take 3.0\u202f%.',
    );
  });

  it('is left out where the other limb was not measured, and the therapist is told', () => {
    const facts = factsOf([taped(OLD, even(30)), taped(NEW, even(33))]);
    expect(sentencesOf(facts)).not.toContain('other limb');
    expect(letterGaps(facts)).toContain('a healthy other limb over the same heights on 2 Nov 2026');
  });
});

describe('what is missing', () => {
  const bare = { height: undefined, weight: undefined, measurer: null } as Parameters<typeof visitOf>[2];
  const facts = factsOf([visitOf(OLD, [ladderOf({ girths: even(30) })], { measurer: null }), taped(NEW, even(30), bare)]);

  it('is told to the therapist, each by its name and day', () => {
    expect(letterGaps(facts)).toEqual([
      'the form of the garment',
      'its class',
      'closures, linings and other options',
      'the day of delivery',
      'hours of wear',
      'what the first fit found',
      'a payer’s rule, so that no count of coverage is given',
      'a healthy other limb over the same heights on 2 Nov 2026',
      'weight on 4 May 2026',
      'height on 4 May 2026',
      'who measured on 4 May 2026',
      'weight on 2 Nov 2026',
      'height on 2 Nov 2026',
      'who measured on 2 Nov 2026',
    ]);
    expect(letterGaps(factsOf([taped(OLD, even(30))])).join()).toContain('measurements of the left leg after those of 4 May 2026');
    expect(letterGaps(factsOf([taped(NEW, even(30))])).join()).toContain('measurements of the left leg of 4 May 2026');
  });

  it('is never said to the payer, whatever the reason', () => {
    for (const reason of LETTER_REASONS)
      for (const visits of [[taped(OLD, even(30))], [taped(NEW, even(30))], [taped(OLD, even(30)), taped(NEW, even(31))]]) {
        const bareFacts = factsOf(visits);
        const typed = {
          ...FORM,
          ...letterDraft(bareFacts),
          wear: 'Worn daily.',
          reason,
          incidentDay: '2026-11-20',
          reasonWords: 'Torn in a fall.',
        };
        for (const one of [bareFacts, facts]) {
          const text = JSON.stringify(letterFrom(one, typed));
          expect(text).not.toMatch(
            /not (on record|recorded|given|described|taped|yet)|No (payer|number|weight|height|alteration|class|closures|hours|first)|Nothing is/,
          );
        }
      }
  });

  it('leaves a section out that has no word in it', () => {
    expect(letterFrom(facts).sections.map(({ key }) => key)).not.toContain('coverage');
    expect(letterFrom(facts).sections.map(({ key }) => key)).not.toContain('signature');
  });
});

describe('the words of a payer’s trade', () => {
  const facts = factsOf([taped(OLD, even(30)), taped(NEW, even(31))]);
  const all = (one: LetterFacts, typed: TypedLetter = FORM) =>
    JSON.stringify(letterFrom(one, { ...typed, ...letterDraft(one), wear: 'Worn daily.' }));

  it('are circumference and made to measurements of, never ladder, taped or cut', () => {
    expect(all(facts)).toMatch(/Made to measurements of 2 Nov 2026.*It was made to measurements of 4 May 2026.*Circumference, cm/);
    expect(all(facts)).not.toMatch(/\bladder|\btaped|\bCut from|\bcut from|in turn\b|Girth/);
  });

  it('call a garment a compression garment only where it has a compression class', () => {
    const garment = { form: 'arm-sleeve', use: 'day' as const, options: [] };
    const klass = { scheme: 'clinic', name: 'II', lowMmHg: 23, highMmHg: 32 };
    const of = (pressure: typeof klass | null) =>
      letterFrom({ ...facts, piece: { ...facts.piece, garment: { ...garment, pressure } } }).title;
    expect([of(klass), of(null)]).toEqual(['Request for a replacement compression garment', 'Request for a replacement pressure garment']);
  });

  it('say nothing of measurement error where the reason is another than a changed condition', () => {
    for (const reason of LETTER_REASONS) {
      const text = all(facts, { ...FORM, reason, incidentDay: '2026-11-20', reasonWords: 'Torn in a fall.' });
      const error = /measurement error|95 % range|Error, ±/;
      if (reason === 'change in condition' || reason === 'outgrown') expect(text).toMatch(error);
      else expect(text, reason).not.toMatch(error);
    }
  });
});

describe('a letter of a piece that was outgrown', () => {
  // Worked by hand: 40 cm then and 42 cm now from crease to fold, 2 / 40 = 5.0 %.
  const leg = (day: string, fold: number, top: number) =>
    visitOf(day, [ladderOf({ girths: even(30).concat([[top, 34]]), landmarks: { 'gluteal-fold': fold } })], {
      height: '120',
      weight: '24',
    });
  const facts = factsOf([leg(OLD, 40, 36), leg(NEW, 42, 40)]);

  it('says how long the limb was and is between the landmarks marked both times, and the stretch of its volumes', () => {
    expect(sentencesOf(facts, 'outgrown')).toContain(
      'The limb from the ankle crease to the gluteal fold measured 40.0 cm at the old measurements and 42.0 cm at the new ones, +5.0\u202f%.',
    );
    expect(sentencesOf(facts, 'lost')).not.toContain('The limb from');
    expect(
      letterEvidence(facts, 'outgrown')
        .tables.map(({ caption }) => caption)
        .join(' '),
    ).toMatch(/measured at both visits, 1\.0–\d+\.\d\u202fcm up from the ankle crease on the new tape/);
  });

  it('explains a dash where the old measurements do not reach, and has no such line where they do', () => {
    const caption = (visits: Visit[]) => letterEvidence(factsOf(visits), 'outgrown').tables[0]?.caption ?? '';
    expect(caption([leg(OLD, 40, 24), leg(NEW, 42, 40)])).toContain('Where a dash stands nothing is compared');
    expect(caption([taped(OLD, even(30)), taped(NEW, even(31))])).not.toContain('dash');
  });

  it('stands under a rule’s exception for outgrown pieces, which a changed condition does not', () => {
    const rule: CoverageRule = { id: 'r', payer: 'County plan', lines: [], exceptions: ['outgrown'], source: 'Leaflet of 2026.' };
    expect(LETTER_REASONS.filter((one) => isExcepted(rule, one))).toEqual(['outgrown']);
  });
});

describe('the letter', () => {
  it('has its twelve sections in order, none of them empty', () => {
    const rule: CoverageRule = { id: 'r', payer: 'County plan', lines: [], exceptions: [], source: 'Leaflet of 2026.' };
    const coverage = { rule, from: calendarDay('2026-01-01'), clocks: [] };
    const facts = factsOf([taped(OLD, even(30)), taped(NEW, even(31))], { coverage });
    const letter = letterFrom(facts, { ...FORM, attachments: 'Two photographs.' });
    expect(letter.sections.map((one) => one.key)).toEqual(
      'who diagnosis prescriber asked custom replaces reason evidence effect wear coverage signature'.split(' '),
    );
    for (const section of letter.sections) {
      expect(section.paragraphs.length, section.key).toBeGreaterThan(0);
      expect(
        section.paragraphs.every((one) => one.trim() !== ''),
        section.key,
      ).toBe(true);
      expect(section.paragraphs.join(' ')).not.toMatch(/undefined|null|NaN/);
    }
  });

  it('names exactly one primary reason', () => {
    for (const reason of LETTER_REASONS) {
      const typed = { ...FORM, reason, incidentDay: '2026-11-20', reasonWords: 'Torn in a fall.' };
      const letter = letterFrom(factsOf([taped(OLD, even(30)), taped(NEW, even(31))]), typed);
      const text = letter.sections.find((one) => one.key === 'reason')?.paragraphs.join(' ') ?? '';
      expect(text.match(/Primary reason: /g)).toHaveLength(1);
      expect(text).toContain(`Primary reason: ${reason}.`);
    }
  });

  it('says whether the rule excepts the reason; stolen counts as lost', () => {
    const rule: CoverageRule = { id: 'r', payer: 'County plan', lines: [], exceptions: ['lost'], source: 'Leaflet of 2026.' };
    const facts = factsOf([taped(OLD, even(30))], { coverage: { rule, from: calendarDay('2026-01-01'), clocks: [] } });
    const stolen = { ...FORM, reason: 'stolen', incidentDay: '2026-11-20', reasonWords: 'Taken with a bag.' };
    expect(
      letterFrom(facts, stolen)
        .sections.find((one) => one.key === 'coverage')
        ?.paragraphs.join(' '),
    ).toContain('exception');
    expect(isExcepted(rule, 'stolen')).toBe(true);
    expect(LETTER_REASONS.filter((one) => isExcepted(rule, one))).toEqual(['lost', 'stolen']);
  });

  it('says that a first fit was checked where only its day is on record, and ends what was typed without a full stop', () => {
    const facts = factsOf([taped(OLD, even(30)), taped(NEW, even(30))]);
    const checked = { ...facts, piece: { ...facts.piece, firstFit: calendarDay('2026-05-20') } };
    expect(letterDraft(checked).wear).toContain('The first fit was checked on 20 May 2026.');
    const letter = letterFrom(facts, { ...FORM, diagnosis: 'Lymphoedema of the left leg' });
    const all = letter.sections.flatMap((section) => section.paragraphs);
    expect(all).toContain('Diagnosis: Lymphoedema of the left leg.');
    for (const sentence of all) expect(sentence).toMatch(/[.!?:]$/);
  });

  it('carries nothing of any verdict or prompt: every piece of the demonstration', () => {
    let walked = 0;
    for (const patient of demoClinic(TODAY).patients) {
      const record = demoRecord(patient);
      const analysis = analysePatient(record, DEFAULT_POLICY, TODAY);
      const judged = analysis.limbs.flatMap((limb) => limb.visits.flatMap((visit) => visit.sinceBaseline ?? []));
      const verdicts = judged.flatMap((one) => (isNoAnswer(one) ? [] : [verdictSentence(one, record)]));
      const prompts = raisePrompts(analysis).flatMap((prompt) => [prompt.title, ...prompt.facts]);
      for (const piece of record.pieces) {
        const facts = letterFacts({ analysis, name: null, piece, orders: [], coverage: null });
        const text = JSON.stringify(letterFrom(facts, { ...FORM, ...letterDraft(facts), wear: 'Worn daily.' }));
        for (const said of [...verdicts, ...prompts]) expect(text).not.toContain(said);
        expect(text).not.toMatch(/undefined|NaN/);
        walked++;
      }
    }
    expect(walked).toBeGreaterThan(20);
  });
});

describe('the form of a letter', () => {
  const errorsOf = (typed: TypedLetter): string[] => {
    const read = readLetterForm(typed, TODAY);
    return read.kind === 'refused' ? Object.keys(read.errors) : [];
  };

  it('is read when everything needed is there', () => expect(errorsOf(FORM)).toEqual([]));

  it.each([
    ['a reason that is none of the seven', { reason: 'too short' }, ['reason']],
    ['no reason', { reason: '' }, ['reason']],
    ['a theft without its day and words', { reason: 'stolen' }, ['incidentDay', 'reasonWords']],
    ['a day to come', { orderDay: '2026-12-01' }, ['orderDay']],
    ['nothing said on why it is custom', { custom1: '' }, ['customWords']],
    ['blanks for the effect and the credentials', { effect: ' ', credentials: ' ' }, ['effect', 'credentials']],
  ])('refuses %s', (_what, change, boxes) => expect(errorsOf({ ...FORM, ...change })).toEqual(boxes));
});

describe('hand, foot and trunk in the letter', () => {
  const foot = (value: number): NamedMeasure => ({ part: 'foot', side: 'left', measure: 'foot-length', length: cm(value) });
  const worn = { ...PIECE, garment: { form: 'knee-high', use: 'day', pressure: null, options: [] } } as const;
  const factsWith = (piece: Piece, ...values: readonly [number, number]) => {
    const visits = [OLD, NEW].map((day, index) => taped(day, even(22 + index), { measures: [foot(values[index] as number)] }));
    const analysis = analysePatient(recordOf(visits, { pieces: [piece] }), DEFAULT_POLICY, TODAY);
    return letterFacts({ analysis, name: 'Mira Oduya', piece, orders: [], coverage: null });
  };

  it('stand old and new with the error of two readings, where the garment covers them', () => {
    // Reading SD of a foot length 2 mm (clinic default): 1.96 × √(2² + 2²) = 5.54 mm.
    const table = letterEvidence(factsWith(worn, 24, 24.8), null).tables.find(({ heads }) => heads[0] === 'Measure');
    expect(table?.rows).toEqual([['Left foot length', '24 cm', '24.8 cm', '+0.8 cm', '+3.3\u202f%', '0.6 cm']]);
    const lost = letterEvidence(factsWith(worn, 24, 24.8), 'lost').tables.find(({ heads }) => heads[0] === 'Measure');
    expect(lost?.rows[0]).toHaveLength(5);
    const sleeve = { ...worn, garment: { ...worn.garment, form: 'calf-sleeve' } };
    expect(letterEvidence(factsWith(sleeve, 24, 24.8), null).tables.some(({ heads }) => heads[0] === 'Measure')).toBe(false);
  });
});
