import { fleschKincaid } from 'flesch-kincaid';
import { smogFormula } from 'smog-formula';
import { syllable } from 'syllable';
import { describe, expect, it } from 'vitest';
import { PHASE_KINDS } from '@/lib/course/phases';
import { buildUp } from '@/lib/garments/build-up';
import type { FamilyChoice, FamilyFacts } from '@/lib/summary/family/family-content';
import { familyWords } from '@/lib/summary/family/family-languages';
import { familyPage } from '@/lib/summary/family/family-page';
import { CHANGES, REASONS, RIGHTS, STEPS } from '@/lib/summary/family/family-words';
import { mayBeApproved } from '@/lib/summary/family/help-boxes';
import { calendarDay } from '@/lib/units/calendar-day';
import { FAMILY_TEXTS } from './family-texts';
import { germanSyllables } from './german-syllables';
import { englishFormulas, germanFormulas, spanishFormulas } from './readability-formulas';
import { sentencesOf } from './sentences-of';
import { spanishSyllables } from './spanish-syllables';

const day = calendarDay('2026-11-25');
const TEXTS = FAMILY_TEXTS;
const TEXTOS = { ...TEXTS, phoneHours: 'De lunes a viernes, de 8 a 5.', night: 'De noche y el fin de semana, llame al 555-0199.' };
const TEXTE = { ...TEXTS, phoneHours: 'Montag bis Freitag, 8 bis 17 Uhr.', night: 'In der Nacht rufen Sie 555-0199 an.' };
const TEXTS_IN: Readonly<Record<string, typeof TEXTS>> = { en: TEXTS, es: TEXTOS, de: TEXTE };
/** What garments press: nothing that is watched, a hand, the chest, face and neck and chest. */
const WATCHED = [[], ['hand'], ['chest'], ['face', 'neck', 'chest']] as const;

/** Every phase of a course, with a baseline and without, and none. */
const PHASES = [null, calendarDay('2026-04-27')].flatMap((comparedWith) => [
  {},
  ...PHASE_KINDS.map((kind) => ({ phase: { kind, comparedWith } })),
]);

/** The build-up of a piece first worn on the day. */
const PLAN = buildUp({ firstWorn: day, wearIn: { firstHours: 2, fullHours: 23, days: 14, callOn: day, called: null, callNote: null } }, 4);

/** Every page the form can make: each change, answer, reason, step, hour and reader, for a leg and an arm. */
function* variants(language: string) {
  let n = 0;
  for (const reader of ['family', 'patient'] as const)
    for (const limb of ['leg', 'arm'] as const)
      for (const change of CHANGES)
        for (const right of RIGHTS)
          for (const why of [null, ...REASONS])
            for (const kind of [null, ...STEPS.filter((one) => one !== 'other')])
              for (const hours of [null, 12, 24]) {
                const person = { reader, limb, side: 'right' as const, name: 'Mira' };
                const steps = kind === null ? [] : [{ day: calendarDay('2026-12-11'), kind, words: '' }];
                const choice: FamilyChoice = { language, person, change, right, why, hours, steps, note: '' };
                const taller = change === 'first' ? null : { byMm: 70, since: calendarDay('2025-11-25') };
                const watch = WATCHED[(n++ % WATCHED.length) as 0] ?? [];
                const help = { emergency: '911', minutes: 15, watch, closures: ['zip', 'hook-and-loop', 'hook-and-eye', 'placket'] };
                const part = [
                  undefined,
                  { places: 1, longer: null },
                  { places: 12, longer: { byMm: 9, since: calendarDay('2025-11-25') } },
                ][n % 3];
                const facts: FamilyFacts = {
                  ...{ day, unit: 'in', places: 16, taller, outlines: null, help, ...PHASES[n % PHASES.length] },
                  ...(part && { part }),
                  ...(n % 5 === 0 && { plan: PLAN }),
                };
                yield familyPage(choice, facts, TEXTS_IN[language], 'Harbour Lane', { by: 'R. Adeyemi', day });
              }
}

