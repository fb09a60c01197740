import type { CalendarDay } from '../../units/calendar-day';
import type { ClinicTexts } from './clinic-texts';
import type { FamilyAsks, FamilyChoice, FamilyDrawing, FamilyFacts, FamilyOutline, FamilyPage, PictureEnd } from './family-content';
import { familyWords } from './family-languages';
import type { StepKind } from './family-words';
import { helpBoxes } from './help-boxes';

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
  if (facts.part) measured.push(words.partMeasured(person, facts.part.places));
  if (facts.part?.longer)
    measured.push(words.partLonger(person, words.length(facts.part.longer.byMm, facts.unit), words.month(facts.part.longer.since)));
  if (facts.phase) measured.push(words.phase(facts.phase.kind));
  if (facts.phase?.comparedWith) measured.push(words.comparedWith(words.month(facts.phase.comparedWith)));
  measured.push(words.change(person, choice.change));
  const right = [words.right(person, choice.right), ...(choice.why ? [words.because(person, choice.why)] : [])];
  const wear = [
    choice.hours === null ? words.noHours : words.hours(choice.hours),
    textOr(texts?.care, textOr(choice.calls?.care, words.noCare)),
  ];
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
    ...planOf(choice, facts),
    asks: asksOf(choice, facts),
    footer: words.footer(person, checked.by, words.day(checked.day, facts.unit, true)),
  };
}

function planOf({ language }: FamilyChoice, { plan = [], unit }: FamilyFacts): Pick<FamilyPage, 'plan'> {
  if (plan.length === 0) return {};
  const words = familyWords(language).plan;
  const items = plan.map(({ firstDay, lastDay, from, to, hours }) => ({
    when: words.days(firstDay, lastDay),
    what: words.hours(hours, words.day(from, unit), to && words.day(to, unit)),
  }));
  return { plan: { head: words.head, items } };
}

function asksOf({ person: { limb, side }, hours }: FamilyChoice, { day, unit, plan = [], marked = null }: FamilyFacts): FamilyAsks {
  return { limb, side, pageOf: day, unit, hours, plan: plan.map(({ from, to, hours }) => ({ from, to, hours })), outline: marked };
}

/** The hours a day that a page asks for on a day: of its build-up plan while it runs, else those the therapist wrote; null where neither says. */
export function hoursAskedOn({ hours, plan }: Pick<FamilyAsks, 'hours' | 'plan'>, day: CalendarDay): number | null {
  return plan.find(({ from, to }) => from <= day && (to === null || day <= to))?.hours ?? hours;
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
