import clsx from 'clsx';
import type { LoadedPatient } from '@/app/_record/load-patient';
import { cardStates, cautionLine } from '@/lib/cautions/caution-cards';
import { cautionAbout } from './caution-about';
import styles from './cautions.module.css';

type Props = { readonly loaded: Pick<LoadedPatient, 'analysis'>; readonly patientId: string };

/** How a patient's caution cards stand, in a line, and those answered “yes” by name: they stay here until they are answered anew. */
export function CautionLine({ loaded: { analysis }, patientId }: Props) {
  const states = cardStates(cautionAbout(analysis));
  const standing = states.filter(({ present }) => present);
  const stops = standing.some(({ card }) => card.says !== 'ask the prescriber');
  return (
    <p
      className={clsx(styles.cautionLine, standing.length > 0 && styles.standing)}
      data-caution-line={standing.length > 0 ? 'standing' : 'clear'}
    >
      {standing.length > 0 && (
        <b>{`${standing.map(({ card }) => card.title).join('; ')}. ${stops ? 'Orders and hand-overs are held until the prescriber has answered. ' : 'Tell the prescriber. '}`}</b>
      )}
      <a href={`/patients/${patientId}/cautions`} data-soft="">
        {cautionLine(states)}
      </a>
    </p>
  );
}
