import Link from 'next/link';

/** What a request gets that would change something and does not come from a page of this program. */
export default function Forbidden() {
  return (
    <main id="main" className="narrow">
      <h1>Not from here</h1>
      <div className="form">
        <p>This was asked for by a page that is not part of this program. Nothing was changed.</p>
        <Link className="button main" href="/">
          Go to Today
        </Link>
      </div>
    </main>
  );
}
