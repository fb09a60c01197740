'use client';

/** Shown when a page failed. What was saved before is safe; the server's log has the rest under this number. */
export default function ErrorPage({ error, reset }: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <main id="main" className="narrow">
      <h1>This page could not be shown</h1>
      <div className="form">
        <p>Everything saved before is kept. Try again; if it happens twice, tell whoever runs the server.</p>
        {error.digest && <p className="secondary small">Number in the server’s log: {error.digest}</p>}
        <div className="actions">
          <button type="button" className="button main" onClick={reset}>
            Try again
          </button>
          <a className="button" href="/">
            Go to Today
          </a>
        </div>
      </div>
    </main>
  );
}
