import type { SheetData } from '@/lib/entry/entry-data';
import { keptFigure, typedFigure, type VisitQuestion } from '@/lib/entry/visit-question';
import { mm } from '@/lib/units/length';
import { echoMass, readMass } from '@/lib/units/mass';
import { readLength } from '@/lib/units/read-length';
import { echoLength } from '@/lib/units/show-length';
import type { VisitForm } from '@/lib/visit-form/visit-form';
import { MeasuredBox } from './measured-box';
import styles from './set-up.module.css';

type FieldsProps = {
  readonly form: VisitForm;
  readonly data: SheetData;
  /** What is asked about the visit. */
  readonly questions: readonly VisitQuestion[];
  readonly setUpFrom: readonly string[];
  readonly onField: (change: Partial<VisitForm>) => void;
  readonly onDone: () => void;
};

/** Height and weight: typed new at every visit. Enter goes to the next box, then to the first row of the table. */
export function BodyFields({ form, data, questions, setUpFrom, onField, onDone }: FieldsProps) {
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
        onEnter={() => document.getElementById('box-weight')?.focus()}
      />
      <MeasuredBox
        id="box-weight"
        label={`Weight, ${form.massUnit}`}
        text={form.weight}
        read={(text) => readMass(text, form.massUnit)}
        echo={echoMass}
        {...answers('weight')}
        onType={(text) => onField(typedFigure(form, 'weight', text))}
        onEnter={onDone}
      />
      <p className={styles.carried}>
        {setUpFrom.map((line) => (
          <span key={line}>{line}</span>
        ))}
      </p>
    </div>
  );
}
