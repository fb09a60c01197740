import type { FamilyPage } from '@/lib/summary/family/family-page';
import { FamilyPicture } from './family-picture';

/** The family page as it is printed and shared: one side, large type, nothing but what was approved. */
export function FamilySheet({ page }: { page: FamilyPage }) {
  const { picture, steps, wait, call } = page;
  return (
    <article className="family-sheet" lang={page.language} dir={page.direction}>
      <header>
        <h1>{page.title}</h1>
        <p className="family-date">{page.dateLine}</p>
      </header>
      <div className="family-top">
        {picture && <FamilyPicture picture={picture} />}
        <div>
          {page.sections.map((section) => (
            <section key={section.head}>
              <h2>{section.head}</h2>
              <p>{section.sentences.join(' ')}</p>
            </section>
          ))}
        </div>
      </div>
      <section>
        <h2>{steps.head}</h2>
        {steps.items.length === 0 ? (
          <p>{steps.none}</p>
        ) : (
          <ol className="family-steps">
            {steps.items.map((item) => (
              <li key={`${item.when} ${item.what}`}>
                <strong>{item.when}</strong>
                <span>{item.what}</span>
              </li>
            ))}
          </ol>
        )}
      </section>
      <div className="family-foot">
        <section>
          <h2>{wait.head}</h2>
          <p>{wait.text}</p>
        </section>
        <section className="family-call">
          <h2>{call.head}</h2>
          <p>{call.lead}</p>
          <ul>
            {call.signs.map((sign) => (
              <li key={sign}>{sign}</li>
            ))}
          </ul>
          {call.phone && <p className="family-phone">{call.phone}</p>}
          {call.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </section>
      </div>
      <footer>{page.footer}</footer>
    </article>
  );
}
