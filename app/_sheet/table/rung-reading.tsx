import clsx from 'clsx';
import { use } from 'react';
import { differMoreThanTape } from '@/lib/ladder/second-taping';
import type { LengthUnit, TypedLength } from '@/lib/units/length';
import { readLength } from '@/lib/units/read-length';
import { echoLength, showLength, showLengthChange, showTapedLength } from '@/lib/units/show-length';
import type { GirthCell } from '@/lib/visit-form/visit-form';
import { ClinicClockOf, whenOnClock } from './clinic-clock';
import styles from './ladder-table.module.css';

type ReadingProps = {
  readonly id: string;
  readonly cell: GirthCell;
  readonly unit: LengthUnit;
  readonly isCurrent: boolean;
  /** Nothing is said yet of a figure that is still being typed. */
  readonly isHalfTyped: boolean;
  readonly thenMm: number | undefined;
  readonly thenWords: string;
  readonly isAsked: boolean;
  readonly onAsk: () => void;
};

/** How a cell was read, the last visit's girth at the same place once something is typed, and the mark of a question. */
export function RungReading({ id, cell, unit, isCurrent, isHalfTyped, thenMm, thenWords, isAsked, onAsk }: ReadingProps) {
  if (cell.text.trim() === '')
    return (
      <div className={styles.reading} id={id}>
        {isCurrent && <span className={styles.echo}>Type, then Enter</span>}
      </div>
    );
  const girth = readLength(cell.text, unit, true);
  if (girth.kind !== 'read')
    return (
      <div className={styles.reading} id={id}>
        {isHalfTyped ? null : <span className="refusal">{girth.reason}</span>}
      </div>
    );
  const again = cell.again?.trim() ? readLength(cell.again, unit, true) : undefined;
  return (
    <div className={clsx(styles.reading, isAsked && styles.asked)} id={id}>
      <span className={styles.echo}>{echoLength(girth.value.nm / 1e6, unit)}</span>
      {!isHalfTyped && (
        <span className={styles.then}>
          {thenMm !== undefined && <Then girthMm={girth.value.nm / 1e6} thenMm={thenMm} unit={unit} words={thenWords} />}
          {again?.kind === 'read' && <Again first={girth.value} again={again.value} unit={unit} />}
          {again && again.kind !== 'read' && <span className="refusal">{again.reason}</span>}
          {cell.kept?.length ? <Kept kept={cell.kept} /> : null}
        </span>
      )}
      {isAsked && (
        <button className={styles.diamondButton} type="button" onClick={onAsk} tabIndex={-1}>
          <Diamond />
          <span className="visually-hidden">Question about this rung</span>
        </button>
      )}
    </div>
  );
}

/** The last visit's figure, and how far today's lies from it. */
export function Then({ girthMm, thenMm, unit, words }: { girthMm: number; thenMm: number; unit: LengthUnit; words: string }) {
  return (
    <span>
      <span className={styles.thenDay}>{words} </span>
      {showTapedLength(thenMm, unit)}
      <span className={styles.thenComma}>,</span> <b>{showLengthChange(girthMm - thenMm, unit)}</b>
    </span>
  );
}

function Again({ first, again, unit }: { first: TypedLength; again: TypedLength; unit: LengthUnit }) {
  const apart = showLengthChange((again.nm - first.nm) / 1e6, unit);
  return (
    <span className={clsx(styles.again, differMoreThanTape(first, again) && styles.apart)}>
      again {showLength(again.nm / 1e6, unit, 16)} <b>{apart}</b>
      {differMoreThanTape(first, again) ? ' more than tape error' : ''}
    </span>
  );
}

/** Who kept a figure last, and when. */
export function Kept({ kept }: { kept: NonNullable<GirthCell['kept']> }) {
  const clock = use(ClinicClockOf);
  const last = kept.at(-1);
  if (!last) return null;
  return (
    <span className={styles.kept}>
      <Diamond kept /> kept by {last.by} {whenOnClock(last.at, clock)}
    </span>
  );
}

/** The mark of a question: an open diamond; with a dot once it was answered "keep". */
export function Diamond({ kept = false }: { kept?: boolean }) {
  return (
    <svg className={styles.diamondMark} viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
      <path d="M8 1.5 14.5 8 8 14.5 1.5 8Z" />
      {kept && <circle cx="8" cy="8" r="2" />}
    </svg>
  );
}
