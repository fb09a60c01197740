import { z } from 'zod';
import { isPlainText } from '../units/plain-text';
import type { OwnMeasure } from './measure';
import { PARTS } from './measure';
import { type ListedMeasure, OWN_MEASURE_BOUNDS, OWN_MEASURE_ID } from './own-measure';

const { most, name, definition, source, smallestMm, largestMm, largestSdMm } = OWN_MEASURE_BOUNDS;
/** A text that fits a cell of the ladders file, where `|` parts the fields of a definition. */
const words = (longest: number) =>
  z
    .string()
    .trim()
    .min(1)
    .max(longest)
    .refine((text) => isPlainText(text) && !/[|\n\r]/.test(text), 'holds a character that is none');
const mm = z.number().min(smallestMm).max(largestMm);

const fields = z.object({
  id: z.string().regex(OWN_MEASURE_ID),
  part: z.enum(PARTS),
  name: words(name),
  kind: z.enum(['girth', 'length', 'height', 'breadth']),
  sides: z.enum(['both', 'middle']),
  lowMm: mm,
  highMm: mm,
  tapeSdMm: z.number().min(0.1).max(largestSdMm),
  definition: words(definition),
  source: words(source),
});
const risesToHigh = ({ lowMm, highMm }: { lowMm: number; highMm: number }) => lowMm < highMm;

/** The definition of a clinic's own measure, from wherever it comes. */
export const OWN_MEASURE: z.ZodType<OwnMeasure> = fields.refine(risesToHigh, 'The range runs backwards.');

/** A clinic's own measures as they are stored. */
export const LISTED_MEASURES: z.ZodType<readonly ListedMeasure[]> = z
  .array(fields.extend({ asked: z.boolean() }).refine(risesToHigh, 'The range runs backwards.'))
  .max(most);

const FIELDS = ['id', 'name', 'part', 'kind', 'sides', 'lowMm', 'highMm', 'tapeSdMm', 'definition', 'source'] as const;

/** A definition as one cell of the ladders file: `own-1a2b3c4d5e6f | cheek girth | head | girth | middle | 300 | 800 | 4 | how | source`, mm. */
export function ownMeasureCell(own: OwnMeasure): string {
  return FIELDS.map((field) => String(own[field])).join(' | ');
}

/** A definition read from such a cell; undefined where it is none. */
export function ownMeasureOfCell(text: string): OwnMeasure | undefined {
  const cells = text.split('|').map((cell) => cell.trim());
  if (cells.length !== FIELDS.length) return undefined;
  const figures = ['lowMm', 'highMm', 'tapeSdMm'];
  const read = FIELDS.map((field, at) => [field, figures.includes(field) ? plainFigure(cells[at] ?? '') : cells[at]] as const);
  const found = OWN_MEASURE.safeParse(Object.fromEntries(read));
  return found.success ? found.data : undefined;
}

function plainFigure(text: string): number {
  return /^\d{1,4}(\.\d{1,3})?$/.test(text) ? Number(text) : Number.NaN;
}
