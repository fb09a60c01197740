import fc from 'fast-check';
import type { PartOf } from '@/app/_exchange/set-parts';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { type PatientFile, recordOfFile } from '@/lib/record/patient-file';
import { calendarDay } from '@/lib/units/calendar-day';
import { anyFile } from '@/tests/properties/made-up-files';

export const TODAY = calendarDay('2026-11-30');

/** References that spreadsheet programs like to change: leading noughts, exponents, long numbers, days, fractions, times. */
const REFERENCES = ['00123', '123', '3E5', '1234567890123456789', '1-2', '3/4', '14:10'];

const hasGirth = ({ visits }: PatientFile) => visits.some(({ ladders }) => ladders.some(({ rungs }) => rungs.some(({ girth }) => girth)));

/**
 * Signs that Unicode has given to nobody, or set aside, halves of signs, and U+FFFD, which stands for a sign that was lost: workbooks lose them,
 * and the sums of the dictionary say that something changed.
 */
const UNWRITABLE = /[\p{Cn}\p{Co}\p{Cs}\u007f-\u009f\ufffd]|\\ud[89a-f]/u;

/** Whether a workbook can hold every sign of a file. */
export function isWritable(file: PatientFile): boolean {
  return !UNWRITABLE.test(JSON.stringify(file));
}

/** Made-up people whose references, times and figures a spreadsheet program would change if it could. */
export const PEOPLE: readonly PatientFile[] = fc
  .sample(
    anyFile.filter((file) => hasGirth(file) && isWritable(file)),
    { numRuns: REFERENCES.length, seed: 20261130 },
  )
  .map((file, at) => ({ ...file, details: { ...file.details, reference: REFERENCES[at] ?? '' } }));

/** The same people under references that no program changes, so that what becomes of their figures and times is seen. */
export const PLAIN: readonly PatientFile[] = PEOPLE.map((file, at) => ({ ...file, details: { ...file.details, reference: `HL-${at}a` } }));

/** One person as a part of a set that goes out. */
export const partOfPerson: PartOf = ({ file }) => ({
  subjectId: file.details.reference,
  file,
  analysis: () => analysePatient(recordOfFile(file), DEFAULT_POLICY, TODAY),
});

/** A file as it can be compared: visits without their ids, which hold within a file only, and without who wrote them. */
export function comparable(file: PatientFile): unknown {
  const place = new Map(file.visits.map(({ id }, at) => [id, at]));
  const at = (id: string | null) => place.get(id ?? '') ?? null;
  return inOrder({
    ...file,
    writings: [],
    visits: file.visits.map((visit) => ({ ...visit, id: at(visit.id) })),
    pieces: file.pieces.map((piece) => ({ ...piece, cutFromVisitId: at(piece.cutFromVisitId) })),
    orders: file.orders.map((order) => ({ ...order, cutFromVisitId: at(order.cutFromVisitId) })),
  });
}

/** A value with the keys of every part in one order, without those that hold nothing; line ends inside words are one sign, as XML has it. */
function inOrder(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inOrder);
  if (typeof value === 'string') return value.replace(/\r\n?/g, '\n');
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).filter(([, one]) => one !== undefined);
  return Object.fromEntries(entries.sort(([one], [other]) => (one < other ? -1 : 1)).map(([key, one]) => [key, inOrder(one)]));
}
