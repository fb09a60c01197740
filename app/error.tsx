'use client';

import { hasTyped, putBackTyped } from './_form/typed-before';
import { troubleWords } from './_shell/trouble-words';

/**
 * Shown when a page failed. What was saved before is safe; what was typed into the form that failed can be put back. The server's log has
 * the rest under this number.
 */
export default function ErrorPage({ error, reset }: { error: Error & { digest?: string }; reset: () => void }) {
  const trouble = troubleWords(error.digest);
  const canPutBack = typeof window !== 'undefined' && hasTyped();
  const again = () => {
    reset();
    setTimeout(putBackTyped, 100);
  };
  return (
    <main id="main" className="narrow">
      <h1>{trouble ? 'This could not be saved' : 'This page could not be shown'}</h1>
      <div className="form">
        <p>{trouble ?? 'Everything saved before is kept. Try again; if it happens twice, tell whoever runs the server.'}</p>
        {canPutBack && <p>What you typed is still here.</p>}
        {error.digest && !trouble && <p className="secondary small">Number in the server’s log: {error.digest}</p>}
        <div className="actions">
          <button type="button" className="button main" onClick={again}>
            {canPutBack ? 'Back to what I typed' : 'Try again'}
          </button>
          <a className="button" href="/">
            Go to Today
          </a>
        </div>
      </div>
    </main>
  );
}
