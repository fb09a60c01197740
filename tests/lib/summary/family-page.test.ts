import { describe, expect, it } from 'vitest';
import { demoClinic } from '@/app/_commands/demonstration/demo-clinic';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { raisePrompts } from '@/lib/prompts/decide-prompts';
import { outsideInWords, outsideWornOn } from '@/lib/prompts/outside-in-words';
import type { NamedMeasure, Piece } from '@/lib/record/patient-record';
import { type ClinicTexts, callsAsked } from '@/lib/summary/family/clinic-texts';
import { emergencyNumber, emergencyOf, emergencyWhereEmpty } from '@/lib/summary/family/emergency-number';
import type { FamilyChoice, FamilyHelp, FamilyPage } from '@/lib/summary/family/family-content';
import { familyFacts } from '@/lib/summary/family/family-facts';
import { familyHelp } from '@/lib/summary/family/family-help';
import { familyPage } from '@/lib/summary/family/family-page';
import { CHANGES } from '@/lib/summary/family/family-words';
import { mayBeApproved } from '@/lib/summary/family/help-boxes';
import { readFamilyForm } from '@/lib/summary/family/read-family-form';
import { verdictSentence } from '@/lib/summary/verdict-sentence';
import { calendarDay } from '@/lib/units/calendar-day';
import { demoRecord } from '@/tests/demo-record';
import { ladderOf, recordOf, visitOf } from '../made-up-ladder';
import { legOf, pieceOf } from '../prompts/made-up-piece';
import { FAMILY_TEXTS } from './family-texts';
import { sentencesOf } from './sentences-of';

const TODAY = calendarDay('2026-11-25');
const CHECKED = { by: 'R. Adeyemi', day: TODAY };
const LEFT = { limb: 'leg' as const, side: 'left' as const };
const FORM = { limb: 'left leg', language: 'en', reader: 'family', name: 'Mira', change: 'same', right: 'yes' };

