import type { LandmarkId } from '../../ladder/limb';
import type { GrowthWatchPart } from '../../record/garment';
import type { CalendarDay } from '../../units/calendar-day';
import type { LengthUnit } from '../../units/length';
import type { ClinicTexts } from './clinic-texts';
import { familyWords } from './family-languages';
import type { Change, Person, StepKind, StillRight, WhyNot } from './family-words';
import { helpBoxes } from './help-boxes';
import type { FamilyStep } from './step-rows';

/** What a therapist confirmed or typed for the page. Nothing else of meaning reaches it. */
export type FamilyChoice = {
  readonly language: string;
  readonly person: Person;
  readonly change: Change;
  readonly right: StillRight;
  readonly why: WhyNot | null;
  readonly hours: number | null;
  readonly steps: readonly FamilyStep[];
  readonly note: string;
  /** What a stranger is told in an emergency; empty leaves a line to write on. */
  readonly wornFor?: string;
  readonly allergies?: string;
};

/** What is printed for an emergency beside the clinic's texts: none of it may be blank. */
export type FamilyHelp = {
  readonly emergency: string;
  readonly minutes: number;
  /** What the garments in use press, and how they open. */
  readonly watch: readonly GrowthWatchPart[];
  readonly closures: readonly string[];
};

/** What was measured, as data: no rule and no verdict is in it. */
export type FamilyFacts = {
  readonly day: CalendarDay;
  readonly unit: LengthUnit;
  readonly places: number;
  /** Height gained since an earlier visit, for a child measured at both; mm. */
  readonly taller: { readonly byMm: number; readonly since: CalendarDay } | null;
  /** Absent where nothing is known of it: the number that every telephone takes, and the default minutes. */
  readonly help?: FamilyHelp;
  /** Outlines of the limb then and now, heights and girths in mm; `earlier` only where there is such a ladder. */
  readonly outlines: { readonly earlier: FamilyOutline | null; readonly now: FamilyOutline; readonly ends: PictureEnds | null } | null;
};

/** An end of the picture: the landmark nearest to it, and how far above that it lies, mm; 0 where it is the landmark. */
export type PictureEnd = { readonly landmark: LandmarkId; readonly aboveMm: number };
export type PictureEnds = { readonly from: PictureEnd; readonly to: PictureEnd };

export type FamilyOutline = {
  readonly day: CalendarDay;
  readonly heightsMm: readonly number[];
  readonly girthsMm: readonly number[];
  readonly lengthMm: number;
};

/** A drawn outline with its words. */
export type FamilyDrawing = FamilyOutline & { readonly label: string; readonly lengthWords: string };

/** Signs with what they ask for; `urgent` is an ambulance. */
export type HelpBox = {
  readonly head: string;
  readonly lead: string;
  readonly signs: readonly string[];
  readonly line: string | null;
  readonly urgent: boolean;
};

/** The page as it is frozen: every sentence resolved. */
export type FamilyPage = {
  readonly language: string;
  readonly direction: 'ltr' | 'rtl';
  readonly version: number;
  readonly title: string;
  readonly dateLine: string;
  readonly sections: readonly { readonly head: string; readonly sentences: readonly string[] }[];
  readonly steps: {
    readonly head: string;
    readonly items: readonly { readonly when: string; readonly what: string }[];
    readonly none: string;
  };
  readonly wait: { readonly head: string; readonly text: string };
  readonly call: {
    readonly head: string;
    readonly lead: string;
    readonly signs: readonly string[];
    readonly phone: string;
    readonly lines: readonly string[];
    /** Ambulance, same day, next working day; pages from before these were printed have none. */
    readonly also?: readonly HelpBox[];
    readonly night?: string;
    /** For the first side of large print. */
    readonly line?: string;
  };
  readonly picture: { readonly side: Person['side']; readonly caption: string; readonly drawings: readonly FamilyDrawing[] } | null;
  readonly footer: string;
};

/** Smallest gain in height that is worth telling, mm: two readings of one height differ by less. Common practice. */
const LEAST_TALLER_MM = 5;

/**
 * The family page from what a therapist confirmed, the measured data and the clinic's own texts.
 *
 * Shape: choice, facts, texts of the clinic in that language (or none), who checks it and on which day; a page without a gap: what is
 * missing is said in a sentence. No percentile, volume, pressure, diagnosis or rule can reach it: it takes none of them.
 * Source: plain-language guides; engine prompts are not an input.
 */
export function familyPage(
  choice: FamilyChoice,
  facts: FamilyFacts,
  texts: ClinicTexts | undefined,
  clinic: string,
  checked: { readonly by: string; readonly day: CalendarDay },
): FamilyPage {
  const words = familyWords(choice.language);
  const { person } = choice;
  const { heads } = words;
  const whenInWords = (day: CalendarDay | null, kind: StepKind, { day: today, unit }: FamilyFacts): string => {
    if (day === null || day === today) return words.today;
    const named = words.day(day, unit, day.slice(0, 4) !== today.slice(0, 4));
    return kind === 'order' ? words.by(named) : named;
  };
  const measured = [words.measured(person, facts.places)];
  if (facts.taller && facts.taller.byMm >= LEAST_TALLER_MM)
    measured.push(words.taller(person, words.length(facts.taller.byMm, facts.unit), words.month(facts.taller.since)));
  measured.push(words.change(person, choice.change));
  const right = [words.right(person, choice.right), ...(choice.why ? [words.because(person, choice.why)] : [])];
  const wear = [choice.hours === null ? words.noHours : words.hours(choice.hours), textOr(texts?.care, words.noCare)];
  const sections = [
    { head: heads.measured, sentences: measured },
    { head: heads.right, sentences: right },
    { head: heads.wear, sentences: wear },
    ...(choice.note.trim() ? [{ head: heads.note, sentences: [choice.note.trim()] }] : []),
  ];
  const items = choice.steps.map(({ day, kind, words: own }) => ({
    when: whenInWords(day, kind, facts),
    what: kind === 'other' ? own.trim() : words.step(kind),
  }));
  return {
    language: words.language,
    direction: words.direction,
    version: words.version,
    title: words.title(person),
    dateLine: `${words.day(facts.day, facts.unit, true)} · ${clinic}`,
    sections,
    steps: { head: heads.next, items, none: words.noStep },
    wait: { head: heads.wait, text: textOr(texts?.wait, words.defaults.wait) },
    call: helpBoxes(choice, facts.help, texts, words),
    picture: pictureOf(choice, facts),
    footer: words.footer(person, checked.by, words.day(checked.day, facts.unit, true)),
  };
}

function pictureOf({ language, person }: FamilyChoice, { outlines, unit }: FamilyFacts): FamilyPage['picture'] {
  if (!outlines) return null;
  const words = familyWords(language);
  const drawn = (outline: FamilyOutline, label: string): FamilyDrawing => ({
    ...outline,
    label,
    lengthWords: words.length(outline.lengthMm, unit),
  });
  const earlier = outlines.earlier ? [drawn(outlines.earlier, words.month(outlines.earlier.day))] : [];
  const endInWords = ({ landmark, aboveMm }: PictureEnd): string =>
    words.end(landmark, aboveMm === 0 ? null : { by: words.length(Math.abs(aboveMm), unit), above: aboveMm > 0 });
  const ends = outlines.ends && { from: endInWords(outlines.ends.from), to: endInWords(outlines.ends.to) };
  return { side: person.side, caption: words.picture(person, ends), drawings: [...earlier, drawn(outlines.now, words.today)] };
}

function textOr(text: string | undefined, otherwise: string): string {
  return text?.trim() || otherwise;
}
