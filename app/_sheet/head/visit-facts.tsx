import type { Known } from '@/lib/entry/entry-data';
import { takenFor } from '@/lib/record/same-person';
import { readLength } from '@/lib/units/read-length';
import { echoLength } from '@/lib/units/show-length';
import type { VisitForm } from '@/lib/visit-form/visit-form';
import { MeasuredBox } from './measured-box';
import styles from './set-up.module.css';

type FactsProps = {
  readonly form: VisitForm;
  readonly known: Pick<Known, 'today' | 'measurers' | 'colleagues'>;
  readonly onField: (change: Partial<VisitForm>) => void;
};

/** Units of height and weight, posture, who measures, day, time, and a note. */
export function VisitFacts({ form, known, onField }: FactsProps) {
  const alike = takenFor(form.measurer, known.measurers);
  return (
    <>
      <label className="field">
        <span>Height in</span>
        <select
          id="set-up-height-unit"
          value={form.heightUnit}
          onChange={({ target }) => onField({ heightUnit: target.value === 'in' ? 'in' : 'cm' })}
        >
          <option value="in">inches</option>
          <option value="cm">centimetres</option>
        </select>
      </label>
      <label className="field">
        <span>Weight in</span>
        <select
          id="set-up-mass-unit"
          value={form.massUnit}
          onChange={({ target }) => onField({ massUnit: target.value === 'lb' ? 'lb' : 'kg' })}
        >
          <option value="lb">pounds</option>
          <option value="kg">kilograms</option>
        </select>
      </label>
      <label className="field">
        <span>Posture</span>
        <input
          type="text"
          list="postures"
          value={form.posture}
          maxLength={60}
          onChange={({ target }) => onField({ posture: target.value })}
        />
        <datalist id="postures">
          <option value="lying" />
          <option value="sitting" />
          <option value="standing" />
        </datalist>
      </label>
      <label className="field">
        <span>Measured by</span>
        <input
          type="text"
          value={form.measurer}
          maxLength={60}
          autoComplete="off"
          list="colleagues"
          placeholder="name, or what they are: carer at home"
          aria-describedby={alike ? 'measurer-alike' : undefined}
          onChange={({ target }) => onField({ measurer: target.value })}
        />
        <datalist id="colleagues">
          {(known.colleagues ?? []).map((name) => (
            <option key={name} value={name} />
          ))}
        </datalist>
      </label>
      {alike && (
        <p className="field" id="measurer-alike" role="status">
          Taken as {alike}, who measured before. If it is somebody else, only whole names tell the two apart, here and at the earlier
          visits.
          <button className="button" type="button" onClick={() => onField({ measurer: alike })}>
            It is {alike}
          </button>
        </p>
      )}
      <label className="field">
        <span>Day</span>
        <input id="box-day" type="date" max={known.today} value={form.day} onChange={({ target }) => onField({ day: target.value })} />
      </label>
      <label className="field">
        <span>Time</span>
        <input id="box-time" type="time" value={form.time} onChange={({ target }) => onField({ time: target.value })} />
      </label>
      <label className={`field ${styles.note}`}>
        <span>Note</span>
        <textarea rows={2} value={form.note} maxLength={4000} onChange={({ target }) => onField({ note: target.value })} />
      </label>
    </>
  );
}

type SinglesProps = { readonly form: VisitForm; readonly unit: 'in' | 'cm'; readonly onField: FactsProps['onField'] };

/** Readings with a name that lie on no ladder: heel–instep girth, waist, hip. */
export function SingleReadings({ form, unit, onField }: SinglesProps) {
  const set = (index: number, change: { name?: string; text?: string }) =>
    onField({ readings: form.readings.map((one, at) => (at === index ? { ...one, ...change } : one)) });
  const keyed = form.readings.map((reading, index) => ({ reading, index, key: `reading-${index}` }));
  const names = ['heel–instep girth', 'waist', 'hip'].filter((name) => form.readings.every((one) => one.name !== name));
  return (
    <section className={styles.singleReadings} aria-label="Single readings">
      {keyed.map(({ reading, index, key }) => (
        <div className={styles.singleReading} key={key}>
          <label className="field">
            <span>Reading</span>
            <input
              id={`box-reading-name-${index}`}
              type="text"
              list="single-names"
              maxLength={60}
              value={reading.name}
              onChange={({ target }) => set(index, { name: target.value })}
            />
          </label>
          <MeasuredBox
            id={`box-reading-${index}`}
            label={`${reading.name || 'Figure'}, ${reading.unit}`}
            text={reading.text}
            read={(text) => readLength(text, reading.unit, true)}
            echo={({ nm, unit }) => echoLength(nm / 1e6, unit)}
            onType={(text) => set(index, { text })}
          />
        </div>
      ))}
      <datalist id="single-names">
        {names.map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
      <button
        id="add-reading"
        className="button"
        type="button"
        onClick={() => onField({ readings: [...form.readings, { name: names[0] ?? '', text: '', unit }] })}
      >
        Add a single reading <kbd>R</kbd>
      </button>
    </section>
  );
}