describe('the family page', () => {
  it('carries nothing of any verdict or prompt: every story of the demonstration, every visit, both languages', () => {
    let walked = 0;
    for (const patient of demoClinic(TODAY).patients) {
      const record = demoRecord(patient);
      const analysis = analysePatient(record, DEFAULT_POLICY, TODAY);
      const prompts = raisePrompts(analysis).flatMap((prompt) => [prompt.title, ...prompt.facts]);
      for (const limb of analysis.limbs)
        for (const visit of limb.visits) {
          const { limb: kind, side } = limb.series;
          const facts = familyFacts(analysis, visit.at.visit.day, { limb: kind, side });
          if (!facts) throw new Error('a taped limb has facts');
          const judged = visit.sinceBaseline;
          const verdict = judged && !isNoAnswer(judged) ? [verdictSentence(judged, record), judged.verdict] : [];
          const pages = ['en', 'es'].map((language): FamilyPage => {
            const person = { reader: 'family' as const, name: 'Mira', limb: kind, side };
            const choice = {
              language,
              person,
              change: 'not-sure',
              right: 'not-sure',
              why: null,
              hours: null,
              steps: [],
              note: '',
            } as const;
            return familyPage(choice, facts, undefined, 'Harbour Lane', CHECKED);
          });
          for (const page of pages) {
            const text = sentencesOf(page).join(' ');
            for (const said of [...prompts, ...verdict]) expect(text).not.toContain(said);
            // Whatever the engine found, the sentences on the limb and the garment are those that were chosen.
            walked++;
          }
          const taller = facts.taller && facts.taller.byMm >= 5 ? 1 : 0;
          const part = Number(facts.part !== undefined) + Number(Boolean(facts.part?.longer));
          expect(pages[0]?.sections[0]?.sentences).toHaveLength(2 + taller + part);
          expect(pages[0]?.sections[0]?.sentences.at(-1)).toBe('The tape did not give a clear answer this time.');
        }
    }
    expect(walked).toBeGreaterThan(100);
  });

  it('says what was chosen, and only that, for each thing that can be said of the limb', () => {
    const facts = { day: TODAY, unit: 'in' as const, places: 16, taller: null, outlines: null };
    const pages = CHANGES.map((change) => {
      const choice = {
        language: 'en',
        person: { reader: 'family', name: 'Mira', ...LEFT },
        change,
        right: 'yes',
        why: null,
        hours: 23,
        steps: [],
        note: '',
      } as const;
      return familyPage(choice, facts, undefined, 'Harbour Lane', CHECKED).sections[0]?.sentences.at(-1);
    });
    expect(new Set(pages).size).toBe(CHANGES.length);
  });

  it('names the year of a step only when it is another year than the visit’s', () => {
    const facts = { day: TODAY, unit: 'in' as const, places: 16, taller: null, outlines: null };
    const steps = (['2026-11-25', '2026-12-11', '2027-01-11'] as const).map((day) => ({
      day: calendarDay(day),
      kind: 'order' as const,
      words: '',
    }));
    const choice = {
      language: 'en',
      person: { reader: 'family', name: 'Mira', ...LEFT },
      change: 'same',
      right: 'yes',
      why: null,
      hours: 23,
      steps,
      note: '',
    } as const;
    expect(familyPage(choice, facts, undefined, 'Harbour Lane', CHECKED).steps.items.map((item) => item.when)).toEqual([
      'Today',
      'By Friday, December 11',
      'By Monday, January 11, 2027',
    ]);
  });

  it('tells a gain in height only of a child, only from half a centimetre, against the visit nearest a year before', () => {
    const visits = [
      visitOf('2025-11-20', [legOf()], { height: '140 cm' }),
      visitOf('2026-06-20', [legOf()], { height: '144 cm' }),
      visitOf('2026-11-20', [legOf()], { height: '147 cm' }),
    ];
    const child = analysePatient(recordOf(visits, { born: calendarDay('2016-01-01') }), DEFAULT_POLICY, TODAY);
    expect(familyFacts(child, calendarDay('2026-11-20'), LEFT)).toMatchObject({ places: 15, taller: { byMm: 70, since: '2025-11-20' } });
    const grown = analysePatient(recordOf(visits), DEFAULT_POLICY, TODAY);
    expect(familyFacts(grown, calendarDay('2026-11-20'), LEFT)?.taller).toBeNull();
    expect(familyFacts(child, calendarDay('2026-11-20'), { limb: 'arm', side: 'left' })).toBeUndefined();
  });
});

describe('the hand or foot on the family page', () => {
  const foot = (mm: number, measure = 'foot-length') =>
    ({ part: 'foot', side: 'left', measure, length: { text: String(mm / 10), unit: 'cm', nm: mm * 1e6 } }) as unknown as NamedMeasure;
  const child = (before: number, now: number, born = '2018-05-01') =>
    analysePatient(
      recordOf(
        [
          visitOf('2025-11-20', [legOf()], { measures: [foot(before)] }),
          visitOf('2026-11-20', [legOf()], { measures: [foot(now), foot(180, 'ball-girth')] }),
        ],
        { born: calendarDay(born) },
      ),
      DEFAULT_POLICY,
      TODAY,
    );
  const said = (analysis: ReturnType<typeof child>, language: string): readonly string[] => {
    const facts = familyFacts(analysis, calendarDay('2026-11-20'), LEFT);
    const read = readFamilyForm({ ...FORM, language }, [LEFT], calendarDay('2026-11-20'));
    if (!facts || read.kind !== 'read') throw new Error('no facts');
    return familyPage(read.choice, facts, undefined, 'Harbour Lane', CHECKED).sections[0]?.sentences ?? [];
  };

  it('is said in plain words, and that it grew only beyond tape error and of a child', () => {
    // Foot length, reading SD 2 mm (clinic default): two readings differ by less than 1.96 × √2 × 2 = 5.5 mm.
    expect(said(child(190, 200), 'en')).toContain('We measured Mira’s left foot too, in 2 places.');
    expect(said(child(190, 200), 'en')).toContain('The foot is 1 cm longer than in November 2025.');
    expect(said(child(190, 200), 'es')).toContain('También medimos el pie izquierdo de Mira en 2 sitios.');
    expect(said(child(190, 200), 'es')).toContain('El pie mide 1 cm más que en noviembre de 2025.');
    expect(said(child(190, 195), 'en').join(' ')).not.toContain('longer');
    expect(said(child(240, 250, '1980-05-01'), 'en').join(' ')).not.toContain('longer');
    expect(said(child(190, 200), 'en').join(' ')).not.toMatch(/hand/);
  });
});

