import { useState } from 'react';
import type { Known } from '@/lib/entry/entry-data';
import { isLandmarkOf, LIMBS, type LimbKind, placeInWords, type Side } from '@/lib/ladder/limb';
import type { LengthUnit } from '@/lib/units/length';
import { readLength } from '@/lib/units/read-length';
import { bodyUnitsBeside, intervalIn, withGrid } from '@/lib/visit-form/change-set-up';
import { firstSheet } from '@/lib/visit-form/first-sheet';
import { type LimbSheet, typedCount, type VisitForm } from '@/lib/visit-form/visit-form';
import styles from './set-up.module.css';
import { VisitFacts } from './visit-facts';

type PanelProps = {
  readonly form: VisitForm;
  readonly group: number;
  readonly known: Pick<Known, 'today' | 'measurers'>;
  readonly onField: (change: Partial<VisitForm>) => void;
  readonly onSheet: (change: (sheet: LimbSheet) => LimbSheet, words?: string) => void;
  readonly onClose: () => void;
};

/** Everything that is set before measuring: which limbs, the ruler, and who measures how and when. Changes hold at once. */
export function SetUpPanel({ form, group, known, onField, onSheet, onClose }: PanelProps) {
  const sheet = form.sheets[group];
  if (!sheet) return null;
  const unused = (['leg', 'arm'] as const).filter((limb) => form.sheets.every((one) => one.limb !== limb));
  return (
    <section className={`panel ${styles.setUpPanel}`} id="set-up" aria-label="Set-up">
      <div className={styles.setUpGrid}>
        <Limbs sheet={sheet} onSheet={onSheet} />
        <Zero sheet={sheet} onSheet={onSheet} />
        <Grid
          key={`${sheet.unit}${sheet.interval}`}
          sheet={sheet}
          onSheet={onSheet}
          onUnit={(unit) => onField(bodyUnitsBeside(form, unit))}
        />
        <Ends sheet={sheet} onSheet={onSheet} />
        <VisitFacts form={form} known={known} onField={onField} />
      </div>
      <div className="actions">
        <button className="button" type="button" onClick={onClose}>
          Done
        </button>
        {unused.map((limb) => (
          <button
            key={limb}
            className="button"
            type="button"
            onClick={() => onField({ sheets: [...form.sheets, firstSheet(limb, sheet.unit)] })}
          >
            Measure the {limb}s too
          </button>
        ))}
      </div>
    </section>
  );
}

type Part = { readonly sheet: LimbSheet; readonly onSheet: PanelProps['onSheet'] };

