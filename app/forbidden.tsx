/** What a request gets that would change something and does not come from a page of this program. */
export default function Forbidden() {
  return (
    <main id="main" className="narrow">
      <h1>Not from here</h1>
      <div className="form">
        <p>This was asked for by a page that is not part of this program. Nothing was changed.</p>
        <a className="button main" href="/" data-soft="">
          Go to Today
        </a>
      </div>
    </main>
  );
}
