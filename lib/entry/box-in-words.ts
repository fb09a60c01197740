import { placeInWords, type Side } from '../ladder/limb';
import { measureInWords, type PartSide } from '../parts/measure';
import { measureTaken } from '../parts/own-measure';
import { sheetRows } from '../visit-form/entry-rows';
import type { VisitForm } from '../visit-form/visit-form';

/** A box in words: `right leg, 13½`, for lists of differences. */
export function boxInWords(where: string, form: VisitForm): string {
  const [first, side, row, again] = where.split('/');
  const own = form.measures?.find((one) => one.measure === row)?.own;
  const measure = first === 'measure' ? measureTaken({ measure: row ?? '', own }) : undefined;
  if (measure) return `${measureInWords(measure, side as PartSide)}${again === 'again' ? ', measured again' : again ? ', kept' : ''}`;
  const sheet = form.sheets[Number(first)];
  if (!sheet || !side) return where;
  const at = sheetRows(sheet).find((one) => one.key === row)?.at[side as Side];
  const place =
    row === 'floor' ? 'fold above floor' : at ? `${at.text} ${sheet.unit}` : row === 'end' ? 'last place' : placeInWords(row ?? '');
  return `${side} ${sheet.limb}, ${place}${again ? ', measured again' : ''}`;
}
