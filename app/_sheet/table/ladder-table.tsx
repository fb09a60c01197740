import clsx from 'clsx';
import { Fragment, type ReactNode } from 'react';
import { type CellPlace, cellAt, isHalfTyped, type SheetState } from '@/lib/entry/entry-state';
import type { OpenQuestion, SheetView, SideView } from '@/lib/entry/typed-view';
import { placeInWords, type Side } from '@/lib/ladder/limb';
import { nameOf, readLength } from '@/lib/units/read-length';
import { showLength } from '@/lib/units/show-length';
import type { SheetRow } from '@/lib/visit-form/entry-rows';
import { cellKey, type LimbSheet } from '@/lib/visit-form/visit-form';
import { type CellHandlers, cellLabel, GirthCell } from './girth-cell';
import styles from './ladder-table.module.css';
import { type Answer, QuestionCard } from './question-card';
import { RungReading } from './rung-reading';

type TableProps = {
  readonly state: SheetState;
  readonly view: SheetView;
  readonly group: number;
  readonly shown: Side;
  readonly twice: boolean;
  readonly question: OpenQuestion | undefined;
  readonly handlers: CellHandlers;
  /** The rows of landmarks, above the girths. */
  readonly marks: ReactNode;
  readonly onAnswer: (answer: Answer) => void;
  readonly onMore: () => void;
  readonly onAsk: (question: OpenQuestion) => void;
};

/** The ladder sheet: a native table, a row a place, a box a girth, and the open question under its rung. */
export function LadderTable(props: TableProps) {
  const { view, shown, twice } = props;
  const { sheet, rows, sides } = view;
  const words = sheet.limb === 'leg' ? 'legs' : 'arms';
  return (
    <table className={clsx(styles.ladder, twice && styles.twice)} data-shown={shown} data-sides={sides.length}>
      <caption className="visually-hidden">
        Girths of the {words} in {nameOf(sheet.unit)}, places counted from the {placeInWords(sheet.zero)}. Type a figure, then Enter.
      </caption>
      <thead>
        <tr>
          <th scope="col" className={styles.placeHead}>
            Place
          </th>
          {sides.map((one) => (
            <SideHeads key={one.side} one={one} limb={sheet.limb} twice={twice} />
          ))}
        </tr>
      </thead>
      {props.marks}
      <tbody>
        {rows.map((row) => (
          <RungRow key={row.key} row={row} {...props} />
        ))}
      </tbody>
    </table>
  );
}

function SideHeads({ one, limb, twice }: { one: SideView; limb: string; twice: boolean }) {
  const name = `${one.side === 'left' ? 'Left' : 'Right'} ${limb}`;
  return (
    <>
      <th scope="col" className={styles.girthHead} data-side={one.side}>
        <span className={styles.sideName}>{name}</span>
        <span>as typed</span>
      </th>
      {twice && (
        <th scope="col" className={`${styles.girthHead} ${styles.againColumn}`} data-side={one.side}>
          <span className={styles.sideName}>{name}</span>
          <span>measured again</span>
        </th>
      )}
      <th scope="col" className={styles.readingHead} data-side={one.side}>
        <span className={styles.readingHeads}>
          <span>read as</span>
          {one.last && (
            <span>
              {one.last.words}, at <br />
              same place
            </span>
          )}
        </span>
      </th>
    </>
  );
}

