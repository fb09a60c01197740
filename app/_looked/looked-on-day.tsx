import { kindsOf, type OwnKind } from '@/lib/observations/catalogue';
import type { KeptObservation } from '@/lib/observations/observation';
import type { CalendarDay } from '@/lib/units/calendar-day';
import styles from './looked.module.css';
import { lookedInWords } from './looked-words';

type Props = {
  readonly observations: readonly KeptObservation[];
  readonly own: readonly OwnKind[];
  readonly patientId: string;
  readonly day: CalendarDay;
  readonly mayWrite: boolean;
};

/** What was looked at on the day of a visit, and the way to what was not yet. */
export function LookedOnDay({ observations, own, patientId, day, mayWrite }: Props) {
  const kinds = kindsOf(own);
  const seen = observations.filter((one) => one.day === day);
  const labelOf = (id: string) => kinds.find((kind) => kind.id === id)?.label ?? id;
  const open = kinds.filter(({ id }) => own.every((one) => one.id !== id || one.asked) && seen.every((one) => one.kind !== id));
  if (seen.length === 0 && !mayWrite) return null;
  return (
    <p className={styles.onDay}>
      <b>Looked at</b>{' '}
      {seen.length === 0
        ? 'nothing yet on this day.'
        : `${seen.map((one) => `${labelOf(one.kind)}: ${lookedInWords(one, kinds)}`).join('. ')}.`}{' '}
      {mayWrite && open.length > 0 && (
        <a href={`/patients/${patientId}/looked?day=${day}`} data-soft="">
          {`Add ${open.map(({ label }) => label.toLowerCase()).join(', ')}`}
        </a>
      )}
    </p>
  );
}
