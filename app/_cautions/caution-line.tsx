import Link from 'next/link';
import type { LoadedPatient } from '@/app/_patient/load-patient';
import { cardStates, cautionLine } from '@/lib/cautions/caution-cards';

type Props = { readonly loaded: Pick<LoadedPatient, 'record' | 'analysis' | 'today'>; readonly patientId: string };

/** How a patient's caution cards stand, in a line, and those answered “yes” by name: they stay here until they are answered anew. */
export function CautionLine({ loaded: { record, analysis, today }, patientId }: Props) {
  const states = cardStates({ record, policy: analysis.policy, today });
  const standing = states.filter(({ present }) => present);
  return (
    <p className={standing.length > 0 ? 'caution-line standing' : 'caution-line'}>
      {standing.length > 0 && <b>{`${standing.map(({ card }) => card.title).join('; ')}. Refer to the prescriber. `}</b>}
      <Link href={`/patients/${patientId}/cautions`} prefetch={false}>
        {cautionLine(states)}
      </Link>
    </p>
  );
}
