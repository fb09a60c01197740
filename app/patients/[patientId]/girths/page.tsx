import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { GirthTable } from '@/app/_patient/girth-table';
import { PatientTitle } from '@/app/_patient/patient-title';
import { loadPatient } from '@/app/_record/load-patient';
import { PrintButton } from '@/app/_shell/print-button';
import { ProtocolLine } from '@/app/_shell/protocol-line';
import type { AnalysedLimb } from '@/lib/analysis/analyse-patient';
import { limbInWords } from '@/lib/ladder/limb';

export const metadata: Metadata = { title: 'Girth by place' };

const UNITS = [
  { key: 'typed', words: 'As typed' },
  { key: 'in', words: 'Inches' },
  { key: 'cm', words: 'Centimetres' },
] as const;
const BASES = [
  { key: 'first', words: 'Change since first visit' },
  { key: 'cut', words: 'since the piece was cut' },
  { key: 'before', words: 'since the visit before' },
] as const;

type Search = { readonly limb?: string; readonly unit?: string; readonly base?: string };

/** Girths of one limb by place, a column a visit. Limb, unit and base of change stand in the address. */
export default async function GirthsPage({
  params,
  searchParams,
}: {
  params: Promise<{ patientId: string }>;
  searchParams: Promise<Search>;
}) {
  const { patientId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}/girths`);
  const { record, analysis, today } = await loadPatient(therapist, patientId);
  const asked = await searchParams;
  const keyOf = (one: (typeof analysis.limbs)[number]): string => `${one.series.side}-${one.series.limb}`;
  const pairs = (['leg', 'arm'] as const).filter((kind) => analysis.limbs.filter(({ series }) => series.limb === kind).length === 2);
  const both = pairs.find((kind) => asked.limb === `both-${kind}`);
  const limb = analysis.limbs.find((one) => keyOf(one) === asked.limb) ?? analysis.limbs.find((one) => one.affected) ?? analysis.limbs[0];
  const shown = both ? analysis.limbs.filter(({ series }) => series.limb === both).sort(rightFirst) : limb ? [limb] : [];
  const which = both ? `both-${both}` : limb ? keyOf(limb) : '';
  const unit = UNITS.find((one) => one.key === asked.unit)?.key ?? limb?.series.visits.at(-1)?.ladder.unit ?? 'typed';
  const base = BASES.find((one) => one.key === asked.base)?.key ?? 'first';
  const link = (change: Search): string => {
    const query = new URLSearchParams({ limb: which, unit, base, ...change });
    return `/patients/${patientId}/girths?${query}`;
  };
  return (
    <main id="main">
      <PatientTitle record={record} today={today} saying={`Girth by place, ${limb?.series.visits.length ?? 0} visits`}>
        <PrintButton words="Print" />
        <BackToPatient patientId={patientId} />
      </PatientTitle>
      {limb ? (
        <>
          <div className="filter-row">
            <nav className="filters" aria-label="Limb">
              {analysis.limbs.map((one) => (
                <a key={keyOf(one)} href={link({ limb: keyOf(one) })} aria-current={keyOf(one) === which ? 'true' : undefined} data-soft="">
                  {limbInWords(one.series.limb, one.series.side)}
                </a>
              ))}
              {pairs.map((kind) => (
                <a
                  key={kind}
                  href={link({ limb: `both-${kind}` })}
                  aria-current={which === `both-${kind}` ? 'true' : undefined}
                  data-soft=""
                >
                  {`both ${kind}s`}
                </a>
              ))}
            </nav>
            <nav className="filters" aria-label="Unit">
              {UNITS.map((one) => (
                <a key={one.key} href={link({ unit: one.key })} aria-current={one.key === unit ? 'true' : undefined} data-soft="">
                  {one.words}
                </a>
              ))}
            </nav>
            <nav className="filters" aria-label="Base of change">
              {BASES.map((one) => (
                <a key={one.key} href={link({ base: one.key })} aria-current={one.key === base ? 'true' : undefined} data-soft="">
                  {one.words}
                </a>
              ))}
            </nav>
          </div>
          {shown.map((one) => (
            <GirthTable key={keyOf(one)} limb={one} analysis={analysis} unit={unit} base={base} />
          ))}
        </>
      ) : (
        <p className="nothing-yet">No ladder yet. The first one starts this table.</p>
      )}
      <ProtocolLine />
    </main>
  );
}

/** The right limb first, as one faces the patient. */
function rightFirst(one: AnalysedLimb, other: AnalysedLimb): number {
  return other.series.side.localeCompare(one.series.side);
}
