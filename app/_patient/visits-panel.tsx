import { StaticMarkup } from '@/app/_markup/static-markup';
import { otherReadingsInWords } from '@/app/_result/other-readings';
import type { KeptVisit } from '@/db/patients/read-visits';
import type { AnalysedVisit, PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { isNoAnswer } from '@/lib/outcome';
import { partInWords } from '@/lib/prompts/change-in-words';
import { lookingBackNote } from '@/lib/summary/looking-back';
import { baselineInWords } from '@/lib/summary/phase-words';
import { stretchesInWords } from '@/lib/summary/stretch-words';
import { VERDICT_WORDS } from '@/lib/summary/verdict-words';
import type { JudgedChange } from '@/lib/trend/judged-change';
import { lookBack } from '@/lib/trend/looking-back';
import { type VolumeOverTime, volumeOverTime } from '@/lib/trend/volume-over-time';
import { showDay } from '@/lib/units/calendar-day';
import { showVolume } from '@/lib/units/volume';
import styles from './patient.module.css';

/** So many visits are shown at once; the earlier ones come when they are asked for, with the work of judging each. */
const SHOWN = 8;

type PanelProps = { analysis: PatientAnalysis; kept: readonly KeptVisit[]; patientId: string; all: boolean };

/** Visits, the newest first: each limb's volume as it was taped, with the stretch, and the verdict against the baseline of its phase, else the first visit. */
export function VisitsPanel({ analysis, kept, patientId, all }: PanelProps) {
  const visits = [...kept].reverse();
  const volumes = analysis.limbs.map(({ series }) => volumeOverTime(series, analysis.policy));
  return (
    <section className="panel" aria-labelledby="visits-head">
      <div className="panel-head">
        <h2 id="visits-head">Visits</h2>
        {visits.length > 0 && (
          <a href={`/patients/${patientId}/girths`} data-soft="">
            Girth by place
          </a>
        )}
      </div>
      {visits.length === 0 ? (
        <p className="secondary">No visit yet. The first ladder is what every later one is compared with.</p>
      ) : (
        <>
          <VisitsTable visits={all ? visits : visits.slice(0, SHOWN)} analysis={analysis} patientId={patientId} volumes={volumes} />
          {!all && visits.length > SHOWN && (
            <p className="as-table">
              <a href={`/patients/${patientId}?visits=all#visits-head`} data-soft="stay">
                {`Show all ${visits.length} visits`}
              </a>
            </p>
          )}
        </>
      )}
    </section>
  );
}

type VisitsTableProps = Omit<VisitRowProps, 'visit'> & { visits: readonly KeptVisit[] };

function VisitsTable({ visits, analysis, patientId, volumes }: VisitsTableProps) {
  return (
    <div className="table-frame">
      <StaticMarkup as="table" className={styles.visitsTable}>
        <thead>
          <tr>
            <th scope="col">Day</th>
            {analysis.limbs.map(({ series }) => (
              <th key={`${series.side} ${series.limb}`} scope="col" className="numeric">{`${series.side} ${series.limb}`}</th>
            ))}
            <th scope="col">
              {(analysis.record.phases ?? []).length > 0 ? 'Against the baseline of its phase' : 'Against the first visit'}
            </th>
          </tr>
        </thead>
        <tbody>
          {visits.map((visit) => (
            <VisitRow key={visit.visitId} visit={visit} analysis={analysis} patientId={patientId} volumes={volumes} />
          ))}
        </tbody>
      </StaticMarkup>
      {volumes.some(Boolean) && <p className="secondary">{stretchNote(analysis, volumes)}</p>}
    </div>
  );
}

/** Over which stretch the volumes of the table are counted, each kind of limb by itself. */
function stretchNote({ limbs }: PatientAnalysis, volumes: readonly (VolumeOverTime | undefined)[]): string {
  const drawn = limbs.flatMap(({ series }, index) => {
    const over = volumes[index];
    return over ? [{ series, over }] : [];
  });
  const kinds = [...new Set(drawn.map(({ series }) => series.limb))];
  const said = kinds.map((kind) => {
    const words = stretchesInWords(drawn.filter(({ series }) => series.limb === kind));
    return kinds.length > 1 ? `${kind}: ${words}` : words;
  });
  return `Volumes: ${said.join('; ')}.`;
}

type VisitRowProps = { visit: KeptVisit; analysis: PatientAnalysis; patientId: string; volumes: readonly (VolumeOverTime | undefined)[] };

function VisitRow({ visit, analysis, patientId, volumes }: VisitRowProps) {
  const found = analysis.limbs.map((limb) => limb.visits.find((one) => (one.at.visit as unknown) === visit));
  const also = otherReadingsInWords(visit);
  return (
    <tr>
      <th scope="row">
        <a href={`/patients/${patientId}/visits/${visit.visitId}`} data-soft="">
          {showDay(visit.day)}
        </a>
        {also && <span className={styles.visitAlso}>{also}</span>}
      </th>
      {found.map((one, index) => (
        <td key={`${analysis.limbs[index]?.series.side} ${analysis.limbs[index]?.series.limb}`} className="numeric">
          {!one ? '–' : volumeOf(one, volumes[index])}
        </td>
      ))}
      <td>{againstBaseline(found, analysis)}</td>
    </tr>
  );
}

/** The limb's volume of a visit, and whether its ladder covers another stretch than the newest; else why there is none. */
function volumeOf(one: AnalysedVisit, over: VolumeOverTime | undefined): string {
  if (isNoAnswer(one.volume)) return 'no volume';
  const same = over?.points.some((other) => other.day === one.at.visit.day);
  return same ? showVolume(one.volume.volumeMl) : `${showVolume(one.volume.volumeMl)}, other stretch`;
}

/** `, below the knee`: the part of the limb that changed, where it was not all of it. */
function whereInWords({ found }: JudgedChange): string {
  const part = found && partInWords(found);
  return part ? `, ${part}` : '';
}

function againstBaseline(found: readonly (AnalysedVisit | undefined)[], { limbs, policy }: PatientAnalysis): string {
  const said = found.flatMap((one, index) => {
    if (!one?.sinceBaseline) return [];
    const { side } = one.at.ladder;
    if (isNoAnswer(one.sinceBaseline)) return [{ side, words: 'not comparable' }];
    const { verdict } = one.sinceBaseline;
    const course = limbs[index]?.course;
    const back = course && lookBack(course, one.inPhase.baseline, one.at);
    const note = back && lookingBackNote(verdict, back, policy.alarmProbability);
    return [{ side, words: `${VERDICT_WORDS[verdict]}${whereInWords(one.sinceBaseline)}${note ? ` (${note})` : ''}` }];
  });
  const at = found.findIndex((one) => one !== undefined);
  const visit = found[at];
  if (said.length === 0) return visit ? baselineInWords(visit.inPhase, limbs[at]?.series.visits[0]) : 'first visit';
  const all = new Set(said.map((one) => one.words));
  return all.size === 1 ? (said[0]?.words ?? '') : said.map((one) => `${one.side} ${one.words}`).join('; ');
}
