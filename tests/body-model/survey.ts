import { readFileSync } from 'node:fs';
import path from 'node:path';

/** Columns of the survey by the variable they stand for. Definitions: catalogue of `lib/parts`, whose wording follows the survey's. */
const COLUMNS = {
  height: 'stature',
  weight: 'weight_hg',
  'hand-girth': 'handcircumference',
  'hand-breadth': 'handbreadth',
  'hand-length': 'handlength',
  'palm-length': 'palmlength',
  'wrist-girth': 'wristcircumference',
  'foot-length': 'footlength',
  'ball-girth': 'balloffootcircumference',
  'ball-length': 'balloffootlength',
  'foot-breadth': 'footbreadthhorizontal',
  'heel-ankle-girth': 'heelanklecircumference',
  'ankle-girth': 'anklecircumference',
  'head-girth': 'headcircumference',
  'chin-arc': 'bitragionchinarc',
  'under-jaw-arc': 'bitragionsubmandibulararc',
  'face-length': 'mentonsellionlength',
  'neck-girth': 'neckcircumference',
  'neck-base-girth': 'neckcircumferencebase',
  'shoulder-girth': 'shouldercircumference',
  'chest-girth': 'chestcircumference',
  'waist-girth-navel': 'waistcircumference',
  'waist-height-navel': 'waistheightomphalion',
  'hip-girth': 'buttockcircumference',
  'crotch-height': 'crotchheight',
  'crotch-length': 'crotchlengthomphalion',
  'crotch-length-back': 'crotchlengthposterioromphalion',
  'trunk-loop': 'verticaltrunkcircumferenceusa',
  'waist-back-length': 'waistbacklength',
  'sitting-height': 'sittingheight',
} as const;

/** Names of the variables, height and weight first. */
export const VARIABLES = Object.keys(COLUMNS);

/** A person of the survey: mm by variable, kg for the weight. */
export type SurveyPerson = { readonly sex: 'M' | 'F'; readonly of: ReadonlyMap<string, number> };

/** Everybody of the survey extract with all columns measured. */
export function surveyPeople(sex: 'M' | 'F'): SurveyPerson[] {
  return rowsOf(`ansur2_2012_body_${sex === 'M' ? 'male' : 'female'}.csv`).flatMap((row) => {
    const figures = Object.entries(COLUMNS).map(([variable, column]): [string, number] => [
      variable,
      Number(row[column]) / (variable === 'weight' ? 10 : 1),
    ]);
    return figures.every(([, value]) => value > 0) ? [{ sex, of: new Map(figures) }] : [];
  });
}

/** Rows of a file of `tests/reference/body`, cells by column. */
export function rowsOf(file: string): Record<string, string>[] {
  const [header = '', ...lines] = readFileSync(path.resolve(import.meta.dirname, '../reference/body', file), 'utf8')
    .trim()
    .split('\n');
  const columns = header.split(',');
  return lines.map((line) => Object.fromEntries(line.split(',').map((cell, index) => [columns[index] ?? '', cell])));
}