describe('the picture of the family page', () => {
  const adult = (ladders: Parameters<typeof visitOf>[1]) =>
    analysePatient(recordOf([visitOf('2026-11-20', ladders)]), DEFAULT_POLICY, TODAY);
  const caption = (ladders: Parameters<typeof visitOf>[1], language: string, reader: 'family' | 'patient' = 'family') => {
    const facts = familyFacts(adult(ladders), calendarDay('2026-11-20'), LEFT);
    if (!facts) throw new Error('the left leg was taped');
    const choice = {
      language,
      person: { reader, name: 'Mira', ...LEFT },
      change: 'same',
      right: 'yes',
      why: null,
      hours: 23,
      steps: [],
      note: '',
    } as const;
    return familyPage(choice, facts, undefined, 'Harbour Lane', CHECKED).picture?.caption;
  };

  // A calf taped at 0, 8, 16, 24 and 32 cm above the ankle crease, its knee at 28 cm: it ends 4 cm above the knee.
  it('says where it begins and ends, by the nearest landmark in plain words', () => {
    const calf = ladderOf({ girths: [22, 28, 36, 36, 37].map((girth, rung) => [rung * 8, girth] as const), landmarks: { knee: 28 } });
    expect(caption([calf], 'en')).toBe('Mira’s left leg, from the ankle up to 4 cm above the knee');
    expect(caption([calf], 'es')).toBe('La pierna izquierda de Mira, desde el tobillo hasta 4 cm más arriba de la rodilla');
  });

  it('names the landmark alone where the ladder ends within 2 cm of it, and says so where none is known', () => {
    const short = { girths: [22, 25, 32, 36].map((girth, index) => [index * 9, girth] as const), landmarks: { knee: 28 } };
    expect(caption([ladderOf(short)], 'en', 'patient')).toBe('Your left leg, from the ankle up to the knee');
    expect(caption([ladderOf({ ...short, zero: 'the old scar', landmarks: {} })], 'en')).toBe(
      'Mira’s left leg, just the part that we measured',
    );
  });
});

