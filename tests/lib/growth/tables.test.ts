import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { agesOf, figuresOf, type LmsText } from '@/lib/growth/lms-table';
import { CDC_2000_BMI } from '@/lib/growth/tables/cdc-2000-bmi';
import { CDC_2000_LENGTH } from '@/lib/growth/tables/cdc-2000-length';
import { CDC_2000_STATURE } from '@/lib/growth/tables/cdc-2000-stature';
import { CDC_2000_WEIGHT } from '@/lib/growth/tables/cdc-2000-weight';
import { WHO_2006_BMI } from '@/lib/growth/tables/who-2006-bmi';
import { WHO_2006_LENGTH_HEIGHT } from '@/lib/growth/tables/who-2006-length-height';
import { WHO_2006_WEIGHT } from '@/lib/growth/tables/who-2006-weight';
import { WHO_2007_BMI } from '@/lib/growth/tables/who-2007-bmi';
import { WHO_2007_HEIGHT } from '@/lib/growth/tables/who-2007-height';
import { WHO_2007_WEIGHT } from '@/lib/growth/tables/who-2007-weight';

// The hashes are those of the tables as they were compared, cell by cell, with WHO's and CDC's own spreadsheets
// (lib/growth/tables/README.md); they were taken before the modules were written.
const README = readFileSync('lib/growth/tables/README.md', 'utf8');
const TABLES: readonly (readonly [string, LmsText, string])[] = [
  ['who-2006-length-height', WHO_2006_LENGTH_HEIGHT, 'sex,age_days,L,M,S'],
  ['who-2006-weight', WHO_2006_WEIGHT, 'sex,age_days,L,M,S'],
  ['who-2006-bmi', WHO_2006_BMI, 'sex,age_days,L,M,S'],
  ['who-2007-height', WHO_2007_HEIGHT, 'sex,age_months,L,M,S'],
  ['who-2007-weight', WHO_2007_WEIGHT, 'sex,age_months,L,M,S'],
  ['who-2007-bmi', WHO_2007_BMI, 'sex,age_months,L,M,S'],
  ['cdc-2000-length', CDC_2000_LENGTH, 'sex,age_months,L,M,S'],
  ['cdc-2000-stature', CDC_2000_STATURE, 'sex,age_months,L,M,S'],
  ['cdc-2000-weight', CDC_2000_WEIGHT, 'sex,age_months,L,M,S'],
  ['cdc-2000-bmi', CDC_2000_BMI, 'sex,age_months,L,M,S'],
];

function asCsv(text: LmsText, head: string): string {
  const ages = agesOf(text);
  const lines = (['M', 'F'] as const).flatMap((sex) => {
    const [l, m, s] = [text[sex].l, text[sex].m, text[sex].s].map(figuresOf);
    const figure = (column: readonly string[] | undefined, row: number) => (column?.length === 1 ? column[0] : column?.[row]);
    return ages.map((age, row) => [sex, age, figure(l, row), figure(m, row), figure(s, row)].join(','));
  });
  return `${[head, ...lines].join('\n')}\n`;
}

describe('the growth tables kept in the project', () => {
  it.each(TABLES)('%s is, figure for figure, the table that was checked against its publisher', (name, text, head) => {
    const listed = new RegExp(`\`${name}\`.*\`([0-9a-f]{64})\``).exec(README)?.[1];
    expect(createHash('sha256').update(asCsv(text, head)).digest('hex')).toBe(listed);
  });
});
