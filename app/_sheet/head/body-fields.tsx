import type { SheetData } from '@/lib/entry/entry-data';
import { keptFigure, typedFigure, visitQuestions } from '@/lib/entry/visit-questions';
import { typedLandmarks } from '@/lib/forms/entry-rows';
import { type LimbSheet, type MarkName, markKey, type VisitForm } from '@/lib/forms/visit-form';
import { placeInWords, type Side } from '@/lib/ladder/limb';
import { capitalized } from '@/lib/units/capitalized';
import { mm } from '@/lib/units/length';
import { echoMass, readMass } from '@/lib/units/mass';
import { readLength } from '@/lib/units/read-length';
import { echoLength } from '@/lib/units/show-length';
import { MeasuredBox } from './measured-box';
import styles from './set-up.module.css';

type FieldsProps = {
  readonly form: VisitForm;
  readonly data: SheetData;
  readonly group: number;
  readonly setUpFrom: readonly string[];
  readonly onField: (change: Partial<VisitForm>) => void;
  readonly onSheet: (change: (sheet: LimbSheet) => LimbSheet) => void;
  readonly onDone: () => void;
};

/** Height, weight, landmarks on the ruler and the fold's height: typed new at every visit. Enter goes to the next box, then to the ladder. */
export function BodyFields({ form, data, group, setUpFrom, onField, onSheet, onDone }: FieldsProps) {
  const sheet = form.sheets[group];
  if (!sheet) return null;
  const marks = marksOf(sheet);
  const order = ['height', 'weight', ...marks.map(({ id }) => id)];
  const next = (id: string) => {
    const after = order[order.indexOf(id) + 1];
    if (after) document.getElementById(`box-${after}`)?.focus();
    else onDone();
  };
  const questions = visitQuestions(form, data);
  const answers = (kind: 'height' | 'weight') => {
    const question = questions.find((one) => one.kind === kind);
    const onKeep = () => onField(keptFigure(form, kind, data.who, new Date().toISOString()));
    return { asked: question?.message, wouldFit: question?.wouldFit, onKeep };
  };
  return (
    <div className={styles.bodyFields} data-body-fields="">
      <MeasuredBox
        id="box-height"
        label={`Height, ${form.heightUnit}`}
        text={form.height}
        read={(text) => readLength(text, form.heightUnit)}
        echo={({ nm, unit }) => echoLength(mm(nm), unit)}
        {...answers('height')}
        onType={(text) => onField(typedFigure(form, 'height', text))}
        onEnter={() => next('height')}
      />
      <MeasuredBox
        id="box-weight"
        label={`Weight, ${form.massUnit}`}
        text={form.weight}
        read={(text) => readMass(text, form.massUnit)}
        echo={echoMass}
        {...answers('weight')}
        onType={(text) => onField(typedFigure(form, 'weight', text))}
        onEnter={() => next('weight')}
      />
      {marks.map(({ id, label, side, mark }) => (
        <MeasuredBox
          key={id}
          id={`box-${id}`}
          label={label}
          text={sheet.marks[markKey(side, mark)] ?? ''}
          read={(text) => readLength(text, sheet.unit, true)}
          echo={({ nm, unit }) => echoLength(mm(nm), unit)}
          onType={(text) => onSheet((one) => withMark(one, side, mark, text))}
          onEnter={() => next(id)}
        />
      ))}
      <p className={styles.carried}>
        {setUpFrom.map((line) => (
          <span key={line}>{line}</span>
        ))}
      </p>
    </div>
  );
}

type Mark = { readonly id: string; readonly label: string; readonly side: Side; readonly mark: MarkName };

function marksOf(sheet: LimbSheet): Mark[] {
  const names: { mark: MarkName; label: string }[] = typedLandmarks(sheet).map((landmark) => ({
    mark: landmark,
    label: `${sheet.apart ? shortName(landmark) : capitalized(placeInWords(landmark))} at`,
  }));
  if (sheet.limb === 'leg') names.push({ mark: 'floor', label: sheet.apart ? 'fold above floor' : 'Fold above floor' });
  const sides = sheet.apart ? sheet.sides : sheet.sides.slice(0, 1);
  return sides.flatMap((side) =>
    names.map(({ mark, label }) => ({
      id: `${side}-${mark}`,
      label: `${sheet.apart ? `${capitalized(side)} ` : ''}${label}, ${sheet.unit}`,
      side,
      mark,
    })),
  );
}

/** A mark on one side, or on both where both are typed once. */
function withMark(sheet: LimbSheet, side: Side, mark: MarkName, text: string): LimbSheet {
  const sides = sheet.apart ? [side] : sheet.sides;
  return { ...sheet, marks: { ...sheet.marks, ...Object.fromEntries(sides.map((one) => [markKey(one, mark), text])) } };
}

/** The word that tells a landmark from its neighbours: `fold`, `knee`, `elbow`. */
function shortName(landmark: MarkName): string {
  const words = placeInWords(landmark).split(' ');
  return words.at(words.at(-1) === 'fold' ? -1 : 0) ?? '';
}
