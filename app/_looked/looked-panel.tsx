import { timeLines } from '@/lib/observations/catalogue';
import { type FamilyReply, TOLD_WEAR, toldWear } from '@/lib/observations/family-reply';
import type { ObservedKind } from '@/lib/observations/kind';
import type { KeptObservation } from '@/lib/observations/observation';
import styles from './looked.module.css';
import { TimeLineChart } from './time-line';

/** Lines that a patient page shows; the others stand on the page of their own. */
const SHOWN = 6;

type Props = {
  readonly observations: readonly KeptObservation[];
  readonly replies: readonly FamilyReply[];
  readonly kinds: readonly ObservedKind[];
  readonly patientId: string;
};

/** What is looked at each time, as small lines over time, and how many marks on the skin are still there. */
export function LookedPanel({ observations, replies, kinds, patientId }: Props) {
  const lines = [...timeLines(observations, kinds), ...timeLines(toldWear(replies), [TOLD_WEAR])];
  const standing = observations.filter(({ place, gone }) => place && !gone).length;
  return (
    <section className="panel" aria-labelledby="looked-head">
      <div className="panel-head">
        <h2 id="looked-head">Looked at</h2>
        <a href={`/patients/${patientId}/looked`} data-soft="">
          Wear, skin, scar, motion
        </a>
      </div>
      {standing > 0 && <p>{standing === 1 ? 'One mark on the skin is still there.' : `${standing} marks on the skin are still there.`}</p>}
      {lines.length === 0 ? (
        standing === 0 && <p className="secondary">Nothing was looked at yet beside the measures.</p>
      ) : (
        <ul className={styles.lines}>
          {lines.slice(0, SHOWN).map((line) => (
            <TimeLineChart key={[line.kind.id, line.kind.version, line.item.id, line.side, line.choice].join(' ')} line={line} />
          ))}
        </ul>
      )}
    </section>
  );
}