describe('the formulas, on published examples', () => {
  it('Flesch–Kincaid grade: 13 words with 24 syllables in one sentence are 11.26; 100 words, 10 sentences, 150 syllables 6.01', () => {
    // Kincaid et al. 1975, Navy report 8-75; the platypus sentence is the usual worked example.
    expect(fleschKincaid({ sentence: 1, word: 13, syllable: 24 })).toBeCloseTo(11.26, 2);
    expect(fleschKincaid({ sentence: 10, word: 100, syllable: 150 })).toBeCloseTo(6.01, 2);
    const words = 'The Australian platypus is seemingly a hybrid of a mammal and reptilian creature'.split(' ');
    // The counter takes Austra-li-an and repti-li-an for four each: it errs towards harder, never towards easier.
    expect(words.map(syllable).reduce((sum, count) => sum + count, 0)).toBeGreaterThanOrEqual(24);
  });

  it('SMOG: 30 polysyllables in 30 sentences are 8.84, 100 are 13.56, none 3.13', () => {
    // McLaughlin 1969, Journal of Reading 12:639–646: 1.0430 √(polysyllables · 30 / sentences) + 3.1291.
    for (const [polysillabicWord, grade] of [
      [30, 8.84],
      [100, 13.56],
      [0, 3.13],
    ] as const)
      expect(smogFormula({ sentence: 30, polysillabicWord })).toBeCloseTo(grade, 2);
  });

  it('Spanish syllables by the rules of the academy: diphthongs are one, hiatus is two', () => {
    const known = {
      cinta: 2,
      pierna: 2,
      día: 2,
      cuello: 2,
      aéreo: 4,
      queremos: 3,
      guerra: 2,
      ciudad: 2,
      piel: 1,
      creció: 2,
      leer: 2,
      muy: 1,
      país: 2,
      izquierda: 3,
      ampolla: 3,
    };
    for (const [word, syllables] of Object.entries(known)) expect([word, spanishSyllables(word)]).toEqual([word, syllables]);
  });
});

describe('syllables of German', () => {
  it('a diphthong, ie and a doubled vowel are one; other vowels side by side are two', () => {
    // Hyphenation as in the Duden, Die deutsche Rechtschreibung (from memory): Knö-chel, Schwel-lung, Ge-wicht, The-ra-pie …
    const known = {
      Bein: 1,
      Arm: 1,
      Knöchel: 2,
      Schwellung: 2,
      Kleidung: 2,
      gemessen: 3,
      Therapie: 3,
      Ellbogen: 3,
      bequem: 2,
      Haar: 1,
      Knie: 1,
    };
    for (const [word, syllables] of Object.entries(known)) expect([word, germanSyllables(word)]).toEqual([word, syllables]);
  });
});

describe('what a family is told of its reply', () => {
  /** All four sentences of a language; a formula of one short sentence alone would be noise. */
  const states = (language: string) => {
    const { state } = familyWords(language).reply;
    return [state.came, state.open, state.seen('2.'), state.rung('2.')];
  };
  it('is as easy as the page, in each language', () => {
    const [english, spanish, german] = [englishFormulas(states('en')), spanishFormulas(states('es')), germanFormulas(states('de'))];
    expect(english.grade).toBeLessThanOrEqual(6);
    expect(english.smog).toBeLessThanOrEqual(8);
    expect(spanish.szigriszt).toBeGreaterThanOrEqual(65);
    expect(spanish.huerta).toBeGreaterThanOrEqual(70);
    expect(german.wiener).toBeLessThanOrEqual(6);
    expect(german.amstad).toBeGreaterThanOrEqual(70);
  });
});