function Limbs({ sheet, onSheet }: Part) {
  const choices = (['leg', 'arm'] as const).flatMap((limb) =>
    (['both', 'right', 'left'] as const).map((which) => ({
      value: `${limb} ${which}`,
      words: which === 'both' ? `Both ${limb}s` : `${which === 'left' ? 'Left' : 'Right'} ${limb}`,
    })),
  );
  const now = `${sheet.limb} ${sheet.sides.length > 1 ? 'both' : sheet.sides[0]}`;
  const typed = sheet.sides.some((side) => typedCount(sheet, side) > 0);
  return (
    <label className="field">
      <span>Limbs</span>
      <select
        value={now}
        onChange={({ target }) => {
          const [limb, which] = target.value.split(' ') as [LimbKind, Side | 'both'];
          const sides: Side[] = which === 'both' ? ['right', 'left'] : [which];
          onSheet(
            (one) => (one.limb === limb ? { ...one, sides } : { ...firstSheet(limb, one.unit, sides), interval: one.interval }),
            'change the limbs',
          );
        }}
      >
        {choices.map(({ value, words }) => (
          <option key={value} value={value} disabled={typed && !value.startsWith(sheet.limb)}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

/** Zeros of a limb that ends early: landmarks to count down from, and the end to count up from. Source: common practice. */
const ZEROS_OF_RESIDUAL: Readonly<Record<LimbKind, readonly string[]>> = {
  leg: ['middle of the patellar tendon', 'ischial tuberosity', 'perineum', 'end of the residual limb'],
  arm: ['outer epicondyle', 'acromion', 'end of the residual limb'],
};

function Zero({ sheet, onSheet }: Part) {
  const [inWords, setInWords] = useState(false);
  const isLandmark = isLandmarkOf(sheet.limb, sheet.zero);
  const other = !isLandmark && (inWords || sheet.zero !== '');
  return (
    <>
      <label className="field">
        <span>Zero</span>
        <select
          value={other ? 'other' : sheet.zero}
          onChange={({ target }) => {
            setInWords(target.value === 'other');
            onSheet((one) => ({ ...one, zero: target.value === 'other' ? '' : target.value }), 'change the zero');
          }}
        >
          {sheet.zero === '' && !other && <option value="">Choose</option>}
          {LIMBS[sheet.limb].landmarks.map((landmark) => (
            <option key={landmark} value={landmark}>
              {placeInWords(landmark)}
            </option>
          ))}
          <option value="other">another place</option>
        </select>
        <datalist id="zero-places">
          {ZEROS_OF_RESIDUAL[sheet.limb].map((place) => (
            <option key={place} value={place} />
          ))}
        </datalist>
        {other && (
          <input
            type="text"
            aria-label="Zero, in words"
            placeholder="where zero is"
            list="zero-places"
            maxLength={60}
            value={sheet.zero}
            onChange={({ target }) => onSheet((one) => ({ ...one, zero: target.value }))}
          />
        )}
      </label>
      <label className="field">
        <span>Direction</span>
        <select
          value={sheet.direction}
          onChange={({ target }) =>
            onSheet((one) => ({ ...one, direction: target.value === 'up' ? 'up' : 'down' }), 'change the direction')
          }
        >
          <option value="up">upward, to the trunk</option>
          <option value="down">downward, from the trunk</option>
        </select>
      </label>
    </>
  );
}

function Grid({ sheet, onSheet, onUnit }: Part & { readonly onUnit: (unit: LengthUnit) => void }) {
  const [text, setText] = useState(sheet.interval);
  const reading = text.trim() === '' ? undefined : readLength(text, sheet.unit, true);
  const refused = reading && reading.kind !== 'read' ? reading.reason : '';
  const set = (interval: string, unit: LengthUnit) =>
    onSheet(
      (one) => withGrid(one, { interval, unit, fromZero: one.fromZero }),
      unit === sheet.unit ? 'change the interval' : 'change the unit of the tape',
    );
  return (
    <>
      <label className="field">
        <span>Interval, {sheet.unit}</span>
        <input
          type="text"
          id="box-interval"
          inputMode="decimal"
          value={text}
          maxLength={20}
          aria-invalid={refused !== ''}
          onChange={({ target }) => setText(target.value)}
          onBlur={() => set(text, sheet.unit)}
        />
        <span className="refusal">{refused}</span>
      </label>
      <label className="field">
        <span>Unit of the tape</span>
        <select
          id="set-up-unit"
          value={sheet.unit}
          onChange={({ target }) => {
            const unit = target.value === 'in' ? 'in' : 'cm';
            set(intervalIn(unit), unit);
            onUnit(unit);
          }}
        >
          <option value="in">inches</option>
          <option value="cm">centimetres</option>
        </select>
      </label>
    </>
  );
}

function Ends({ sheet, onSheet }: Part) {
  const tick = (words: string, on: boolean, change: (one: LimbSheet, on: boolean) => LimbSheet) => (
    <label className={styles.tick}>
      <input type="checkbox" checked={on} onChange={({ target }) => onSheet((one) => change(one, target.checked))} />
      {words}
    </label>
  );
  return (
    <fieldset className={`field ${styles.ends}`}>
      <legend>Ends of the ladder</legend>
      {tick('First girth at zero itself', sheet.fromZero, (one, on) => ({ ...one, fromZero: on }))}
      {tick('Last girth at the far landmark', sheet.endRow, (one, on) => ({ ...one, endRow: on }))}
      {sheet.sides.length > 1 && tick('Landmarks differ by side', sheet.apart, (one, on) => ({ ...one, apart: on }))}
    </fieldset>
  );
}
