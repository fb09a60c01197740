import { useEffect, useId, useRef, useState } from 'react';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { counted } from '@/lib/entry/act-in-words';
import { firstEmpty } from '@/lib/entry/cell-keys';
import type { CellPlace } from '@/lib/entry/entry-state';
import type { SheetView } from '@/lib/entry/typed-view';
import type { Side } from '@/lib/ladder/limb';
import { capitalized } from '@/lib/units/capitalized';
import { showLength } from '@/lib/units/show-length';
import { type CommaIs, cutPasted } from '@/lib/visit-form/pasted-columns';
import { type ColumnHolds, guessColumns, type PastePlan, planPaste, withPasted } from '@/lib/visit-form/place-pasted';
import type { LimbSheet } from '@/lib/visit-form/visit-form';
import styles from './paste.module.css';
import { PastedCells } from './pasted-cells';

type PasteProps = {
  readonly text: string;
  readonly view: SheetView;
  readonly shown: Side;
  /** The box that was pasted into; null when the panel was opened by its button. */
  readonly from: CellPlace | null;
  readonly twice: boolean;
  readonly onCancel: () => void;
  readonly onPaste: (change: (one: LimbSheet) => LimbSheet, words: string) => void;
};

const HOLDS: Readonly<Record<ColumnHolds, string>> = { place: 'places', right: 'right', left: 'left', nothing: 'leave out' };

/** A column or two from a spreadsheet: what goes where, cell by cell, before anything lands. */
export function PastePanel({ text, view, shown, from, twice, onCancel, onPaste }: PasteProps) {
  const id = useId();
  const box = useRef<HTMLTextAreaElement>(null);
  /** The panel opens below the ladder: the caret goes there, and the page with it. */
  useEffect(() => box.current?.focus(), []);
  const { sheet } = view;
  const [typed, setTyped] = useState(text);
  const [comma, setComma] = useState<CommaIs | undefined>();
  const [chosen, setChosen] = useState<readonly ColumnHolds[] | null>(null);
  const block = cutPasted(typed, comma);
  const [again, setAgain] = useState(from?.again ?? false);
  const side = from?.side ?? shown;
  const columns = chosen ?? guessColumns(block, sheet, side);
  const plan = planPaste(block, columns, sheet, { row: from?.row ?? firstEmpty(view, side, again), again });
  const replaced = plan.figures.filter(({ stands }) => stands !== '').length;
  const ready = typed.trim() !== '' && plan.refused === null;
  return (
    <section className={`panel ${styles.pastePanel}`} aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>Paste a column</h2>
      <label className="field">
        <span className="hint">
          Copy one or two columns in your spreadsheet and paste them here. Nothing lands before you have seen it.
        </span>
        <textarea
          id="paste-text"
          ref={box}
          rows={4}
          value={typed}
          spellCheck={false}
          onChange={({ target }) => {
            setTyped(target.value);
            setChosen(null);
          }}
        />
      </label>
      {typed.trim() !== '' && (
        <>
          {typed.includes(',') && (
            <label className={`field ${styles.comma}`}>
              <span>A comma is</span>
              <select value={block.comma} onChange={({ target }) => setComma(target.value === 'column' ? 'column' : 'decimal')}>
                <option value="decimal">a decimal mark</option>
                <option value="column">the end of a column</option>
              </select>
            </label>
          )}
          {(twice || from?.again) && (
            <label className={`field ${styles.into}`}>
              <span>Into</span>
              <select value={again ? 'again' : 'first'} onChange={({ target }) => setAgain(target.value === 'again')}>
                <option value="first">the first measuring</option>
                <option value="again">the column “measured again”</option>
              </select>
            </label>
          )}
          <Columns columns={columns} header={block.header} sides={sheet.sides} onChange={setChosen} />
          <Preview plan={plan} view={view} />
          <p className={plan.refused ? 'refusal' : 'secondary'} role="status">
            {plan.refused ?? whereInWords(plan, view)}
          </p>
        </>
      )}
      <div className="actions">
        <button
          className="button main"
          type="button"
          aria-disabled={!ready}
          onClick={() => ready && onPaste((one) => withPasted(one, plan), `paste ${counted(plan.figures.length, 'figure')}`)}
        >
          Put them on the sheet{ready && replaced > 0 ? `, replacing ${replaced}` : ''}
        </button>
        <button className="button" type="button" onClick={onCancel}>
          Leave it
        </button>
      </div>
    </section>
  );
}

type ColumnsProps = {
  readonly columns: readonly ColumnHolds[];
  readonly header: readonly string[] | null;
  readonly sides: readonly Side[];
  readonly onChange: (columns: readonly ColumnHolds[]) => void;
};

function Columns({ columns, header, sides, onChange }: ColumnsProps) {
  const choices: ColumnHolds[] = ['place', ...sides, 'nothing'];
  const named = columns.map((holds, index) => ({ holds, index, key: `column-${index}`, name: header?.[index] || `Column ${index + 1}` }));
  return (
    <div className={styles.pasteColumns}>
      {named.map(({ holds, index, key, name }) => (
        <label className="field" key={key}>
          <span>{name}</span>
          <select
            value={holds}
            onChange={({ target }) => onChange(columns.map((one, at) => (at === index ? (target.value as ColumnHolds) : one)))}
          >
            {choices.map((choice) => (
              <option key={choice} value={choice}>
                {HOLDS[choice]}
              </option>
            ))}
          </select>
        </label>
      ))}
    </div>
  );
}

/** Where the figures go and what they replace. Example: `8 figures can be read. They go to the right leg, from 1½ in to 12 in.` */
function whereInWords({ figures, again }: PastePlan, view: SheetView): string {
  const { unit, limb } = view.sheet;
  const sides = [...new Set(figures.map(({ side }) => side))];
  const ways = sides.map((side) => {
    const rows = figures.filter((figure) => figure.side === side);
    const [first, last] = [placeOf(view, rows[0]?.row ?? null, side), placeOf(view, rows.at(-1)?.row ?? null, side)];
    return `the ${side} ${limb}, from ${first} to ${last} ${unit}`;
  });
  const replaced = figures.filter(({ stands }) => stands !== '').map(({ stands }) => stands);
  const named = `${replaced.slice(0, 4).join(', ')}${replaced.length > 4 ? ` and ${replaced.length - 4} more` : ''}`;
  return [
    `${capitalized(counted(figures.length, 'figure'))} can be read.`,
    `${figures.length === 1 ? 'It goes' : 'They go'} to ${ways.join(', and ')}${again ? ', as measured again' : ''}.`,
    ...(replaced.length > 0 ? [`What stands there now is replaced: ${named}.`] : []),
  ].join(' ');
}

function placeOf(view: SheetView, key: string | null, side: Side): string {
  const at = view.rows.find((row) => row.key === key)?.at[side];
  return at ? showLength(at.nm / 1e6, view.sheet.unit, 16) : '–';
}

function Preview({ plan, view }: { plan: PastePlan; view: SheetView }) {
  const { unit } = view.sheet;
  return (
    <div className={`table-frame ${styles.pastePreview}`}>
      <table>
        <thead>
          <tr>
            <ColumnHeads of={['Place', 'Side', 'As pasted', 'Read as', 'Stands there now']} />
          </tr>
        </thead>
        <tbody>
          {plan.figures.map((figure) => (
            <tr key={`${figure.line} ${figure.side}`}>
              <th scope="row">{placeOf(view, figure.row, figure.side)}</th>
              <td>{figure.side}</td>
              <td>{figure.text}</td>
              <PastedCells figure={figure} unit={unit} />
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
