/** An empty clinic: how it measures, the two ways to begin, what comes of it, and what the program is not. */
export function FirstStart({
  mayWrite,
  leads,
  measures,
}: {
  readonly mayWrite: boolean;
  readonly leads: boolean;
  readonly measures: string | null;
}) {
  return (
    <section className="nothing-yet" aria-labelledby="first-start">
      <h2 id="first-start">No patients yet</h2>
      <p>
        Add the first one and tape the first ladder: every later one is compared with it. From the second visit on this page says who needs
        what, by when and why.
      </p>
      {leads && (
        <p>
          {measures ?? 'The clinic has not said yet where its ladders begin and how far apart they are measured.'}{' '}
          <a href="/clinic/details" data-soft="">
            {measures === null ? 'Say how you measure' : 'Change how you measure'}
          </a>
        </p>
      )}
      {mayWrite && (
        <div className="actions">
          <a className="button main" href="/patients/new" data-soft="">
            Add the first patient
          </a>
          {leads && (
            <a className="button" href="/clinic/exchange" data-soft="">
              Bring in a file
            </a>
          )}
        </div>
      )}
      <p className="secondary">
        To look round first: <code>npm run demo</code> opens a clinic of made-up people beside this one, in a file of its own.
      </p>
      <p className="secondary">This program does not diagnose or decide. Your local protocol and the prescriber come first.</p>
    </section>
  );
}