function RungRow(props: TableProps & { readonly row: SheetRow }) {
  const { state, view, group, row, question, onAnswer, onMore } = props;
  const { sheet, sides } = view;
  const current = state.editing?.place.group === group && state.editing.place.row === row.key;
  const here = question?.row === row.key ? question : undefined;
  const width = 1 + sides.length * (props.twice ? 3 : 2);
  return (
    <Fragment>
      <tr className={clsx(styles.rung, current && styles.current, here && styles.open)}>
        <th scope="row" className={styles.place}>
          <Place row={row} sides={sheet.sides} unit={sheet.unit} />
        </th>
        {sides.map((one) => (
          <SideCells key={one.side} one={one} {...props} />
        ))}
      </tr>
      {here && (
        <tr className={styles.questionRow} data-side={here.side}>
          <td colSpan={width}>
            <QuestionCard
              question={here}
              girth={girthOf(sheet, here)}
              unit={sheet.unit}
              more={view.questions.length - 1}
              onAnswer={onAnswer}
              onMore={onMore}
            />
          </td>
        </tr>
      )}
    </Fragment>
  );
}

function SideCells(props: TableProps & { readonly row: SheetRow; readonly one: SideView }) {
  const { state, view, group, row, one, twice, handlers, onAsk } = props;
  const { sheet } = view;
  const place: CellPlace = { group, side: one.side, row: row.key, again: false };
  const cell = cellAt(state.form, place);
  const editing = state.editing?.place;
  const isHere = editing?.group === group && editing.side === one.side && editing.row === row.key;
  const half = isHere && isHalfTyped(state);
  const question = view.questions.find((candidate) => candidate.side === one.side && candidate.row === row.key && !candidate.whole);
  const at = row.at[one.side];
  const describedBy = `read-${group}-${one.side}-${row.key}`;
  const look = lookOf(cell.text, sheet.unit, half, question !== undefined);
  const again = { ...place, again: true };
  return (
    <>
      <td className={styles.girth} data-side={one.side}>
        <GirthCell
          place={place}
          label={cellLabel(sheet.limb, place, row, sheet.unit)}
          text={cell.text}
          look={look}
          describedBy={describedBy}
          {...handlers}
        />
      </td>
      {twice && (
        <td className={`${styles.girth} ${styles.againColumn}`} data-side={one.side}>
          <GirthCell
            place={again}
            label={cellLabel(sheet.limb, again, row, sheet.unit)}
            text={cell.again ?? ''}
            look={lookOf(cell.again ?? '', sheet.unit, half, false)}
            describedBy={describedBy}
            {...handlers}
          />
        </td>
      )}
      <td className={styles.readingCell} data-side={one.side}>
        <RungReading
          id={describedBy}
          cell={cell}
          unit={sheet.unit}
          isCurrent={isHere}
          isHalfTyped={half}
          thenMm={at && one.before?.shownMm(at.nm / 1e6)}
          thenWords={one.last?.words ?? ''}
          isAsked={question !== undefined}
          onAsk={() => question && onAsk(question)}
        />
      </td>
    </>
  );
}

function Place({ row, sides, unit }: { row: SheetRow; sides: readonly Side[]; unit: 'in' | 'cm' }) {
  const shown = sides.map((side) => row.at[side]).map((at) => (at ? showLength(at.nm / 1e6, unit, 16) : '–'));
  const distinct = [...new Set(shown)];
  return (
    <>
      {distinct.join(' / ')}
      {row.name && <span className={styles.placeName}>{row.key === 'end' ? shortName(placeInWords(row.name)) : row.name}</span>}
    </>
  );
}

/** The last word of a landmark: `fold`, `crease`. */
function shortName(words: string): string {
  return words.split(' ').at(-1) ?? words;
}

function lookOf(text: string, unit: 'in' | 'cm', half: boolean, asked: boolean): 'waiting' | 'typed' | 'asked' | 'refused' {
  if (text.trim() === '') return 'waiting';
  if (half) return 'typed';
  if (readLength(text, unit, true).kind !== 'read') return 'refused';
  return asked ? 'asked' : 'typed';
}

/** The girth that a question is about. */
export function girthOf(sheet: LimbSheet, question: OpenQuestion) {
  const cell = sheet.cells[cellKey(question.side, question.row)];
  const reading = cell ? readLength(cell.text, sheet.unit, true) : undefined;
  return reading?.kind === 'read' ? reading.value : undefined;
}
