import fs from 'node:fs';
import path from 'node:path';
import { type BodyTable, readBodyTable } from '@/lib/body-model/body-table';
import { type SurveyPerson, surveyPeople, VARIABLES } from './survey';

/**
 * The text of a body table from people: mean, SD (n − 1) and correlations of the natural logarithms, to four decimals.
 *
 * What `lib/body-model/body-table` reads. Source of the people: ANSUR II 2012, see `tests/reference/body/README.md`.
 */
export function bodyTableText(people: readonly SurveyPerson[]): string {
  const logs = VARIABLES.map((variable) => people.map(({ of }) => Math.log(of.get(variable) as number)));
  const means = logs.map((values) => values.reduce((sum, value) => sum + value, 0) / values.length);
  const apart = logs.map((values, index) => values.map((value) => value - (means[index] as number)));
  const product = (one: number, other: number) =>
    (apart[one] as number[]).reduce((sum, value, person) => sum + value * (apart[other]?.[person] as number), 0) / (people.length - 1);
  const sds = apart.map((_, index) => Math.sqrt(product(index, index)));
  return VARIABLES.map((variable, row) => {
    const correlations = VARIABLES.slice(0, row).map(
      (_, column) => product(row, column) / ((sds[row] as number) * (sds[column] as number)),
    );
    return [variable, ...[means[row] as number, sds[row] as number, ...correlations].map((value) => value.toFixed(4))].join(' ');
  }).join('\n');
}

/** A table learnt from people. */
export function learnt(people: readonly SurveyPerson[]): BodyTable {
  return readBodyTable(bodyTableText(people));
}

/** The module `lib/body-model/grown-bodies`, made anew from the whole extract. */
function grownBodiesModule(): string {
  const [men, women] = [surveyPeople('M'), surveyPeople('F')];
  return `/**
 * Grown bodies: ${men.length} men and ${women.length} women of ANSUR II 2012 (three of four rows of the survey; US soldiers of 17 to 58 years).
 *
 * Text for \`readBodyTable\`. Made by \`RECORD_TO=lib/body-model npm run campaign -- learn-body-tables\` (tests/body-model/learn-body-table.ts); not edited by hand.
 * Source: Gordon et al. 2014, NATICK/TR-15/007, approved for public release, distribution unlimited.
 */
export const GROWN_BODIES = {
  M: \`
${bodyTableText(men)}
\`,
  F: \`
${bodyTableText(women)}
\`,
} as const;
`;
}

/** Writes that module into a folder: `lib/body-model` where it belongs, `test-results` to look at. */
export function learnBodyTables(folder = 'test-results'): { readonly written: string } {
  const file = path.join(path.resolve(import.meta.dirname, '../..', folder), 'grown-bodies.ts');
  fs.mkdirSync(path.dirname(file), { recursive: true });
  fs.writeFileSync(file, grownBodiesModule());
  return { written: file };
}
