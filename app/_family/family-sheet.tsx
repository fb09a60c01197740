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

/** Whether a telephone can dial it: signs of a number and nothing else. */
function isNumber(phone: string): boolean {
  return /^[+(]?\d[\d\s()./-]{1,30}$/.test(phone.trim());
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
            {isNumber(call.phone) ? <a href={`tel:${call.phone.replace(/[^+\d]/g, '')}`}>{call.phone}</a> : call.phone}
          </p>
        )}
        {call.lines.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </div>
      {urgent && (
        <div>
          <h2>{urgent.head}</h2>
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
