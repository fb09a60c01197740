'use client';

import { type KeyboardEvent, useMemo, useState } from 'react';
import type { Answer } from '@/app/_sheet/table/question-card';
import { cellWish } from '@/lib/entry/cell-keys';
import type { SheetData } from '@/lib/entry/entry-data';
import { keptMeasure, type MeasureQuestion, measureQuestions } from '@/lib/entry/measure-questions';
import { measureInWords, PART_PLACES, partOfSideInWords } from '@/lib/parts/measure';
import { offeredMeasures } from '@/lib/parts/own-measure';
import type { PartOfSide } from '@/lib/record/patient-record';
import { capitalized } from '@/lib/units/capitalized';
import type { LengthUnit } from '@/lib/units/length';
import { readLength } from '@/lib/units/read-length';
import { type MeasureRow, measureRows, ownOf, partsOf, withMeasure, withMeasureAgain } from '@/lib/visit-form/read-measures';
import { measureKey, type VisitForm } from '@/lib/visit-form/visit-form';
import { measureBoxId } from './measure-box-id';
import { MeasureLine } from './measure-line';
import styles from './measures.module.css';
import { PasteMeasures } from './paste-measures';

type SectionProps = {
  readonly form: VisitForm;
  readonly data: SheetData;
  readonly unit: LengthUnit;
  readonly twice: boolean;
  readonly onField: (change: Partial<VisitForm>) => void;
  /** An act that can be taken back. */
  readonly onAct: (change: Partial<VisitForm>, words: string) => void;
  readonly onReadBack: () => void;
  /** A box was left: what is typed is kept. */
  readonly onLeave: () => void;
  /** Enter on the last measure. */
  readonly onDone: () => void;
};

type Editing = { readonly row: MeasureRow; readonly before: string };

