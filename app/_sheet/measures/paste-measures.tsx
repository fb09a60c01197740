import { useEffect, useId, useRef, useState } from 'react';
import pasteStyles from '@/app/_sheet/paste/paste.module.css';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { counted } from '@/lib/entry/act-in-words';
import { measureInWords } from '@/lib/parts/measure';
import { capitalized } from '@/lib/units/capitalized';
import type { LengthUnit } from '@/lib/units/length';
import { cutPasted } from '@/lib/visit-form/pasted-columns';
import { type PastedMeasure, planMeasures, withPastedMeasures } from '@/lib/visit-form/place-measures';
import type { MeasureRow } from '@/lib/visit-form/read-measures';
import type { VisitForm } from '@/lib/visit-form/visit-form';
import { PastedCells } from '../paste/pasted-cells';

type Props = {
  readonly text: string;
  readonly from: MeasureRow;
  readonly again: boolean;
  readonly form: VisitForm;
  readonly rows: readonly MeasureRow[];
  readonly unit: LengthUnit;
  readonly onCancel: () => void;
  readonly onPaste: (change: Partial<VisitForm>, words: string) => void;
};

/** Named measures from a spreadsheet: which figure goes where, before anything lands; those of another part are asked about. */
export function PasteMeasures({ text, from, again, form, rows, unit, onCancel, onPaste }: Props) {
  const id = useId();
  const box = useRef<HTMLTextAreaElement>(null);
  useEffect(() => box.current?.focus(), []);
  const [typed, setTyped] = useState(text);
  const [othersMeant, setOthersMeant] = useState(false);
  const plan = planMeasures(cutPasted(typed), form, { from, rows, again, othersMeant });
  const replaced = plan.figures.filter(({ stands }) => stands !== '').length;
  const ready = plan.refused === null && plan.asked === null;
  const hasOthers = plan.figures.some(({ elsewhere }) => elsewhere !== null);
  return (
    <section className={`panel ${pasteStyles.pastePanel}`} aria-labelledby={`${id}-title`}>
      <h3 id={`${id}-title`}>Paste named measures</h3>
      <label className="field">
        <span className="hint">
          One figure a line, or a name and its figure. Without names they go down the sheet from the box that was pasted into.
        </span>
        <textarea
          ref={box}
          rows={4}
          value={typed}
          spellCheck={false}
          onChange={({ target }) => {
            setTyped(target.value);
            setOthersMeant(false);
          }}
        />
      </label>
      <Preview figures={plan.figures} unit={unit} />
      {hasOthers && (
        <label className="choice">
          <input type="checkbox" checked={othersMeant} onChange={({ target }) => setOthersMeant(target.checked)} />
          {othersMeant ? 'The other part is meant too' : (plan.asked ?? '')}
        </label>
      )}
      <p className={plan.refused ? 'refusal' : 'secondary'} role="status">
        {plan.refused ?? plan.asked ?? `${capitalized(counted(plan.figures.length, 'figure'))} can be read.`}
      </p>
      <div className="actions">
        <button
          className="button main"
          type="button"
          aria-disabled={!ready}
          onClick={() => ready && onPaste(withPastedMeasures(form, plan, unit), `paste ${counted(plan.figures.length, 'named measure')}`)}
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

function Preview({ figures, unit }: { figures: readonly PastedMeasure[]; unit: LengthUnit }) {
  return (
    <div className={`table-frame ${pasteStyles.pastePreview}`}>
      <table>
        <thead>
          <tr>
            <ColumnHeads of={['Measure', 'As pasted', 'Read as', 'Stands there now']} />
          </tr>
        </thead>
        <tbody>
          {figures.map((figure) => (
            <tr key={figure.line}>
              <th scope="row">{figure.row ? capitalized(measureInWords(figure.row.measure, figure.row.side)) : `Line ${figure.line}`}</th>
              <td>{figure.text}</td>
              <PastedCells figure={figure} unit={unit} />
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
