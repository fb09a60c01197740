import clsx from 'clsx';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { deathIn } from '@/lib/course/phases';
import { courseSentence } from '@/lib/summary/phase-words';
import styles from './course.module.css';

/** Where the person stands in the course of care, in one line, with the way to the whole of it. After a death it says that all has stopped. */
export function CourseLine({ analysis, patientId }: { analysis: PatientAnalysis; patientId: string }) {
  const phases = analysis.record.phases ?? [];
  const died = deathIn(phases) !== undefined;
  const said = courseSentence(analysis) ?? (phases.length === 0 ? 'No phase is noted; all visits are one.' : 'Between two phases.');
  return (
    <p className={clsx(styles.courseLine, died && styles.died)}>
      <strong>Course</strong> {said}
      {died && ' Links, dates, prompts and orders have stopped; the record stays readable.'}{' '}
      <a href={`/patients/${patientId}/course`} data-soft="">
        Course of care
      </a>
    </p>
  );
}