describe('the emergency part of the family page', () => {
  const page = (help: Partial<FamilyHelp>, texts: ClinicTexts | null = FAMILY_TEXTS, more: Partial<FamilyChoice> = {}) => {
    const person = { reader: 'family', name: 'Mira', ...LEFT } as const;
    const choice = { language: 'en', person, change: 'same', right: 'yes', why: null, hours: 23, steps: [], note: '', ...more } as const;
    const known = { emergency: '112', minutes: 15, watch: [], closures: [], ...help };
    return familyPage(
      choice,
      { day: TODAY, unit: 'in', places: 16, taller: null, outlines: null, help: known },
      texts ?? undefined,
      'Harbour Lane',
      CHECKED,
    );
  };
  it('has the washing words of the clinic, else those typed for this page, else says to ask', () => {
    const wear = (care: string, typed?: string) =>
      page({}, { ...FAMILY_TEXTS, care }, typed === undefined ? {} : { calls: { care: typed } }).sections[2]?.sentences[1];
    expect(wear('Wash it by hand.', 'Machine.')).toBe('Wash it by hand.');
    expect(wear(' ', 'Cool machine wash.')).toBe('Cool machine wash.');
    expect([wear('', ''), wear('')]).toEqual(['Ask us how to wash it.', 'Ask us how to wash it.']);
  });

  it('says for when the words for the night are, once, in each language', () => {
    const lines = (night: string, language: string) => page({}, { ...FAMILY_TEXTS, night }, { language }).call.lines.join(' ');
    expect(lines('Call 555-0199.', 'en')).toContain('At night and at weekends: Call 555-0199.');
    expect(lines('At night call 555-0199.', 'en')).not.toContain('weekends:');
    expect(lines('555-0199 anrufen.', 'de')).toContain('In der Nacht und am Wochenende: 555-0199 anrufen.');
    expect(lines('Llame al 555-0199.', 'es')).toContain('De noche y los fines de semana: Llame al 555-0199.');
    expect(page({}, { ...FAMILY_TEXTS, night: 'Call 555-0199.' }).call.line).toContain('At night and at weekends: Call 555-0199.');
  });

  const signs = (one: FamilyPage) => [...one.call.signs, ...(one.call.also ?? []).flatMap((box) => box.signs)].join('; ');

  it('is whole also where the clinic typed nothing: off now, ambulance, same day, next working day, and a number', () => {
    const none = page({ emergency: emergencyNumber('Europe/London') }, null);
    const all = signs(none);
    for (const said of ['numb', 'blue or white', 'cold', 'pain', 'swells', 'swallow or feed', 'blister']) expect(all).toContain(said);
    for (const said of [
      'in 15 minutes',
      'gaps in the breath',
      'lips are blue',
      'chest hurts',
      'faints',
      'very sleepy',
      'blotches',
      'in the heat',
    ])
      expect(all).toContain(said);
    for (const said of ['all at once big, hot or sore', 'red skin spreads', 'skin is open', 'weight goes up fast', 'loose, torn', 'itch'])
      expect(all).toContain(said);
    expect(none.call.also?.[0]?.head).toBe('Take it off and call 112');
    expect(none.call.also?.[0]?.line).toBe('Tell them: Mira wears a pressure garment for ________. Allergies: not written down here.');
    expect(mayBeApproved(none)).toBe(false);
  });

  it('may be approved with a phone number and words for the night, and with neither alone', () => {
    expect(mayBeApproved(page({}))).toBe(true);
    expect(mayBeApproved(page({}, { ...FAMILY_TEXTS, night: ' ' }))).toBe(false);
    expect(mayBeApproved(page({}, { ...FAMILY_TEXTS, phone: '' }))).toBe(false);
  });

  it('says once, under the emergency number, what to do when breathing is hard: in every language', () => {
    const words = { en: /hard to breathe/g, es: /cuesta (mucho )?respirar/g, de: /Atmen/g };
    for (const [language, breath] of Object.entries(words)) {
      const own = page({}, FAMILY_TEXTS, { language });
      expect(signs(own).match(breath), language).toHaveLength(1);
      expect(own.call.also?.[0]?.signs.join(' '), language).toMatch(breath);
    }
  });

  it('takes the number of the clinic’s details before that of its time zone, and the clinic’s words of a language before both', () => {
    expect(emergencyOf({ emergency: '144', timeZone: 'Europe/Zurich' })).toBe('144');
    expect(emergencyOf({ timeZone: 'America/Chicago' })).toBe('911');
    // The form of the texts says where the number comes from.
    expect(emergencyWhereEmpty({ emergency: '999', timeZone: 'Europe/London' })).toBe('Empty: 999, as the clinic’s details have it.');
    expect(emergencyWhereEmpty({ emergency: '', timeZone: 'America/Chicago' })).toBe(
      'Empty: 911, proposed by the clinic’s time zone: its details have none.',
    );
    expect(page({ emergency: '144' }, null).call.also?.[0]?.head).toBe('Take it off and call 144');
    expect(page({ emergency: '144' }).call.also?.[0]?.head).toBe('Take it off and call 911');
  });

  it('takes number and night from the form of the page only where the clinic’s texts leave them open', () => {
    const calls = { phone: '555-0100', night: 'At night call 555-0200.' };
    const none = page({}, null, { calls });
    expect([none.call.phone, none.call.night]).toEqual(['555-0100', 'At night call 555-0200.']);
    expect(mayBeApproved(none)).toBe(true);
    expect(page({}, FAMILY_TEXTS, { calls }).call.phone).toBe(FAMILY_TEXTS.phone);
    expect(callsAsked({ ...FAMILY_TEXTS, night: ' ' })).toEqual({ phone: false, night: true, care: true });
  });

  it('adds breathing and heat by what the garment presses, and how it opens', () => {
    expect(signs(page({ watch: ['face'] }))).toMatch(/stops in sleep.*the face is red/);
    expect(signs(page({ watch: ['chest'] }))).toMatch(/feeds get smaller.*the face is red/);
    expect(signs(page({ watch: ['foot'] }))).not.toMatch(/stops in sleep|face is red/);
    expect(page({ closures: ['zip'] }).call.lines).toContain('To open it, pull down the zip.');
  });

  it('says of whom and which allergies, and the clinic’s own minutes and emergency number', () => {
    const own = page({ minutes: 10 }, FAMILY_TEXTS, { wornFor: 'burns', allergies: 'latex' });
    expect(own.call.also?.[0]).toMatchObject({
      head: 'Take it off and call 911',
      line: 'Tell them: Mira wears a pressure garment for burns. Allergies: latex.',
    });
    expect(signs(own)).toContain('in 10 minutes');
    expect(['America/Chicago', 'Europe/Madrid', 'Australia/Perth', 'Pacific/Auckland', 'Asia/Tokyo'].map(emergencyNumber)).toEqual([
      '911',
      '112',
      '000',
      '111',
      '112',
    ]);
  });

  it('reads off the garments in use what they press and how they open', () => {
    const options = [{ kind: 'closure', choice: 'zip', place: 'side', width: null }] as const;
    const piece = (form: string, side: 'left' | 'right') =>
      pieceOf('2026-10-01', { side, garment: { form, use: 'day', pressure: null, options } });
    const gone = { ...piece('glove', 'left'), retired: calendarDay('2026-11-01') };
    const record = recordOf([visitOf('2026-11-20', [legOf()])], {
      pieces: [piece('bodysuit-leg', 'left'), piece('vest-sleeve-hood', 'right'), gone],
    });
    const help = familyHelp(analysePatient(record, DEFAULT_POLICY, TODAY), LEFT, emergencyOf({ timeZone: 'Europe/London' }));
    expect(help).toEqual({ emergency: '112', minutes: 15, watch: ['chest', 'foot', 'face', 'neck'], closures: ['zip'] });
  });

  it('says measured, never taped, and hopes for no body', () => {
    for (const language of ['en', 'es'])
      for (const change of CHANGES) {
        const text = sentencesOf(page({}, FAMILY_TEXTS, { language, change })).join(' ');
        expect(text).not.toMatch(/\btap(e|ed|ing) (again|the|one|it|your)|\btaped\b|hope/i);
      }
  });
});

