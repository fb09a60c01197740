'use client';

import { type ReactNode, useMemo, useRef, useState } from 'react';
import { useDraft } from '@/app/_draft/use-draft';
import type { Asked, ServerAsks } from '@/lib/entry/asked-by-server';
import { changedFigures } from '@/lib/entry/changed-figures';
import type { DraftContent, SheetData } from '@/lib/entry/entry-data';
import type { CellPlace } from '@/lib/entry/entry-state';
import { tapedWhen } from '@/lib/entry/taped-when';
import { isSetUp, type LimbSheet, typedCount, type VisitForm } from '@/lib/visit-form/visit-form';
import { AddPlace } from './add-place';
import { Announced } from './announced';
import { SecondPartMissing } from './bar/second-part-missing';
import { SheetBar } from './bar/sheet-bar';
import { EndLine } from './end-line';
import { BodyFields } from './head/body-fields';
import { SecondVisit } from './head/second-visit';
import { SetUpLine } from './head/set-up-line';
import { SetUpPanel } from './head/set-up-panel';
import { SheetHead } from './head/sheet-head';
import { SingleReadings } from './head/visit-facts';
import { LeftOut } from './left-out';
import { LimbSwitch } from './limb-switch';
import { measureBoxId } from './measures/measure-box-id';
import { RefusedBox } from './refused-box';
import styles from './sheet.module.css';
import { ClinicClockOf } from './table/clinic-clock';
import { girthOf, LadderTable } from './table/ladder-table';
import { MarkRows } from './table/mark-rows';
import { QuestionCard } from './table/question-card';
import { markBoxes, markId } from './table/sheet-marks';
import { type Finish, useFinish } from './use-finish';
import { useSecondPart } from './use-second-part';
import { useSheet } from './use-sheet';

type SheetProps = {
  readonly data: SheetData;
  readonly finishWords: string;
  readonly finish: Finish;
  readonly top?: (form: VisitForm) => ReactNode;
};

type Panel = 'set-up' | 'paste' | 'read-back' | null;

