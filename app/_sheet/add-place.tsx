import { useState } from 'react';
import { readLength } from '@/lib/units/read-length';
import { readPlace } from '@/lib/visit-form/entry-rows';
import type { LimbSheet } from '@/lib/visit-form/visit-form';
import styles from './sheet.module.css';

type AddProps = {
  readonly sheet: LimbSheet;
  readonly onSheet: (change: (sheet: LimbSheet) => LimbSheet) => void;
  /** Leaves a gap at the rung being typed; undefined while no rung is. */
  readonly onInsert: (() => void) | undefined;
  readonly onAdded: (row: string) => void;
};

/** One rung more, or a place off the grid: the odd last one, or one with a name of its own. */
export function AddPlace({ sheet, onSheet, onInsert, onAdded }: AddProps) {
  const [place, setPlace] = useState('');
  const [name, setName] = useState('');
  const typed = place.trim() !== '';
  const found = typed ? readPlace(place, sheet) : undefined;
  const reading = typed && !found ? readLength(place, sheet.unit, true) : undefined;
  const refused = reading && reading.kind !== 'read' ? reading.reason : '';
  const add = () => {
    if (!found) return;
    const row = String(found.nm);
    const extra = { place: place.trim(), name: name.trim() };
    onSheet((one) => ({ ...one, extras: [...one.extras.filter((other) => readPlace(other.place, one)?.nm !== found.nm), extra] }));
    setPlace('');
    setName('');
    onAdded(row);
  };
  return (
    <form
      className={styles.addPlace}
      onSubmit={(event) => {
        event.preventDefault();
        add();
      }}
    >
      <button className="button" type="button" onClick={() => onSheet((one) => ({ ...one, more: one.more + 1, count: one.count }))}>
        One more rung
      </button>
      <button
        className="button"
        type="button"
        aria-disabled={!onInsert}
        title="The figures from the rung being typed on move one rung further"
        onPointerDown={(event) => event.preventDefault()}
        onClick={onInsert}
      >
        Insert a rung <kbd>G</kbd>
      </button>
      <label className="field">
        <span>
          A place off the grid, {sheet.unit} <kbd>P</kbd>
        </span>
        <input
          id="box-place"
          type="text"
          inputMode="decimal"
          autoComplete="off"
          maxLength={20}
          value={place}
          aria-invalid={refused !== ''}
          onChange={({ target }) => setPlace(target.value)}
        />
        <span className="refusal">{refused}</span>
      </label>
      <label className="field">
        <span>Its name, if it has one</span>
        <input type="text" maxLength={60} autoComplete="off" value={name} onChange={({ target }) => setName(target.value)} />
      </label>
      <button className="button" type="submit" aria-disabled={!found}>
        Add place
      </button>
    </form>
  );
}
