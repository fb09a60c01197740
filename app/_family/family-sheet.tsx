import { Fragment } from 'react';
import type { FamilyPage } from '@/lib/summary/family/family-content';
import styles from './family.module.css';
import { FamilyPicture } from './family-picture';

/** The family page as it is printed and shared: one side, large type, nothing but what was approved. Large print runs on to a second side. */
export function FamilySheet({ page }: { page: FamilyPage }) {
  const { picture, steps, wait, call } = page;
  return (
    <article className={styles.familySheet} lang={page.language} dir={page.direction}>
      <header>
        <h1>{page.title}</h1>
        <p className={styles.familyDate}>{page.dateLine}</p>
      </header>
      <div className={picture ? styles.familyTop : undefined}>
        {picture && <FamilyPicture picture={picture} />}
        <div data-family-text="">
          {page.sections.map((section) => (
            <section key={section.head}>
              <h2>{section.head}</h2>
              <p>{section.sentences.join(' ')}</p>
            </section>
          ))}
        </div>
      </div>
      {page.plan && (
        <section>
          <h2>{page.plan.head}</h2>
          <ol className={`${styles.familySteps} ${styles.familyPlan}`}>
            {page.plan.items.map((item) => (
              <li key={item.when}>
                <strong>{item.when}</strong>
                <span>{item.what}</span>
              </li>
            ))}
          </ol>
        </section>
      )}
      <section>
        <h2>{steps.head}</h2>
        {steps.items.length === 0 ? (
          <p>{steps.none}</p>
        ) : (
          <ol className={styles.familySteps}>
            {steps.items.map((item) => (
              <li key={`${item.when} ${item.what}`}>
                <strong>{item.when}</strong>
                <span>{item.what}</span>
              </li>
            ))}
          </ol>
        )}
      </section>
      {call.line && <p className={styles.familyCallLine}>{call.line}</p>}
      <FamilyCall call={call} />
      <section>
        <h2>{wait.head}</h2>
        <p>{wait.text}</p>
      </section>
      <footer>{page.footer}</footer>
    </article>
  );
}

/** Numbers that a telephone can dial: three digits or more in a row, or six with what is written between them. Hours of the day have fewer. */
const NUMBER = /[+(]?\d(?:[ ()/-]{0,2}\d){5,14}|\d{3,15}/g;

/** Words in which a telephone finds its numbers: pressed, they are dialled. */
function Dialled({ words }: { words: string }) {
  const numbers = [...words.matchAll(NUMBER)];
  const last = numbers.at(-1);
  return (
    <>
      {numbers.map(([number], at) => (
        <Fragment key={numbers[at]?.index}>
          {words.slice(endOf(numbers[at - 1]), numbers[at]?.index)}
          <a href={`tel:${number.replace(/[^+\d]/g, '')}`}>{number}</a>
        </Fragment>
      ))}
      {words.slice(endOf(last))}
    </>
  );
}

function endOf(match: RegExpMatchArray | undefined): number {
  return match ? (match.index ?? 0) + match[0].length : 0;
}

/** The framed box: take it off, and by haste whom to call. Never left away. */
function FamilyCall({ call }: Pick<FamilyPage, 'call'>) {
  const [urgent, ...later] = call.also ?? [];
  return (
    <section className={styles.familyCall}>
      <div>
        <h2>{call.head}</h2>
        <ul>
          {call.signs.map((sign) => (
            <li key={sign}>{sign}</li>
          ))}
        </ul>
        {call.phone && (
          <p className={styles.familyPhone}>
            <Dialled words={call.phone} />
          </p>
        )}
        {call.lines.map((line) => (
          <p key={line}>
            <Dialled words={line} />
          </p>
        ))}
      </div>
      {urgent && (
        <div>
          <h2>
            <Dialled words={urgent.head} />
          </h2>
          <ul>
            {urgent.signs.map((sign) => (
              <li key={sign}>{sign}</li>
            ))}
          </ul>
          <p>{urgent.line}</p>
        </div>
      )}
      {later.map(({ head, signs }) => (
        <div key={head}>
          <h3>{head}</h3>
          <ul>
            {signs.map((sign) => (
              <li key={sign}>{sign}</li>
            ))}
          </ul>
        </div>
      ))}
    </section>
  );
}
