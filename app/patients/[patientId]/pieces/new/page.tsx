import type { Metadata } from 'next';
import { requireRole } from '@/app/_auth/therapist';
import { PatientTitle } from '@/app/_patient/patient-title';
import { cutLadders, ladderChoices } from '@/app/_piece/cut-ladders';
import { PieceForm } from '@/app/_piece/piece-form';
import { loadPatient } from '@/app/_record/load-patient';
import { ProtocolLine } from '@/app/_shell/protocol-line';
import { pieceFormOf, type TypedPieceForm } from '@/lib/forms/read-piece-form';
import { LIMBS, placeInWords } from '@/lib/ladder/limb';
import { limbOf } from '@/lib/record/patient-record';

export const metadata: Metadata = { title: 'Add a piece' };

/** A new piece. After an earlier one its order figures are carried over; name, ladder and days are never. */
export default async function NewPiecePage({
  params,
  searchParams,
}: {
  params: Promise<{ patientId: string }>;
  searchParams: Promise<{ after?: string }>;
}) {
  const { patientId } = await params;
  const { after } = await searchParams;
  const therapist = await requireRole('lead', 'therapist');
  const { record, today } = await loadPatient(therapist, patientId);
  const ladders = cutLadders(record);
  const ofLadders = record.pieces.filter(({ covers }) => covers !== 'measures');
  const before = ofLadders.find((one) => one.piece === after) ?? ofLadders.at(-1);
  const newest = before ? ladders.find((one) => one.limb === before.limb && one.side === before.side) : ladders[0];
  const on = newest && limbOf(newest);
  const start: TypedPieceForm = before
    ? { ...pieceFormOf(before, newest?.key ?? ''), piece: '', allowance: '', firstWorn: '', firstFit: '', retired: '', retiredReason: '' }
    : {
        ...BLANK,
        cutFrom: newest?.key ?? '',
        from: on ? placeInWords(LIMBS[on.limb].landmarks[0]) : '',
        to: on ? placeInWords(LIMBS[on.limb].landmarks[2]) : '',
      };
  return (
    <main id="main">
      <PatientTitle record={record} today={today} saying="A new piece: one physical garment" />
      {ladders.length === 0 ? (
        <p className="nothing-yet">
          Measure the limb first: a piece is made to its figures.{' '}
          <a href={`/patients/${patientId}/visits/new`} data-soft="">
            New visit
          </a>
        </p>
      ) : (
        <PieceForm
          patientId={patientId}
          pieceId={null}
          revision={0}
          submissionId={crypto.randomUUID()}
          start={start}
          ladders={ladderChoices(ladders)}
          today={today}
        />
      )}
      <ProtocolLine />
    </main>
  );
}

const BLANK: TypedPieceForm = {
  piece: '1',
  cutFrom: '',
  from: '',
  to: '',
  reduction: '',
  convention: 'C(1-r)',
  allowance: '',
  firstWorn: '',
  firstFit: '',
  lifeDays: '',
  leadDays: '',
  retired: '',
  retiredReason: '',
};
