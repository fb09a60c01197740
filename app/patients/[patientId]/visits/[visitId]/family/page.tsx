import type { Metadata } from 'next';
import { requireRole } from '@/app/_auth/therapist';
import { FamilyForm } from '@/app/_family/family-form';
import { loadFamily } from '@/app/_family/load-family';
import { PatientTitle } from '@/app/_patient/patient-title';
import { inUse } from '@/lib/garments/wear';
import { limbInWords } from '@/lib/ladder/limb';
import { isNoAnswer } from '@/lib/outcome';
import type { CautionAnswer } from '@/lib/record/caution-answer';
import type { LimbSide, Piece } from '@/lib/record/patient-record';
import { FAMILY_LANGUAGES } from '@/lib/summary/family/family-languages';
import { fitsAnywayOn } from '@/lib/summary/family/read-family-form';
import { verdictSentence } from '@/lib/summary/verdict-sentence';
import { ageInYears } from '@/lib/units/age';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';

export const metadata: Metadata = { title: 'Family page' };

/** The family page of one visit: the therapist chooses and types, reads the page, and approves it. Nothing is chosen for them. */
export default async function FamilyPageForm({ params }: { params: Promise<{ patientId: string; visitId: string }> }) {
  const { patientId, visitId } = await params;
  const therapist = await requireRole('lead', 'therapist');
  const { record, analysis, visit, limbs, dates, details, against, today } = await loadFamily(therapist, patientId, visitId);
  const child = ageInYears(record.born, today) < 18;
  const next = dates.find((one) => one.kind === 'visit' && one.day >= visit.day);
  const engine = analysis.limbs.flatMap((limb) => {
    const judged = limb.visits.find((one) => one.at.visit.day === visit.day)?.sinceBaseline;
    if (!judged) return [];
    const said = isNoAnswer(judged) ? judged.noAnswer : verdictSentence(judged, record);
    return [`${limbInWords(limb.series.limb, limb.series.side)}: ${said}`];
  });
  const outsideOn = (one: LimbSide) => ({ box: fitsAnywayOn(one), limb: limbInWords(one.limb, one.side), says: against.outside(one) });
  return (
    <main id="main">
      <PatientTitle record={record} today={today} saying={`Family page of the visit on ${showDay(visit.day)}`}>
        <a className="button" href={`/patients/${patientId}/visits/${visitId}`} data-soft="">
          Back to the result
        </a>
      </PatientTitle>
      {limbs.length === 0 ? (
        <p className="nothing-yet">No limb was measured at this visit, so there is nothing to show a family yet.</p>
      ) : (
        <FamilyForm
          patientId={patientId}
          visitId={visitId}
          submissionId={crypto.randomUUID()}
          limbs={limbs.map((one) => ({ key: `${one.side} ${one.limb}`, words: limbInWords(one.limb, one.side) }))}
          languages={FAMILY_LANGUAGES.map((one) => ({ key: one.language, words: one.name, lang: one.language }))}
          engine={engine}
          outside={limbs.map(outsideOn).filter(({ says }) => says.length > 0)}
          asks={Object.fromEntries(FAMILY_LANGUAGES.map((one) => [one.language, against.asks(one.language)]))}
          start={{
            limb: limbs[0] ? `${limbs[0].side} ${limbs[0].limb}` : '',
            language: record.head.language,
            reader: child ? 'family' : 'patient',
            name: record.head.name?.split(' ')[0] ?? '',
            hours: fullHoursOf(record.pieces, limbs, today),
            allergies: allergiesNoted(record.cautions),
            phone: details.phone ?? '',
            step0Kind: next ? 'visit' : '',
            step0Day: next?.day ?? '',
          }}
        />
      )}
      <p className="protocol-line">
        Nothing reaches the page but what you choose and type here and what was measured. Follow your local protocol and the prescriber.
      </p>
    </main>
  );
}

/** The full hours a day of the pieces of these limbs in use, where their plans agree; nothing where none says them or two differ. */
function fullHoursOf(pieces: readonly Piece[], limbs: readonly LimbSide[], today: CalendarDay): string {
  const ofLimbs = pieces.filter(
    (piece) => inUse(piece, today) && limbs.some(({ limb, side }) => piece.limb === limb && piece.side === side),
  );
  const hours = new Set(ofLimbs.flatMap(({ wearIn }) => (wearIn ? [wearIn.fullHours] : [])));
  const [only] = hours;
  return hours.size === 1 && only !== undefined && Number.isInteger(only) ? String(only) : '';
}

/** What was written to an allergy that stands as “yes”; nothing else is taken for an answer. */
function allergiesNoted(cautions: readonly CautionAnswer[] = []): string {
  return cautions.find(({ card, answer }) => card === 'material-allergy' && answer === 'present')?.words ?? '';
}
