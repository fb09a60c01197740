import clsx from 'clsx';
import type { KeyboardEvent } from 'react';
import { PartDrawing } from '@/app/_picture/parts/part-drawing';
import { FigureBox } from '@/app/_sheet/table/figure-box';
import ladderTableStyles from '@/app/_sheet/table/ladder-table.module.css';
import type { Answer } from '@/app/_sheet/table/question-card';
import questionCardStyles from '@/app/_sheet/table/question-card.module.css';
import { Diamond, Kept, Then } from '@/app/_sheet/table/rung-reading';
import { type KnownMeasures, lastMeasure, type MeasureQuestion } from '@/lib/entry/measure-questions';
import { questionAndReason } from '@/lib/ladder/doubt';
import { measureInWords } from '@/lib/parts/measure';
import { showDay } from '@/lib/units/calendar-day';
import { capitalized } from '@/lib/units/capitalized';
import type { LengthUnit } from '@/lib/units/length';
import { mm } from '@/lib/units/length';
import { nameOf, readLength } from '@/lib/units/read-length';
import { echoLength } from '@/lib/units/show-length';
import type { MeasureRow } from '@/lib/visit-form/read-measures';
import { type MeasureText, measureKey } from '@/lib/visit-form/visit-form';
import { measureBoxId } from './measure-box-id';
import measuresStyles from './measures.module.css';

type LineProps = {
  readonly row: MeasureRow;
  readonly typed: MeasureText | undefined;
  readonly unit: LengthUnit;
  readonly known: KnownMeasures;
  readonly isCurrent: boolean;
  /** Nothing is said yet of a figure that is still being typed. */
  readonly isHalfTyped: boolean;
  readonly question: MeasureQuestion | undefined;
  /** The question is the one that keys answer. */
  readonly isShown: boolean;
  /** Every place is measured twice: a second box stands beside the first. */
  readonly twice: boolean;
  readonly onType: (text: string) => void;
  readonly onTypeAgain: (text: string) => void;
  /** Whether a pasted text is taken by the panel. */
  readonly onPasteText: (text: string, again: boolean) => boolean;
  readonly onFocus: () => void;
  readonly onBlur: () => void;
  readonly onKey: (event: KeyboardEvent<HTMLInputElement>) => void;
  readonly onAsk: () => void;
  readonly onAnswer: (answer: Answer) => void;
};

/** One named measure: its box, its name, where the tape goes while it is typed, how it was read, and its question. */
export function MeasureLine(props: LineProps) {
  const { row, typed, unit, known, isCurrent, isHalfTyped, question, isShown } = props;
  const where = measureKey({ side: row.side, measure: row.measure.id });
  const text = typed?.text ?? '';
  const own = typed?.unit ?? unit;
  const read = text.trim() === '' ? undefined : readLength(text, own, true);
  const last = lastMeasure(known, where);
  const isRefused = read !== undefined && read.kind !== 'read' && !isHalfTyped;
  const look = isRefused ? 'refused' : question ? 'asked' : typed ? 'typed' : 'waiting';
  const id = measureBoxId(where);
  return (
    <li className={clsx(measuresStyles.measureLine, isCurrent && `${measuresStyles.current} ${ladderTableStyles.current}`)}>
      <FigureBox
        id={id}
        label={`${capitalized(measureInWords(row.measure, row.side))}, ${nameOf(own)}`}
        text={text}
        look={look}
        describedBy={`${id}-says ${id}-read`}
        onType={props.onType}
        onFocus={props.onFocus}
        onBlur={props.onBlur}
        onKey={props.onKey}
        onPasteText={(pasted) => props.onPasteText(pasted, false)}
      />
      {(props.twice || typed?.again) && <AgainBox {...props} />}
      <div className={measuresStyles.measureName}>
        <b>{capitalized(row.measure.name)}</b>
        <span id={`${id}-says`} className={isCurrent ? measuresStyles.measureSays : 'visually-hidden'}>
          {row.measure.definition}
        </span>
        {isCurrent && <PartDrawing side={row.side} measures={[row.measure.id]} />}
      </div>
      <div
        className={clsx(`${measuresStyles.reading} ${ladderTableStyles.reading}`, question && ladderTableStyles.asked)}
        id={`${id}-read`}
      >
        {isRefused && <span className="refusal">{read.reason}</span>}
        {read?.kind === 'read' && <span className={ladderTableStyles.echo}>{echoLength(mm(read.value.nm), own)}</span>}
        {read?.kind === 'read' && !isHalfTyped && (
          <span className={ladderTableStyles.then}>
            {last && <Then girthMm={mm(read.value.nm)} thenMm={mm(last.taken.length.nm)} unit={own} words={showDay(last.day)} />}
            {typed?.kept?.length ? <Kept kept={typed.kept} /> : null}
          </span>
        )}
        {question && !isShown && (
          <button className={ladderTableStyles.diamondButton} type="button" onClick={props.onAsk}>
            <Diamond />
            <span className="visually-hidden">Question about this measure</span>
          </button>
        )}
      </div>
      {question && isShown && <MeasureCard question={question} unit={own} onAnswer={props.onAnswer} />}
    </li>
  );
}

/** The box of a second measuring. */
function AgainBox({ row, typed, unit, onTypeAgain, onPasteText, onBlur }: LineProps) {
  const own = typed?.unit ?? unit;
  const text = typed?.again ?? '';
  const read = text.trim() === '' ? undefined : readLength(text, own, true);
  const isRefused = read !== undefined && read.kind !== 'read';
  return (
    <div className={measuresStyles.again}>
      <span aria-hidden="true">again</span>
      <FigureBox
        label={`${capitalized(measureInWords(row.measure, row.side))}, ${nameOf(own)}, measured again`}
        text={text}
        look={isRefused ? 'refused' : text ? 'typed' : 'waiting'}
        goesOn={false}
        onType={onTypeAgain}
        onBlur={onBlur}
        onPasteText={(pasted) => onPasteText(pasted, true)}
      />
      {isRefused && <span className="refusal">{read.reason}</span>}
    </div>
  );
}

function MeasureCard({ question, unit, onAnswer }: { question: MeasureQuestion; unit: LengthUnit; onAnswer: LineProps['onAnswer'] }) {
  const { question: asked, reason } = questionAndReason(question);
  const choice = (answer: Answer, words: string, hint: string) => (
    <button className="button" type="button" onClick={() => onAnswer(answer)} onPointerDown={(event) => event.preventDefault()}>
      {words}
      <kbd>{hint}</kbd>
    </button>
  );
  return (
    <section className={`${questionCardStyles.question} ${measuresStyles.measureQuestion}`} aria-label={asked}>
      <p className={questionCardStyles.questionAsked} role="status">
        <Diamond /> <b>{asked}</b>
      </p>
      {reason && <p className={questionCardStyles.questionReason}>{reason}</p>}
      <div className={questionCardStyles.answers}>
        {choice('again', 'Type it again', 'Esc')}
        {question.wouldFit && choice('fits', `It is ${question.wouldFit}`, 'S')}
        {choice('keep', `Keep ${question.text} ${/[a-z"″]/i.test(question.text) ? '' : unit} as measured`.replace('  ', ' '), 'K')}
      </div>
    </section>
  );
}