/** Named measures of hand, foot, trunk and head: folded away until somebody takes one up or the last visit has some. */
export function MeasureSection({ form, data, unit, twice, onField, onAct, onReadBack, onLeave, onDone }: SectionProps) {
  const parts = partsOf([...(form.parts ?? []), ...(form.measures ?? [])]);
  const [isOpen, setOpen] = useState(parts.length > 0);
  const [editing, setEditing] = useState<Editing | null>(null);
  const [picked, setPicked] = useState<string | null>(null);
  const [pasted, setPasted] = useState<{ readonly text: string; readonly from: MeasureRow; readonly again: boolean } | null>(null);
  const offered = offeredMeasures(data.ownMeasures, ownOf(form.measures ?? []));
  const rows = measureRows(parts, offered);
  const textAt = (row: MeasureRow) => typedAt(form, row)?.text ?? '';
  const half = editing && textAt(editing.row) !== editing.before ? editing : null;
  const settled = useMemo(() => (half ? { ...form, ...withMeasure(form, half.row, half.before, unit) } : form), [form, half, unit]);
  const questions = useMemo(() => measureQuestions(settled, data.measures, data.born), [settled, data.measures, data.born]);
  const shown = questions.find(({ where }) => where === picked) ?? questions.at(-1);

  const goTo = (row: MeasureRow | undefined) => {
    const box = row && document.getElementById(measureBoxId(keyOf(row)));
    if (!(box instanceof HTMLInputElement)) return;
    box.focus();
    box.select();
  };
  const answer = (given: Answer, about: MeasureQuestion): void => {
    setPicked(null);
    const row = rows.find((one) => keyOf(one) === about.where);
    if (!row) return;
    const name = measureInWords(row.measure, row.side);
    if (given === 'keep') onAct(keptMeasure(form, about, data.who, new Date().toISOString()), `keep ${about.text} at ${name}`);
    else if (given === 'fits' && about.wouldFit)
      onAct(withMeasure(form, row, about.wouldFit, unit), `change ${about.text} at ${name} to ${about.wouldFit}`);
    else goTo(row);
  };
  const onKey = (event: KeyboardEvent<HTMLInputElement>, row: MeasureRow): void => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.nativeEvent.isComposing) return;
    const wish = cellWish(event.key, event.currentTarget, shown !== undefined);
    const at = rows.indexOf(row);
    const deeds: Partial<Record<NonNullable<typeof wish>, () => void>> = {
      next: () => enter(row),
      down: () => goTo(rows[at + 1]),
      up: () => goTo(rows[at - 1]),
      escape: () => {
        if (half) onField(withMeasure(form, half.row, half.before, unit));
        else if (shown) answer('again', shown);
      },
      fits: () => shown && answer('fits', shown),
      keep: () => shown && answer('keep', shown),
      back: onReadBack,
    };
    const deed = wish && deeds[wish];
    if (!deed) return;
    event.preventDefault();
    deed();
  };
  /** Enter takes the figure and goes on; on a figure that cannot be read it stays. */
  const enter = (row: MeasureRow): void => {
    const text = textAt(row);
    const next = rows[rows.indexOf(row) + 1];
    if (text.trim() !== '' && readLength(text, typedAt(form, row)?.unit ?? unit, true).kind !== 'read') setEditing({ row, before: text });
    else if (next) goTo(next);
    else onDone();
  };
  const takeUp = (part: PartOfSide) => {
    const more = partsOf([...parts, part]);
    onField({ parts: more });
    const first = measureRows(more, offered).find((one) => one.part === part.part && one.side === part.side);
    setTimeout(() => goTo(first), 0);
  };
  const putAway = (part: PartOfSide) => onField({ parts: parts.filter((one) => one.part !== part.part || one.side !== part.side) });

  const free = PART_PLACES.filter((one) => !parts.some(({ part, side }) => part === one.part && side === one.side));
  return (
    <section className={styles.measures} aria-labelledby="measures-head">
      <h2 id="measures-head" className={styles.measuresHead}>
        <button className="link-button" type="button" aria-expanded={isOpen} aria-controls="measures-body" onClick={() => setOpen(!isOpen)}>
          Hand, foot, trunk, head
        </button>
        {(form.measures?.length ?? 0) > 0 && <span className="head-note">{`${form.measures?.length} measured`}</span>}
      </h2>
      <div id="measures-body" hidden={!isOpen}>
        {parts.map((part) => {
          const own = rows.filter((row) => row.part === part.part && row.side === part.side);
          const typed = own.filter((row) => typedAt(form, row)).length;
          return (
            <section className={styles.measurePart} key={partInWords(part)} aria-label={partInWords(part)}>
              <h3>
                {partInWords(part)} <span className="head-note">{`${typed} of ${own.length}; leave empty what is not needed`}</span>
                {typed === 0 && (
                  <button className="link-button" type="button" onClick={() => putAway(part)}>
                    Put away<span className="visually-hidden">{` ${partInWords(part)}`}</span>
                  </button>
                )}
              </h3>
              <ul className={styles.measureLines}>
                {own.map((row) => {
                  const key = keyOf(row);
                  const isCurrent = editing !== null && keyOf(editing.row) === key;
                  const question = questions.find(({ where }) => where === key);
                  return (
                    <MeasureLine
                      key={key}
                      row={row}
                      typed={typedAt(form, row)}
                      unit={unit}
                      known={data.measures}
                      isCurrent={isCurrent}
                      isHalfTyped={half !== null && isCurrent}
                      question={question}
                      isShown={question !== undefined && question === shown}
                      twice={twice}
                      onType={(text) => onField(withMeasure(form, row, text, unit))}
                      onTypeAgain={(text) => onField(withMeasureAgain(form, row, text, unit))}
                      onPasteText={(text, again) => {
                        if (!/[\n\t;]/.test(text.trim())) return false;
                        setPasted({ text, from: row, again });
                        return true;
                      }}
                      onFocus={() => setEditing({ row, before: textAt(row) })}
                      onBlur={() => {
                        setEditing(null);
                        if (half) setPicked(key);
                        onLeave();
                      }}
                      onKey={(event) => onKey(event, row)}
                      onAsk={() => setPicked(key)}
                      onAnswer={(given) => question && answer(given, question)}
                    />
                  );
                })}
              </ul>
            </section>
          );
        })}
        {pasted && (
          <PasteMeasures
            {...pasted}
            form={form}
            rows={rows}
            unit={unit}
            onCancel={() => setPasted(null)}
            onPaste={(change, words) => {
              onAct(change, words);
              setPasted(null);
            }}
          />
        )}
        {free.length > 0 && (
          <div className={styles.measureChoices}>
            <span>Measure</span>
            {free.map((part) => (
              <button className="button" type="button" key={partInWords(part)} onClick={() => takeUp(part)}>
                {partInWords(part)}
              </button>
            ))}
          </div>
        )}
      </div>
    </section>
  );
}

function keyOf(row: MeasureRow): string {
  return measureKey({ side: row.side, measure: row.measure.id });
}

function typedAt(form: VisitForm, row: MeasureRow) {
  return form.measures?.find((one) => measureKey(one) === keyOf(row));
}

/** `Left hand`, `Trunk` */
function partInWords({ part, side }: PartOfSide): string {
  return capitalized(partOfSideInWords(part, side));
}
