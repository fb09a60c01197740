import { STUDY_BOUNDS, STUDY_KINDS, type StudyLimb, type StudyPlan } from '../study/study-plan';
import { exactText } from '../units/exact-text';
import { asNanometres, type LengthUnit, type TypedLength } from '../units/length';
import { readLength } from '../units/read-length';

type Typed = Readonly<Record<string, string>>;
type Refused = { readonly kind: 'refused'; readonly errors: Typed };

/** A plan as typed, or a sentence beside each box that stops it. */
export type StudyPlanRead = { readonly kind: 'read'; readonly plan: StudyPlan } | Refused;

/**
 * A plan from its form: codes apart by commas or lines, ticks of limbs and measurers, repeats, the lowest height, the step and how many.
 *
 * Refuses a code that is long, has other than letters, digits and dashes, or comes twice; too few or too many of anything; a height that is no length. The seed is drawn by the caller.
 * Shape: boxes `people`, a tick a limb, `measurer-<id>` a tick, `repeats`, `first`, `step`, `rungs`.
 * Example: codes P1, P2, P3, both legs: six limbs.
 */
export function readStudyPlan(
  typed: Typed,
  people: readonly { readonly id: string; readonly name: string }[],
  unit: LengthUnit,
  seed: number,
): StudyPlanRead {
  const errors: Record<string, string> = {};
  const bounds = STUDY_BOUNDS;
  const codes = (typed.people ?? '')
    .split(/[\s,;]+/)
    .map((code) => code.trim())
    .filter((code) => code !== '');
  const odd = codes.find((code) => code.length > bounds.code || !/^[\p{L}\p{N}-]+$/u.test(code));
  if (odd) errors.people = `“${odd.slice(0, 20)}” is no code: letters, digits and dashes, ${bounds.code} at most, and no name.`;
  else if (new Set(codes.map((code) => code.toLowerCase())).size < codes.length) errors.people = 'A code stands twice.';
  else if (codes.length < bounds.people.least || codes.length > bounds.people.most)
    errors.people = `${bounds.people.least} to ${bounds.people.most} people.`;
  const kinds = Object.entries(STUDY_KINDS).filter(([name]) => typed[name] !== undefined);
  const limbs: StudyLimb[] = codes.flatMap((person) => kinds.map(([, { limb, side }]) => ({ person, limb, side })));
  if (kinds.length === 0) errors.limbs = 'Tick at least one limb.';
  else if (!errors.people && (limbs.length < bounds.limbs.least || limbs.length > bounds.limbs.most))
    errors.limbs = `${limbs.length} limbs come of it; ${bounds.limbs.least} to ${bounds.limbs.most} make a study.`;
  const measurers = people.filter(({ id }) => typed[`measurer-${id}`] !== undefined).map(({ id, name }) => ({ id, name }));
  if (measurers.length < bounds.measurers.least || measurers.length > bounds.measurers.most)
    errors.measurers = `${bounds.measurers.least} to ${bounds.measurers.most} measurers.`;
  const whole = (box: 'repeats' | 'rungs') => {
    const figure = /^\d{1,2}$/.test((typed[box] ?? '').trim()) ? Number(typed[box]) : Number.NaN;
    if (!(figure >= bounds[box].least && figure <= bounds[box].most))
      errors[box] = `A whole number, ${bounds[box].least} to ${bounds[box].most}.`;
    return figure;
  };
  const [repeats, rungs] = [whole('repeats'), whole('rungs')];
  const [first, step] = [lengthIn('first', typed, unit, errors), lengthIn('step', typed, unit, errors)];
  if (Object.keys(errors).length > 0 || !first || !step) return { kind: 'refused', errors };
  const heights = Array.from({ length: rungs }, (_, at): TypedLength => {
    const nm = asNanometres(first.nm + at * step.nm);
    return { text: exactText(nm, unit), unit, nm };
  });
  return { kind: 'read', plan: { limbs, measurers, repeats, unit, heights, seed } };
}

/**
 * The girths of one taping from its boxes `g0`, `g1` …: all of them, each read as on the sheet.
 *
 * Refuses an empty box, what is no length, and a girth that no limb has (under 3 or over 200 cm); it never compares with another taping, so that no question tells of one.
 * Example: five boxes, `24.5` … in cm: five lengths.
 */
export function readStudyRun(
  typed: Typed,
  plan: Pick<StudyPlan, 'unit' | 'heights'>,
): { readonly kind: 'read'; readonly girths: readonly TypedLength[] } | Refused {
  const errors: Record<string, string> = {};
  const girths = plan.heights.flatMap((_, at) => {
    const girth = lengthIn(`g${at}`, typed, plan.unit, errors);
    if (girth && (girth.nm < LEAST_NM || girth.nm > MOST_NM)) errors[`g${at}`] = 'No limb is so large or small. Is it the right unit?';
    return girth ?? [];
  });
  return Object.keys(errors).length > 0 ? { kind: 'refused', errors } : { kind: 'read', girths };
}

const [LEAST_NM, MOST_NM] = [30e6, 2000e6];

function lengthIn(box: string, typed: Typed, unit: LengthUnit, errors: Record<string, string>): TypedLength | undefined {
  if ((typed[box] ?? '').trim() === '') {
    errors[box] = 'Type the figure.';
    return undefined;
  }
  const found = readLength(typed[box] ?? '', unit, true);
  if (found.kind === 'read') return found.value;
  errors[box] = found.reason;
  return undefined;
}
