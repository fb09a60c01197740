import Link from 'next/link';
import { timeLines } from '@/lib/observations/catalogue';
import type { ObservedKind } from '@/lib/observations/kind';
import type { KeptObservation } from '@/lib/observations/observation';
import styles from './looked.module.css';
import { TimeLineChart } from './time-line';

/** Lines that a patient page shows; the others stand on the page of their own. */
const SHOWN = 6;

type Props = { readonly observations: readonly KeptObservation[]; readonly kinds: readonly ObservedKind[]; readonly patientId: string };

/** What is looked at each time, as small lines over time, and how many marks on the skin are open. */
export function LookedPanel({ observations, kinds, patientId }: Props) {
  const lines = timeLines(observations, kinds);
  const open = observations.filter(({ place, gone }) => place && !gone).length;
  return (
    <section className="panel" aria-labelledby="looked-head">
      <div className="panel-head">
        <h2 id="looked-head">Looked at</h2>
        <Link href={`/patients/${patientId}/looked`} prefetch={false}>
          Wear, skin, scar, motion
        </Link>
      </div>
      {open > 0 && <p>{open === 1 ? 'One mark on the skin is open.' : `${open} marks on the skin are open.`}</p>}
      {lines.length === 0 ? (
        open === 0 && <p className="secondary">Nothing was looked at yet beside the measures.</p>
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
