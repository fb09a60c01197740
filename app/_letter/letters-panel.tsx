import type { SignedLetter } from '@/db/documents/letters';

/** The replacement letters that were signed, the newest first; nothing while there is none. */
export function LettersPanel({ letters, timeZone }: { letters: readonly SignedLetter[]; timeZone: string }) {
  if (letters.length === 0) return null;
  const clock = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeZone });
  return (
    <section className="panel" aria-labelledby="letters-head">
      <h2 id="letters-head">Replacement letters</h2>
      <ul className="plain-list">
        {letters.map(({ letterId, patientId, letter, at, byName }) => (
          <li key={letterId}>
            <a href={`/patients/${patientId}/letters/${letterId}`} data-soft="">
              {`Piece ${letter.piece}: ${letter.reason}`}
            </a>
            {`, signed ${clock.format(at)}${byName ? ` by ${byName}` : ''}`}
          </li>
        ))}
      </ul>
    </section>
  );
}