/** The ladder sheet: set-up, body, table, questions, outline, and the bar that keeps and finishes. */
export function Sheet({ data: opened, finishWords, finish, top }: SheetProps) {
  const [asked, setAsked] = useState<(ServerAsks & Asked) | null>(null);
  const data = useMemo(() => (asked ? { ...opened, ...asked.known } : opened), [opened, asked]);
  const [panel, setPanel] = useState<Panel>(isSetUp(data.form) ? null : 'set-up');
  const [readBackFrom, setReadBackFrom] = useState(0);
  const [twice, setTwice] = useState(false);
  const [pasted, setPasted] = useState<{ readonly text: string; readonly from: CellPlace | null }>({ text: '', from: null });
  const [submissionId, setSubmissionId] = useState(data.submissionId);
  const finishButton = useRef<HTMLButtonElement>(null);
  /** For a box that is only now being put on the page; one that stands there is focused at once, before the next key. */
  const focusBox = (id: string) => setTimeout(() => document.getElementById(id)?.focus(), 0);
  const { part, isMissing } = useSecondPart();
  const sheet = useSheet(data, asked, part, {
    onFinished: () => finishButton.current?.focus(),
    onPlace: () => document.getElementById('box-place')?.focus(),
    onSingle: () => document.getElementById('add-reading')?.focus(),
    onReadBack: () => setPanel('read-back'),
    onSetUp: () => setPanel('set-up'),
    onUnit: () => {
      setPanel('set-up');
      focusBox('set-up-unit');
    },
  });
  const { state, dispatch, view, group } = sheet;
  const { form } = state;
  const content = { form, submissionId, ...(data.base === undefined ? {} : { base: data.base }) };
  const takeOver = (other: DraftContent) => {
    dispatch({ kind: 'replace', form: other.form });
    setSubmissionId(other.submissionId);
  };
  const draft = useDraft(opened, content, takeOver);
  const onField = (change: Partial<VisitForm>) => dispatch({ kind: 'field', change });
  const onSheet = (change: (one: LimbSheet) => LimbSheet, words?: string) =>
    dispatch({ kind: 'sheet', group, change, ...(words ? { words } : {}) });

  const openSetUp = () => setPanel('set-up');
  const finishing = useFinish({ data, form, part, draft, submissionId, asked, setAsked, finish, sheet, openSetUp });

  if (draft.isOpening) return <p role="status">Asking the server how this sheet stands now…</p>;
  if (!view) return null;
  const typed = view.sheet.sides.map((side) => typedCount(view.sheet, side));
  const total = typed.reduce((sum, one) => sum + one, 0);
  const waiting = changedFigures(form, draft.keeper.keptForm());
  return (
    <div className={styles.sheet}>
      <SheetHead
        data={data}
        view={view}
        shown={sheet.shown}
        editing={state.editing?.place}
        when={data.draftKind === 'visit' ? tapedWhen(form) : ''}
        onLeave={async () => {
          if (await draft.keeper.flush()) window.location.assign(`/patients/${data.patientId}`);
        }}
      />
      <SetUpLine form={form} sheet={view.sheet} open={panel === 'set-up'} onChange={() => setPanel(panel === 'set-up' ? null : 'set-up')} />
      {top?.(form)}
      <RefusedBox refusals={finishing.refusals} onGo={finishing.goTo} />
      {panel === 'set-up' && (
        <SetUpPanel form={form} group={group} known={data} onField={onField} onSheet={onSheet} onClose={() => setPanel(null)} />
      )}
      <BodyFields
        form={form}
        data={data}
        questions={part?.visitQuestions(form, data) ?? []}
        setUpFrom={data.setUpFrom}
        onField={onField}
        onDone={() => {
          const first = markBoxes(view.sheet)[0];
          if (first) sheet.setShown(first.side);
          const box = first && document.getElementById(markId(first.side, first.mark));
          if (box) box.focus();
          else sheet.startTyping();
        }}
      />
      <SecondVisit form={form} known={data} onField={onField} />
      <LimbSwitch form={form} group={group} view={view} shown={sheet.shown} onGroup={sheet.setGroup} onSide={sheet.setShown} />
      <LeftOut sheet={view.sheet} onSheet={onSheet} />
      <div className={styles.sheetBody}>
        <ClinicClockOf value={data}>
          <LadderTable
            state={state}
            view={view}
            group={group}
            shown={sheet.shown}
            twice={twice}
            question={sheet.question}
            onAnswer={(given) => sheet.answer(given)}
            onMore={sheet.nextQuestion}
            onAsk={sheet.ask}
            marks={<MarkRows sheet={view.sheet} twice={twice} onSheet={onSheet} onSide={sheet.setShown} onDone={sheet.startTyping} />}
            handlers={{
              onType: (place, text) => dispatch({ kind: 'type', place, text }),
              onFocus: (place) => {
                sheet.setShown(place.side);
                dispatch({ kind: 'focus', place });
              },
              onBlur: () => {
                dispatch({ kind: 'blur' });
                if (draft.keeper.isAhead()) void draft.keeper.flush();
              },
              onKey: sheet.onKey,
              onPasteText: (text, from) => {
                if (!/[\n\t;]/.test(text.trim())) return false;
                setPasted({ text, from });
                setPanel('paste');
                return true;
              },
            }}
          />
        </ClinicClockOf>
        <aside className={styles.sheetSide}>
          {sheet.question && (
            <QuestionCard
              question={sheet.question}
              girth={girthOf(view.sheet, sheet.question)}
              unit={view.sheet.unit}
              more={view.questions.length - 1}
              onAnswer={(given) => sheet.answer(given)}
              onMore={sheet.nextQuestion}
            />
          )}
          {part && <part.SheetOutline view={view} shown={sheet.shown} />}
        </aside>
      </div>
      <AddPlace
        sheet={view.sheet}
        onSheet={onSheet}
        onInsert={state.editing ? () => state.editing && sheet.insertRung(state.editing.place) : undefined}
        onAdded={(row) => sheet.focus({ group, side: sheet.shown, row, again: false })}
      />
      <SingleReadings form={form} unit={view.sheet.unit} onField={onField} />
      <ClinicClockOf value={data}>
        {part && (
          <part.MeasureSection
            form={form}
            data={data}
            unit={view.sheet.unit}
            twice={twice}
            onField={onField}
            onAct={(change, words) => dispatch({ kind: 'measures', change, words })}
            onReadBack={() => setPanel('read-back')}
            onLeave={() => {
              if (draft.keeper.isAhead()) void draft.keeper.flush();
            }}
            onDone={() => finishButton.current?.focus()}
          />
        )}
      </ClinicClockOf>
      {part && (
        <part.SheetPanels
          panel={panel}
          pasted={pasted}
          twice={twice}
          view={view}
          form={form}
          shown={sheet.shown}
          from={readBackFrom}
          onAt={setReadBackFrom}
          onPaste={(change, words) => {
            onSheet(change, words);
            setPanel(null);
          }}
          onDiffers={(where) => {
            setPanel(null);
            if (where.kind === 'rung') sheet.focus({ group, side: sheet.shown, row: where.row, again: false });
            else focusBox(measureBoxId(where.where));
          }}
          onClose={() => setPanel(null)}
        />
      )}
      <Announced state={state} view={view} question={sheet.question} />
      <SheetBar
        data={data}
        state={state}
        unit={view.sheet.unit}
        draft={draft}
        waiting={waiting}
        total={total}
        places={view.rows.length * view.sheet.sides.length}
        open={view.questions.length}
        notes={finishing.notes}
        twice={twice}
        busy={finishing.busy}
        finishWords={finishWords}
        finishButton={finishButton}
        onType={(place, text) => dispatch({ kind: 'type', place, text })}
        onNext={sheet.enter}
        onUndo={() => dispatch({ kind: 'undo' })}
        onRedo={() => dispatch({ kind: 'redo' })}
        onTwice={() => setTwice(!twice)}
        onPaste={() => {
          setPasted({ text: '', from: null });
          setPanel('paste');
        }}
        onReadBack={() => setPanel('read-back')}
        onFinish={finishing.send}
      >
        {isMissing && <SecondPartMissing />}
        {part && (
          <part.OtherDraft
            data={data}
            form={form}
            draft={draft}
            takeOver={takeOver}
            onNewSubmission={() => setSubmissionId(crypto.randomUUID())}
          />
        )}
        {sheet.ended && <EndLine view={view} ended={sheet.ended} finishWords={finishWords} onGoOn={sheet.goOn} />}
      </SheetBar>
    </div>
  );
}
