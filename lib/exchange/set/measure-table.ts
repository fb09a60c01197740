import { z } from 'zod';
import { isTakenOn, PARTS } from '../../parts/measure';
import { measureTaken, withOwn } from '../../parts/own-measure';
import { OWN_MEASURE } from '../../parts/own-measure-schema';
import type { NamedMeasure } from '../../record/patient-record';
import type { CsvRow } from '../csv-table';
import { isMoment } from '../filed-json';
import { filledCell, oneOfCell, refuseCell } from '../read-cells';
import { jsonCell, neededLengthCells, typedLengthCells } from './read-set-cells';
import { lengthCells, type SetTable, SUBJECT_ID, typedColumns, VISIT_ID, visitIdIn } from './set-table';

/** Table `named_measure`: girths, lengths, heights and breadths of hand, foot, trunk and head. */
export const NAMED_MEASURE: SetTable = {
  name: 'named_measure',
  says: 'One row a named measure of hand, foot, trunk or head that was taken at a visit.',
  columns: [
    SUBJECT_ID,
    VISIT_ID,
    { name: 'part', kind: 'word', says: 'hand, foot, trunk, head or residual-limb.' },
    { name: 'side', kind: 'word', says: 'left or right, the patient’s own; middle where there is one for both.' },
    { name: 'measure', kind: 'word', says: 'The measure, by the id of the catalogue or of a clinic’s own.' },
    ...typedColumns('length', 'The figure'),
    ...typedColumns('again', 'The same measured a second time').map((column) => ({ ...column, younger: 'second measuring' })),
    { name: 'note', kind: 'free-text', says: 'Note on the figure.' },
    { name: 'kept_questions', kind: 'json', says: 'Questions about the figure that were answered "keep": which, by whom and when.' },
    {
      name: 'definition',
      kind: 'json',
      says: 'A clinic’s own measure: name, range, error in mm, how it is taken and source.',
      younger: 'own measures',
    },
  ],
  rows: (part) =>
    part.file.visits.flatMap((visit) =>
      (visit.measures ?? []).map((taken) => ({
        subject_id: part.subjectId,
        visit_id: visitIdIn(part, visit.id),
        part: taken.part,
        side: taken.side,
        measure: taken.measure,
        ...lengthCells('length', taken.length),
        ...lengthCells('again', taken.again),
        note: taken.note ?? '',
        kept_questions: taken.kept ? JSON.stringify(taken.kept) : '',
        definition: taken.own ? JSON.stringify(taken.own) : '',
      })),
    ),
};

const KEPT = z.array(z.object({ kind: z.string(), by: z.string(), at: z.string().refine(isMoment, 'is not a moment') }));

/** One row of that table. Refuses a measure that the catalogue does not have, a part it is none of, a side it is not taken on. */
export function readNamedMeasure(row: CsvRow): NamedMeasure {
  const part = oneOfCell(row, 'part', PARTS);
  const side = oneOfCell(row, 'side', ['left', 'right', 'middle'] as const);
  const id = filledCell(row, 'measure');
  const own = jsonCell(row, 'definition', OWN_MEASURE) ?? undefined;
  const measure = measureTaken({ measure: id, own });
  if (!measure || (measure.part !== part && measure.alsoOf !== part))
    return refuseCell(row, 'measure', `“${id}” is not a measure of the ${part}.`);
  if (!isTakenOn(measure, side)) return refuseCell(row, 'side', `The ${id} is not taken on the ${side}.`);
  const note = row.cell('note');
  const kept = jsonCell(row, 'kept_questions', KEPT);
  const again = typedLengthCells(row, 'again');
  return {
    part,
    side,
    measure: id,
    ...withOwn(measure),
    length: neededLengthCells(row, 'length'),
    ...(again ? { again } : {}),
    ...(note === '' ? {} : { note }),
    ...(kept ? { kept } : {}),
  };
}
