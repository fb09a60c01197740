import { z } from 'zod';
import { CsvRefusal, type CsvRow } from '../csv-table';
import { fileNameOf } from './data-dictionary';
import type { SetTable } from './set-table';
import type { SetTally } from './set-tally';
import { SUBJECT } from './visit-tables';

/** The tally as a dictionary carries it. */
export const TALLY: z.ZodType<SetTally> = z.object({
  references: z.array(z.string()),
  rows: z.record(z.string(), z.number()),
  sums: z.record(z.string(), z.string()).optional(),
});

/**
 * Holds a set against itself, so that what a spreadsheet program changed on the way is refused and nobody's figures reach another patient.
 *
 * Refuses a subject whose reference or id is not as it was written (`00123` saved as `123`, `3E5` as `300000`), two subjects that fall
 * together, a row whose visit is of another subject, a subject that the subject table does not have, and a table with more or fewer rows.
 * Shape: the rows of every table, and the tally of the dictionary (a set from before had none).
 */
export function checkSet(tables: ReadonlyMap<SetTable, readonly CsvRow[]>, written: SetTally | undefined): void {
  const subjects = tables.get(SUBJECT) ?? [];
  const known = new Set<string>();
  for (const row of subjects) {
    const [id, reference] = [row.cell('subject_id'), row.cell('reference')];
    if (known.has(id)) refuse(SUBJECT, row, 'subject_id', `“${id}” stands twice: two patients would become one. ${AS_WRITTEN}`);
    known.add(id);
    if (written && !written.references.includes(reference))
      refuse(SUBJECT, row, 'reference', `“${reference}” was not written into this set. ${AS_WRITTEN}`);
  }
  for (const [table, rows] of tables) {
    for (const row of rows) {
      const id = row.cell('subject_id');
      if (!known.has(id)) refuse(table, row, 'subject_id', `No row of subject.csv has the id “${id}”. ${AS_WRITTEN}`);
      const visit = row.cell('visit_id');
      if (visit !== '' && !visit.startsWith(`${id}-v`))
        refuse(table, row, 'visit_id', `“${visit}” is not a visit of the subject “${id}”. ${AS_WRITTEN}`);
    }
    const count = written?.rows[table.name];
    if (count !== undefined && count !== rows.length)
      throw new CsvRefusal({
        file: fileNameOf(table),
        line: rows.length + 1,
        column: '',
        reason: `The table has ${rows.length} rows and was written with ${count}.`,
      });
  }
}

const AS_WRITTEN = 'A spreadsheet program may have changed it: keep ids as text, or bring in the set as it was written.';

function refuse(table: SetTable, { line }: CsvRow, column: string, reason: string): never {
  throw new CsvRefusal({ file: fileNameOf(table), line, column, reason });
}
