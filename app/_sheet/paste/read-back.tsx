import { useEffect, useRef, useState } from 'react';
import type { SheetView } from '@/lib/entry/typed-view';
import type { Side } from '@/lib/ladder/limb';
import { measureInWords } from '@/lib/parts/measure';
import { capitalized } from '@/lib/units/capitalized';
import { nameOf, readLength } from '@/lib/units/read-length';
import { showLength } from '@/lib/units/show-length';
import { measureRows, ownOf, partsOf } from '@/lib/visit-form/read-measures';
import { cellKey, measureKey, type VisitForm } from '@/lib/visit-form/visit-form';
import styles from './paste.module.css';
import { localVoice, spoken } from './spoken';

/** The box in which a figure stands. */
type FigureBox = { readonly kind: 'rung'; readonly row: string } | { readonly kind: 'measure'; readonly where: string };

type ReadBackProps = {
  readonly view: SheetView;
  readonly form: VisitForm;
  readonly shown: Side;
  /** The figure to begin with: where the reading back was left. */
  readonly from: number;
  readonly onAt: (figure: number) => void;
  /** What was called out is another figure: it is typed again in its box. */
  readonly onDiffers: (where: FigureBox) => void;
  readonly onClose: () => void;
};

/** Each figure in large type, one at a time, for reading back to whoever holds the tape; spoken where the machine has a voice of its own. */
export function ReadBack({ view, form, shown, from, onAt, onDiffers, onClose }: ReadBackProps) {
  const box = useRef<HTMLFieldSetElement>(null);
  const [voice, setVoice] = useState<SpeechSynthesisVoice | null>(null);
  const [aloud, setAloud] = useState(false);
  const figures = [...figuresOf(view, shown), ...measuresOf(form)];
  const at = Math.min(from, Math.max(figures.length - 1, 0));
  const here = figures[at];
  useEffect(() => {
    box.current?.focus();
    return localVoice(setVoice);
  }, []);
  const words = here && `${here.placeWords}: ${here.girthWords}`;
  useEffect(() => {
    if (!aloud || !voice || !words) return;
    speechSynthesis.cancel();
    speechSynthesis.speak(spoken(words, voice));
    return () => speechSynthesis.cancel();
  }, [aloud, voice, words]);
  const go = (by: number) => onAt(Math.min(Math.max(at + by, 0), figures.length - 1));
  return (
    <section className={`panel ${styles.readBack}`} aria-label="Read back">
      <fieldset
        className={styles.readBackFigure}
        ref={box}
        tabIndex={-1}
        aria-label="Figure read back"
        onKeyDown={(event) => {
          if (event.key === 'Enter' || event.key === 'ArrowDown') go(1);
          else if (event.key === 'ArrowUp') go(-1);
          else if (event.key.toLowerCase() === 'd' && here) onDiffers(here.box);
          else if (event.key === 'Escape') onClose();
          else return;
          event.preventDefault();
        }}
      >
        {here ? (
          <>
            <p className={styles.readBackPlace}>{here.where}</p>
            <p className={styles.readBackGirth} aria-live="assertive">
              {here.girth}
            </p>
            <p className="secondary">
              {at + 1} of {figures.length}. Typed “{here.typed}”. Enter when it agrees, D when it differs.
            </p>
          </>
        ) : (
          <p>No figure of this side and no named measure is typed yet.</p>
        )}
      </fieldset>
      <div className="actions">
        <button className="button" type="button" onClick={() => go(-1)}>
          Before
        </button>
        <button className="button" type="button" onClick={() => go(1)}>
          Agrees, next
        </button>
        {here && (
          <button className="button" type="button" onClick={() => onDiffers(here.box)}>
            Differs <kbd>D</kbd>
          </button>
        )}
        {voice && (
          <button className="button" type="button" aria-pressed={aloud} onClick={() => setAloud(!aloud)}>
            {aloud ? 'Stop speaking' : 'Speak them'}
          </button>
        )}
        <button className="button" type="button" onClick={onClose}>
          Done
        </button>
      </div>
    </section>
  );
}

/** The named measures of the form, in the order in which they stand on the sheet. */
function measuresOf(form: VisitForm) {
  const rows = measureRows(partsOf([...(form.parts ?? []), ...(form.measures ?? [])]), ownOf(form.measures ?? []));
  return rows.flatMap(({ side, measure }) => {
    const typed = form.measures?.find((one) => one.side === side && one.measure === measure.id);
    const reading = typed && readLength(typed.text, typed.unit, true);
    if (reading?.kind !== 'read') return [];
    const name = measureInWords(measure, side);
    const girth = showLength(reading.value.nm / 1e6, typed?.unit ?? 'cm', 16);
    const unit = typed?.unit ?? 'cm';
    return [
      {
        box: { kind: 'measure' as const, where: measureKey({ side, measure: measure.id }) },
        where: capitalized(name),
        girth: `${girth} ${unit}`,
        typed: typed?.text ?? '',
        placeWords: name,
        girthWords: `${girth} ${nameOf(unit)}`,
      },
    ];
  });
}

function figuresOf(view: SheetView, side: Side) {
  const { sheet, rows } = view;
  return rows.flatMap((row) => {
    const typed = sheet.cells[cellKey(side, row.key)]?.text ?? '';
    const reading = readLength(typed, sheet.unit, true);
    const at = row.at[side];
    if (reading.kind !== 'read') return [];
    const place = at ? showLength(at.nm / 1e6, sheet.unit, 16) : row.name;
    const girth = showLength(reading.value.nm / 1e6, sheet.unit, 16);
    const words = nameOf(sheet.unit);
    return [
      {
        box: { kind: 'rung' as const, row: row.key },
        where: `${side === 'left' ? 'Left' : 'Right'} ${sheet.limb} at ${place} ${sheet.unit}`,
        girth: `${girth} ${sheet.unit}`,
        typed,
        placeWords: `${place} ${words}`,
        girthWords: `${girth} ${words}`,
      },
    ];
  });
}