describe('every variant of the family page', () => {
  it('in English reads at grade 6 or lower by Flesch–Kincaid and 8 or lower by SMOG', () => {
    let worst = { grade: 0, smog: 0 };
    let pages = 0;
    for (const page of variants('en')) {
      const { grade, smog } = englishFormulas(sentencesOf(page));
      worst = { grade: Math.max(worst.grade, grade), smog: Math.max(worst.smog, smog) };
      pages++;
    }
    console.info(`English: ${pages} pages, Flesch–Kincaid at most ${worst.grade.toFixed(1)}, SMOG at most ${worst.smog.toFixed(1)}`);
    expect(worst.grade).toBeLessThanOrEqual(6);
    expect(worst.smog).toBeLessThanOrEqual(8);
  });

  it('in Spanish is easy or better: Szigriszt-Pazos above 65 on the INFLESZ scale, Fernández-Huerta above 70', () => {
    // Szigriszt Pazos 1993: 206.835 − 62.3 S/W − W/F. Barrio-Cantalejo et al. 2008, An Sist Sanit Navar 31:135–152: 65–80 "bastante fácil".
    // Fernández Huerta 1959: 206.84 − 60 S/W − 1.02 W/F; 70–80 "bastante fácil".
    let worst = { szigriszt: 200, huerta: 200 };
    for (const page of variants('es')) {
      const { szigriszt, huerta } = spanishFormulas(sentencesOf(page));
      worst = { szigriszt: Math.min(worst.szigriszt, szigriszt), huerta: Math.min(worst.huerta, huerta) };
    }
    console.info(`Spanish: Szigriszt-Pazos at least ${worst.szigriszt.toFixed(0)}, Fernández-Huerta at least ${worst.huerta.toFixed(0)}`);
    expect(worst.szigriszt).toBeGreaterThanOrEqual(65);
    expect(worst.huerta).toBeGreaterThanOrEqual(70);
  });

  it('in German is as easy as for the sixth grade: Wiener Sachtextformel at most 6, Amstad at least 70', () => {
    // Bamberger & Vanecek 1984, Lesen – Verstehen – Lernen – Schreiben, first formula: 0.1935 MS + 0.1672 SL + 0.1297 IW − 0.0327 ES − 0.875,
    // MS % of words of three and more syllables, SL words a sentence, IW % of words longer than six letters, ES % of one syllable; a grade from 4 to 15.
    // Amstad 1978, Wie verständlich sind unsere Zeitungen?: 180 − W/F − 58.5 S/W; 70–80 easy.
    let worst = { wiener: 0, amstad: 200 };
    for (const page of variants('de')) {
      const { wiener, amstad } = germanFormulas(sentencesOf(page));
      worst = { wiener: Math.max(worst.wiener, wiener), amstad: Math.min(worst.amstad, amstad) };
    }
    console.info(`German: Wiener Sachtextformel at most ${worst.wiener.toFixed(1)}, Amstad at least ${worst.amstad.toFixed(0)}`);
    expect(worst.wiener).toBeLessThanOrEqual(6);
    expect(worst.amstad).toBeGreaterThanOrEqual(70);
  });

  it.each(['en', 'es', 'de'])('in %s leaves no placeholder, no gap and no word that does not belong there', (language) => {
    for (const page of variants(language)) {
      const text = JSON.stringify(page);
      expect(text).not.toMatch(/undefined|NaN|\{\{|\$\{|%s|""/);
      expect(sentencesOf(page).join(' ')).not.toMatch(
        /mmHg|percentil|centil|\bml\b|%|diagnos|class|clase|thrombo|trombo|lymph|linf|fail|non-compl|should have/i,
      );
    }
  });

  it('without the clinic’s own texts says what to ask for, and never leaves the box empty', () => {
    const person = { reader: 'family' as const, limb: 'leg' as const, side: 'left' as const, name: 'Joss' };
    const choice = { language: 'en', person, change: 'first', right: 'not-sure', why: null, hours: null, steps: [], note: '' } as const;
    const page = familyPage(choice, { day, unit: 'cm', places: 1, taller: null, outlines: null }, undefined, 'Harbour Lane', {
      by: 'RA',
      day,
    });
    expect(page.call.lines).toEqual([
      'Ask us for our phone number before you go home.',
      'Ask us whom to call at night.',
      'In the first 24 hours, also take it off and call us if it rubs.',
    ]);
    expect(page.call.also?.map(({ head }) => head)).toEqual([
      'Take it off and call 112',
      'Call us the same day',
      'Call us the next work day',
    ]);
    expect(page.sections[2]?.sentences).toEqual(['Wear it as we showed you.', 'Ask us how to wash it.']);
    expect(mayBeApproved(page)).toBe(false);
    expect(page.steps).toMatchObject({ items: [], none: 'We have not set a day yet. Ask us for one before you go home.' });
    expect(page.title).toBe('Joss’ leg and garment');
    expect(page.dateLine).toBe('Wednesday, 25 November 2026 · Harbour Lane');
  });
});
