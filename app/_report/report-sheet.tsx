import { CourseTable } from '@/app/_course/course-table';
import styles from '@/app/_letter/letter.module.css';
import type { LoadedPatient } from '@/app/_record/load-patient';
import { PaperFoot } from '@/app/_shell/paper-foot';
import { affectedInWords } from '@/lib/record/patient-record';
import { idsAsked } from '@/lib/schedule/asked-in-dates';
import { dateInWords } from '@/lib/schedule/date-in-words';
import { courseSentence, shownPhases } from '@/lib/summary/phase-words';
import { showAge } from '@/lib/units/age';
import { showDay } from '@/lib/units/calendar-day';
import { CautionsSection } from './cautions-section';
import { DecisionsSection } from './decisions-section';
import { FamilySection } from './family-section';
import { MeasuresSection } from './measures-section';
import { PiecesSection } from './pieces-section';
import { VerdictSection } from './verdict-section';
import { VolumeSection } from './volume-section';

/** The report for the prescriber, one or two pages: who, how the limbs changed, the pieces, what was decided and what comes next. */
export function ReportSheet({ loaded }: { loaded: LoadedPatient }) {
  const { record, analysis, clinic, answers, dates, today } = loaded;
  const { head } = record;
  const course = courseSentence(analysis);
  const first = record.visits[0];
  const last = record.visits.at(-1);
  const affected = affectedInWords(record);
  return (
    <article className={styles.letterSheet}>
      <PaperFoot words={`Progress report of ${showDay(today)}, ${head.name ? `${head.name}, ` : ''}reference ${head.reference}`} />
      <header>
        <p className={styles.letterClinic}>{clinic.name}</p>
        <h2>Progress report</h2>
        <p>
          {`${head.name ? `${head.name}, ` : ''}reference ${head.reference}, born ${showDay(record.born)} (${showAge(record.born, today)}). Diagnosis group: ${head.diagnosisGroup}. ${affected === '' ? 'No limb is marked as affected.' : `Affected: ${affected}.`}`}
        </p>
        <p>
          {first && last
            ? `Period: ${showDay(first.day)} to ${showDay(last.day)}, ${record.visits.length} ${record.visits.length === 1 ? 'visit' : 'visits'}. Report of ${showDay(today)}.`
            : `No visit is on record. Report of ${showDay(today)}.`}
        </p>
      </header>
      {record.phases.length > 0 && (
        <section>
          <h3>Course of care</h3>
          {course && <p>{course}</p>}
          <CourseTable phases={shownPhases(analysis)} />
        </section>
      )}
      <VerdictSection analysis={analysis} />
      <VolumeSection analysis={analysis} limb="leg" />
      <VolumeSection analysis={analysis} limb="arm" />
      <MeasuresSection analysis={analysis} />
      <PiecesSection pieces={record.pieces} analysis={analysis} />
      <FamilySection replies={record.replies} asked={idsAsked(dates, record.replies)} />
      <DecisionsSection answers={answers} timeZone={clinic.timeZone} />
      <CautionsSection analysis={analysis} />
      <section>
        <h3>Next dates</h3>
        {dates.length === 0 ? (
          <p>No date is set.</p>
        ) : (
          <ul>
            {dates.map((date) => (
              <li
                key={date.key}
              >{`${showDay(date.day)}${date.day < today ? ', past' : ''}: ${dateInWords(date)}${date.moved ? `, moved by hand (${date.moved.reason})` : ''}.`}</li>
            ))}
          </ul>
        )}
      </section>
      <footer>This report does not diagnose or decide. Follow your local protocol and the prescriber.</footer>
    </article>
  );
}
