import { MEASURES } from '../parts/catalogue';
import { isTakenOn, type Measure, partOfSideInWords } from '../parts/measure';
import type { PartOfSide } from '../record/patient-record';
import { readLength } from '../units/read-length';
import type { PastedBlock } from './pasted-columns';
import { type MeasureRow, partsOf, withMeasure, withMeasureAgain } from './read-measures';
import { type MeasureText, measureKey, type VisitForm } from './visit-form';

/** One pasted figure: the measure it goes to, as typed, what stands there now, and why it cannot be read. */
export type PastedMeasure = {
  readonly line: number;
  readonly row: MeasureRow | null;
  readonly text: string;
  readonly stands: string;
  /** The part it belongs to, where that is none that was being measured. */
  readonly elsewhere: PartOfSide | null;
  readonly refused: string | null;
};

/** Pasted figures laid on named measures: what stops them as a whole, and what is asked before they land. */
export type MeasurePaste = {
  readonly figures: readonly PastedMeasure[];
  readonly again: boolean;
  /** Measures of another part were pasted in: are they meant? Null where there are none. */
  readonly asked: string | null;
  readonly refused: string | null;
};

/** Where figures go: the measure to begin with where lines have no names, the rows on the sheet, the column, and whether other parts were said to be meant. */
export type MeasurePasteAt = {
  readonly from: MeasureRow;
  readonly rows: readonly MeasureRow[];
  readonly again: boolean;
  readonly othersMeant: boolean;
};

/**
 * Each pasted figure with the named measure it goes to: by the name or id before it, else in the order of the sheet from a row on.
 *
 * The last cell of a line that is a length is its figure, the first its name. A name says its side, or the side being measured is meant. A measure of
 * another part than the one being measured is asked about: nothing lands until a person says that it is meant. Refuses as a whole what no
 * measure is named, a figure that cannot be read, one measure twice, more lines than rows, a second measuring without a first.
 * Shape: a cut block, the form, where to. Example: `ball girth<tab>22.8` while a hand is measured: "Line 1 is of the left foot …".
 */
export function planMeasures(block: PastedBlock, form: VisitForm, { from, rows, again, othersMeant }: MeasurePasteAt): MeasurePaste {
  const own = rows.flatMap(({ measure }) => (measure.own ? [measure] : []));
  const named = block.rows.some((cells) => cells.length > 1 && measureNamed(cells[0] ?? '', from.side, own) !== undefined);
  const start = rows.findIndex((row) => keyOf(row) === keyOf(from));
  const unit = unitOf(form, from);
  const figures = block.rows.flatMap((cells, index): PastedMeasure[] => {
    const line = index + 1 + (block.header ? 1 : 0);
    const text = (named ? cells.slice(1) : cells).findLast((cell) => cell !== '') ?? '';
    if (text === '') return [];
    const row = named ? measureNamed(cells[0] ?? '', from.side, own) : rows[start + index];
    if (!row)
      return [
        {
          line,
          row: null,
          text,
          stands: '',
          elsewhere: null,
          refused: named ? `“${cells[0]}” is no measure.` : 'There is no measure left.',
        },
      ];
    const there = form.measures?.find((one) => measureKey(one) === keyOf(row));
    const stands = ((again ? there?.again : there?.text) ?? '').trim();
    const reading = readLength(text, there?.unit ?? unit, true);
    const alone = again && !there?.text.trim() ? 'Nothing stands there to be measured again.' : null;
    const elsewhere = row.part === from.part && row.side === from.side ? null : { part: row.part, side: row.side };
    return [{ line, row, text, stands, elsewhere, refused: reading.kind === 'read' ? alone : reading.reason }];
  });
  const others = figures.filter(({ elsewhere }) => elsewhere !== null);
  const asked = others.length > 0 && !othersMeant ? othersInWords(others, from) : null;
  return { figures, again, asked, refused: refusalOf(figures) };
}

/** The form with every figure of a plan in its place, and the parts they belong to taken up. */
export function withPastedMeasures(form: VisitForm, { figures, again }: MeasurePaste, unit: MeasureText['unit']): Partial<VisitForm> {
  let filled = form;
  for (const { row, text } of figures)
    if (row) filled = { ...filled, ...(again ? withMeasureAgain : withMeasure)(filled, row, text, unit) };
  const parts = partsOf([...(form.parts ?? []), ...figures.flatMap(({ row }) => row ?? [])]);
  return { parts, measures: filled.measures ?? [] };
}

function othersInWords(others: readonly PastedMeasure[], from: MeasureRow): string {
  const first = others[0] as PastedMeasure;
  const parts = [...new Set(others.map(({ elsewhere }) => (elsewhere ? partOfSideInWords(elsewhere.part, elsewhere.side) : '')))].join(
    ' and the ',
  );
  const lines = others.length === 1 ? `Line ${first.line} is` : `${others.length} lines, the first of them line ${first.line}, are`;
  return `${lines} of the ${parts}, and the ${partOfSideInWords(from.part, from.side)} is being measured. Is that meant?`;
}

function refusalOf(figures: readonly PastedMeasure[]): string | null {
  if (figures.length === 0) return 'There are no figures in this text.';
  const bad = figures.find(({ refused }) => refused !== null);
  if (bad) return `Line ${bad.line}: ${bad.refused} Nothing was pasted.`;
  const keys = figures.map(({ row }) => (row ? keyOf(row) : ''));
  const twice = figures.find((_, index) => keys.indexOf(keys[index] ?? '') !== index);
  return twice ? `Line ${twice.line}: this measure stands twice. Nothing was pasted.` : null;
}

/** The measure that a name or id means, on the side it says, else on the one being measured; undefined where it means none. */
function measureNamed(name: string, side: PartOfSide['side'], own: readonly Measure[]): MeasureRow | undefined {
  const words = name.trim().toLowerCase().replaceAll(/[–_]/g, '-').replaceAll(/\s+/g, ' ');
  const [, said, bare = ''] = /^(?:(left|right)[ :,-]+)?(.*)$/.exec(words) ?? [];
  const measure = [...MEASURES, ...own].find((one) => one.id === bare.replaceAll(' ', '-') || plain(one) === bare);
  if (!measure) return undefined;
  const meant = measure.sides === 'middle' ? 'middle' : ((said as 'left' | 'right' | undefined) ?? (side === 'middle' ? 'right' : side));
  return isTakenOn(measure, meant) ? { part: measure.part, side: meant, measure } : undefined;
}

function plain({ name }: Measure): string {
  return name.toLowerCase().replaceAll('–', '-');
}

function unitOf(form: VisitForm, row: MeasureRow): MeasureText['unit'] {
  return form.measures?.find((one) => measureKey(one) === keyOf(row))?.unit ?? form.sheets[0]?.unit ?? 'cm';
}

function keyOf(row: MeasureRow): string {
  return measureKey({ side: row.side, measure: row.measure.id });
}
