import { type RefObject, useState } from 'react';
import type { LengthUnit } from '@/lib/units/length';
import type { DraftState } from './draft-keeper';
import { SaveLine } from './save-line';
import type { SheetData } from './sheet-data';
import type { CellPlace, SheetState } from './sheet-state';
import { ThumbKeys } from './thumb-keys';

type BarProps = {
  readonly data: SheetData;
  readonly state: SheetState;
  readonly unit: LengthUnit;
  readonly draft: DraftState;
  readonly waiting: number;
  readonly total: number;
  readonly places: number;
  readonly open: number;
  readonly notes: readonly string[];
  readonly twice: boolean;
  readonly busy: boolean;
  readonly finishWords: string;
  readonly finishButton: RefObject<HTMLButtonElement | null>;
  readonly onType: (place: CellPlace, text: string) => void;
  readonly onNext: (place: CellPlace) => void;
  readonly onUndo: () => void;
  readonly onTwice: () => void;
  readonly onPaste: () => void;
  readonly onReadBack: () => void;
  readonly onFinish: () => void;
};

/** The bar that stays at the foot of the window: how the draft stands, what else the sheet can do, and the way to finish. */
export function SheetBar(props: BarProps) {
  const { data, state, draft, total, places, open, notes, finishWords, busy } = props;
  const [more, setMore] = useState(false);
  const questions = `${open} question${open === 1 ? '' : 's'}`;
  const counts = `${total} of ${places} girths${open === 0 ? '' : `, ${questions}`}`;
  const signIn = `/sign-in?to=${encodeURIComponent(`/patients/${data.patientId}`)}`;
  const then = (deed: () => void) => () => {
    setMore(false);
    deed();
  };
  return (
    <div className="sheet-bar">
      <ThumbKeys unit={props.unit} place={state.editing?.place ?? null} form={state.form} onType={props.onType} onNext={props.onNext} />
      {notes.length > 0 && (
        <p className="finish-note" role="alert">
          {notes.join(' ')} Press {finishWords} again to leave it so.
        </p>
      )}
      <div className="sheet-bar-row">
        <SaveLine
          state={draft}
          waiting={props.waiting}
          counts={counts}
          short={open === 0 ? `${total} of ${places}` : `${questions} open`}
        />
        {draft.is === 'unsaved' && draft.why === 'signed-out' && (
          <a className="button" href={signIn} target="_blank" rel="noreferrer">
            Sign in again
          </a>
        )}
        {state.undo && (
          <button className="button" type="button" onClick={props.onUndo} title={state.undo.words}>
            Undo
          </button>
        )}
        <div className={more ? 'more open' : 'more'}>
          <button className="button more-button" type="button" aria-expanded={more} onClick={() => setMore(!more)}>
            More
          </button>
          <div className="more-items">
            <button className="button" type="button" onClick={then(props.onPaste)}>
              Paste a column
            </button>
            <button className="button" type="button" aria-pressed={props.twice} onClick={then(props.onTwice)}>
              Measure again
            </button>
            <button className="button" type="button" onClick={then(props.onReadBack)}>
              Read back
            </button>
          </div>
        </div>
        <button className="button main" type="button" ref={props.finishButton} aria-disabled={busy} onClick={props.onFinish}>
          {busy ? 'Saving…' : finishWords}
        </button>
      </div>
    </div>
  );
}
