import { PaperFoot } from '@/app/_shell/paper-foot';
import type { ReplacementLetter } from '@/lib/summary/letter/replacement-letter';
import styles from './letter.module.css';
import { LetterTable } from './letter-table';

/** The letter as it is signed and printed, with lines to sign on by hand. */
export function LetterSheet({ letter }: { letter: ReplacementLetter }) {
  const { signature } = letter;
  return (
    <article className={styles.letterSheet} lang={letter.language}>
      <PaperFoot words={`${letter.title}, reference ${letter.reference}, ${signature.day}`} />
      <header>
        <p className={styles.letterClinic}>{letter.clinic}</p>
        <h2>{letter.title}</h2>
      </header>
      {letter.sections.map((section) => (
        <section key={section.key}>
          <h3>{section.head}</h3>
          {section.key === 'evidence' ? (
            <>
              <p>{section.paragraphs.join(' ')}</p>
              {section.tables.map((table) => (
                <LetterTable key={table.caption} table={table} />
              ))}
            </>
          ) : (
            <p>{section.paragraphs.join(' ')}</p>
          )}
        </section>
      ))}
      <div className={styles.letterSignature}>
        <p>
          <strong>{signature.name}</strong>
          <br />
          {signature.credentials}
          <br />
          {`${letter.clinic}, ${signature.day}`}
        </p>
        <p className={styles.signatureLine}>Signature</p>
        <p className={styles.signatureLine}>Date</p>
      </div>
      <footer>{`${letter.protocol} ${letter.reference}, wording version ${letter.version}.`}</footer>
    </article>
  );
}
