import type { AnalysedLimb, PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { limbInWords } from '@/lib/ladder/limb';
import { isNoAnswer } from '@/lib/outcome';
import { courseSentence } from '@/lib/prompts/change-in-words';
import { pct, signedPct } from '@/lib/prompts/show-figures';
import { REACH_95 } from '@/lib/statistics/reach-95';
import { baselineInWords } from '@/lib/summary/phase-words';
import { verdictSentence } from '@/lib/summary/verdict-sentence';
import type { JudgedChange } from '@/lib/trend/judged-change';
import { ratioSd } from '@/lib/trend/measured-change';
import { showDay } from '@/lib/units/calendar-day';
import { capitalized } from '@/lib/units/capitalized';

/** The verdict on each limb since the baseline of its phase, the first visit and the last, with the figures and the error it stands on. */
export function VerdictSection({ analysis }: { analysis: PatientAnalysis }) {
  return (
    <section>
      <h3>Change of each limb</h3>
      {analysis.limbs.length === 0 && <p>No limb has been measured.</p>}
      {analysis.limbs.map((limb) => (
        <p key={`${limb.series.limb} ${limb.series.side}`}>
          <strong>{`${capitalized(limbInWords(limb.series.limb, limb.series.side))}${limb.affected ? ', affected' : ''}. `}</strong>
          {linesOf(limb, analysis).join('\n')}
        </p>
      ))}
    </section>
  );
}

function linesOf(limb: AnalysedLimb, { record }: PatientAnalysis): string[] {
  const newest = limb.visits.at(-1);
  if (!newest || (!newest.sinceBaseline && !newest.sinceFirst))
    return [`Measured once, on ${showDay(newest?.at.visit.day ?? record.born)}: no change to give.`];
  const { sinceBaseline, sinceLast, sinceFirst, inPhase } = newest;
  const line = (one: JudgedChange | { readonly noAnswer: string } | null, since = ''): string[] => {
    if (!one) return [];
    if (isNoAnswer(one)) return [one.noAnswer];
    const { volume } = one.change.measured;
    const reach = pct(REACH_95 * volume.ratio * ratioSd(volume));
    const days = `${showDay(one.change.earlier.visit.day)} to ${showDay(one.change.later.visit.day)}`;
    const course = courseSentence(one);
    return [
      `${days}${since}: ${verdictSentence(one, record)}${course ? ` ${course}` : ''} Volume ${signedPct(volume.ratio - 1)}, give or take ${reach}; smallest real change ${pct(one.smallestRealChange)}.`,
    ];
  };
  const against = inPhase.phase ? `, since the ${baselineInWords(inPhase, limb.series.visits[0])}` : '';
  return [
    ...line(sinceBaseline, against),
    ...(sinceFirst === sinceBaseline ? [] : line(sinceFirst, ', since the first visit')),
    ...(sinceLast === sinceBaseline || sinceLast === sinceFirst ? [] : line(sinceLast)),
  ];
}
