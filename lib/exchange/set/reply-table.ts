import { z } from 'zod';
import type { FamilyReply } from '../../observations/family-reply';
import { FAMILY_REPLY } from '../../observations/family-reply-schema';
import type { PatientFile } from '../../record/patient-file';
import type { CsvRow } from '../csv-table';
import { dayCell, refuseCell } from '../read-cells';
import { cellOrNull, dayOrNull, jsonCell, numberCell } from './read-set-cells';
import { type SetTable, SUBJECT_ID } from './set-table';

/** Table `family_reply`: what a family sent back by the link of its page, and what the clinic did about it. */
export const FAMILY_REPLIED: SetTable = {
  name: 'family_reply',
  says: 'One row a reply that a family sent by the link of its page: theirs, as told, no measurement.',
  columns: [
    SUBJECT_ID,
    { name: 'day', kind: 'day', says: 'Day it came, of the clinic’s clock.' },
    { name: 'time', kind: 'word', tellsWhen: true, says: 'Clock time HH:MM.' },
    { name: 'page_of', kind: 'day', says: 'Day of the visit that the page was about.' },
    { name: 'hours', kind: 'decimal', unit: 'h', says: 'Hours worn a day, as told.' },
    { name: 'hours_planned', kind: 'decimal', unit: 'h', says: 'Hours a day that the page asked for on that day.' },
    { name: 'call', kind: 'word', says: 'yes where the family asks to be rung.' },
    { name: 'marks', kind: 'json', says: 'Places with what is said of each: red, sore, slides or other.' },
    { name: 'words', kind: 'free-text', says: 'Their words.' },
    { name: 'by', kind: 'identity', says: 'Who wrote it, as they call themselves.' },
    { name: 'answered', kind: 'day', says: 'Day the clinic answered.' },
    { name: 'did', kind: 'word', says: 'seen or rung.' },
    { name: 'answered_by', kind: 'identity', says: 'Who answered.' },
    { name: 'answer', kind: 'free-text', says: 'What was done, in words.' },
  ],
  rows: ({ subjectId, file: { replies = [] } }) =>
    replies.map(({ day, time, pageOf, hours, planned, call, marks, words, by, answer }) => ({
      subject_id: subjectId,
      day,
      time,
      page_of: pageOf,
      hours: hours === null ? '' : String(hours),
      hours_planned: planned === null ? '' : String(planned),
      call: call ? 'yes' : '',
      marks: JSON.stringify(marks),
      words: words ?? '',
      by: by ?? '',
      answered: answer?.day ?? '',
      did: answer?.did ?? '',
      answered_by: answer?.by ?? '',
      answer: answer?.words ?? '',
    })),
};

/** Which column a part of a reply stands in, where it is not called the same. */
const COLUMN_OF: Readonly<Record<string, string>> = { pageOf: 'page_of', planned: 'hours_planned' };
const COLUMN_OF_ANSWER: Readonly<Record<string, string>> = { day: 'answered', by: 'answered_by', words: 'answer' };

/** A subject’s replies of the family; left out where there is none. */
export function readReplied(rows: readonly CsvRow[]): Pick<PatientFile, 'replies'> {
  if (rows.length === 0) return {};
  const figure = (row: CsvRow, column: string) => (row.cell(column) === '' ? null : numberCell(row, column));
  const replies = rows.map((row): FamilyReply => {
    const did = cellOrNull(row, 'did');
    const one = {
      day: dayCell(row, 'day'),
      time: row.cell('time'),
      pageOf: dayCell(row, 'page_of'),
      hours: figure(row, 'hours'),
      planned: figure(row, 'hours_planned'),
      marks: jsonCell(row, 'marks', z.array(z.unknown())) ?? [],
      call: row.cell('call') === 'yes',
      words: cellOrNull(row, 'words'),
      by: cellOrNull(row, 'by'),
      answer: did && { did, day: dayOrNull(row, 'answered'), by: row.cell('answered_by'), words: cellOrNull(row, 'answer') },
    };
    const read = FAMILY_REPLY.safeParse(one);
    if (read.success) return read.data;
    const [field = 'day', inside = ''] = (read.error.issues[0]?.path ?? []).map(String);
    const column = field === 'answer' ? (COLUMN_OF_ANSWER[inside] ?? 'did') : (COLUMN_OF[field] ?? field);
    return refuseCell(row, column, 'This cannot be read.');
  });
  return { replies };
}