describe('the form of the family page', () => {
  it('chooses nothing for a person: what is said of limb and garment must be chosen', () => {
    const read = readFamilyForm({ ...FORM, change: '', right: '' }, [LEFT], TODAY);
    expect(read).toEqual({
      kind: 'refused',
      errors: { change: 'Choose what you say of the limb.', right: 'Choose what you say of the garment.' },
    });
  });

  it('refuses a limb that was not measured, hours beyond a day, a step without its day, own words that are none', () => {
    const errors = (rest: Record<string, string>) => {
      const read = readFamilyForm({ ...FORM, ...rest }, [LEFT], TODAY);
      return read.kind === 'refused' ? Object.keys(read.errors) : [];
    };
    expect(errors({})).toEqual([]);
    expect(errors({ limb: 'right arm' })).toEqual(['limb']);
    expect(errors({ hours: '25' })).toEqual(['hours']);
    expect(errors({ name: '' })).toEqual(['name']);
    expect(errors({ step0Kind: 'visit' })).toEqual(['step0Day']);
    expect(errors({ step1Kind: 'visit', step1Day: '2026-11-24' })).toEqual(['step1Day']);
    expect(errors({ step1Kind: 'other', step1Day: '2026-12-01' })).toEqual(['step1Words']);
  });

  const PLANNED = { step0Kind: 'visit', step0Day: '2027-01-06' };
  const ordering = (rest: Record<string, string>) => readFamilyForm({ ...FORM, ...PLANNED, ...rest }, [LEFT], TODAY);

  it('keeps the planned visit with its own day when a new garment is ordered, and puts both in order of days', () => {
    const read = ordering({ step1Kind: 'order', step1Day: '2026-12-01' });
    expect(read.kind === 'read' && read.choice.steps.map(({ day, kind }) => [day, kind])).toEqual([
      ['2026-12-01', 'order'],
      ['2027-01-06', 'visit'],
    ]);
  });

  it('never takes the planned day for an order: the order asks for its own, and the visit row takes nothing but a visit', () => {
    expect(ordering({ step1Kind: 'order' })).toMatchObject({ kind: 'refused', errors: { step1Day: 'Type the day.' } });
    expect(ordering({ step0Kind: 'order' })).toMatchObject({ kind: 'refused', errors: { step0Kind: expect.any(String) } });
    const none = ordering({ step0Kind: '', step1Kind: 'order', step1Day: '2026-12-01' });
    expect(none.kind === 'read' && none.choice.steps.map(({ day }) => day)).toEqual(['2026-12-01']);
  });

  it('refuses a new garment that arrives, or is tried on, before it is ordered', () => {
    const late = { step1Kind: 'order', step1Day: '2026-12-20' };
    expect(ordering({ ...late, step2Kind: 'delivery', step2Day: '2026-12-11' })).toMatchObject({
      errors: { step2Day: expect.any(String) },
    });
    expect(ordering({ ...late, step0Kind: 'try-on', step0Day: '2026-12-11' })).toMatchObject({ errors: { step0Day: expect.any(String) } });
    expect(ordering({ ...late, step2Kind: 'delivery', step2Day: '2026-12-28' })).toMatchObject({ kind: 'read' });
  });
});

describe('the form of a family page against the record', () => {
  const limbs = [LEFT];
  const outside = ['Piece 2, left leg: 3 of 23 places tighter than its band (up to 1.31 as cut; band 0.75–1.25).'];
  const against = { outside: () => outside, asks: () => ({ phone: false, night: false, care: true }) };

  it('does not tell that a garment fits which the record has outside its band, until somebody says that they saw it fit', () => {
    for (const right of ['yes', 'soon']) {
      const read = readFamilyForm({ ...FORM, right }, limbs, TODAY, against);
      expect(read).toMatchObject({ kind: 'refused', errors: { right: expect.stringContaining('3 of 23 places tighter than its band') } });
      expect(readFamilyForm({ ...FORM, right, 'fitsAnyway-left-leg': 'yes' }, limbs, TODAY, against).kind).toBe('read');
    }
    for (const right of ['no', 'not-sure']) expect(readFamilyForm({ ...FORM, right }, limbs, TODAY, against).kind).toBe('read');
    expect(readFamilyForm(FORM, limbs, TODAY).kind).toBe('read');
  });

  it('takes what was seen of one limb for that limb alone', () => {
    const both = [LEFT, { limb: 'leg', side: 'right' }] as const;
    const read = (limb: string, ticked: string) => readFamilyForm({ ...FORM, limb, [ticked]: 'yes' }, both, TODAY, against);
    for (const ticked of ['fitsAnyway-left-leg', 'fitsAnyway', 'fitsAnyway-right-arm'])
      expect(read('right leg', ticked)).toMatchObject({
        kind: 'refused',
        errors: { right: expect.stringMatching(/saw it fit on the right leg\.$/) },
      });
    expect(read('right leg', 'fitsAnyway-right-leg').kind).toBe('read');
    expect(read('left leg', 'fitsAnyway-right-leg').kind).toBe('refused');
  });

  it('asks whom to call by day and by night where the clinic’s texts leave it open, and keeps it', () => {
    const open = { outside: () => [], asks: () => ({ phone: true, night: true, care: true }) };
    const none = readFamilyForm(FORM, limbs, TODAY, open);
    expect(none.kind === 'refused' && Object.keys(none.errors).sort()).toEqual(['night', 'phone']);
    const typed = { ...FORM, phone: ' 555-0100 ', night: 'Call 555-0200.' };
    const read = readFamilyForm(typed, limbs, TODAY, open);
    expect(read.kind === 'read' && read.choice.calls).toEqual({ phone: '555-0100', night: 'Call 555-0200.', care: '' });
    const long = readFamilyForm({ ...typed, night: 'x'.repeat(201) }, limbs, TODAY, open);
    expect(long).toMatchObject({ kind: 'refused', errors: { night: 'This is too long for one side of paper.' } });
  });

  it('names each piece outside its band by limb, with how many places and how far; within it, none', () => {
    const piece = pieceOf('2026-10-01', { firstWorn: calendarDay('2026-11-19') });
    const record = (factor: number) =>
      recordOf([visitOf('2026-10-01', [legOf()]), visitOf('2026-11-20', [legOf(factor)])], { pieces: [piece] });
    const said = (factor: number, side: 'left' | 'right' = 'left') =>
      outsideWornOn(analysePatient(record(factor), DEFAULT_POLICY, calendarDay('2026-11-20')), { limb: 'leg', side });
    expect(said(1)).toEqual([]);
    // A leg 12 % larger under a piece cut 15 % smaller: strain 0.12 / 0.85 + 0.176 against 0.176, about 1.8 of the fitting before wear.
    const [sentence] = said(1.12);
    expect(sentence).toMatch(/^Piece 1, left leg: 7 of 7 places tighter than its band \(up to 1\.[5-9]\d as cut; band 0\.75–1\.25\)\.$/);
    expect(said(1.12, 'right')).toEqual([]);
  });

  it('does not hold a piece that nobody wears against the family page, nor one that nobody has against the report', () => {
    const today = calendarDay('2026-11-20');
    const visits = [visitOf('2026-10-01', [legOf()]), visitOf('2026-11-20', [legOf(1.12)])];
    const bandOf = (rest: Partial<Piece>) => {
      const analysis = analysePatient(recordOf(visits, { pieces: [pieceOf('2026-10-01', rest)] }), DEFAULT_POLICY, today);
      return [outsideWornOn(analysis, { limb: 'leg', side: 'left' }).length, outsideInWords(analysis).length];
    };
    const [worn, back] = [calendarDay('2026-11-19'), calendarDay('2026-11-18')];
    const refused = { day: back, zones: [], outcome: 'remake', reason: 'girth wrong', words: null, taught: false } as never;
    expect(bandOf({ firstWorn: worn })).toEqual([1, 1]);
    expect(bandOf({ orderId: 'o', delivered: worn })).toEqual([0, 1]);
    expect(bandOf({ orderId: 'o' })).toEqual([0, 0]);
    expect(bandOf({ orderId: 'o', firstWorn: back, delivered: null, fit: refused })).toEqual([0, 0]);
    expect(bandOf({ orderId: 'o', kept: [{ from: back, as: 'held back' }] })).toEqual([0, 0]);
  });
});
