/** Shown for an address that leads nowhere, or to a record of another clinic: the two look the same. */
export default function NotFound() {
  return (
    <main id="main" className="narrow">
      <h1>Nothing is kept at this address</h1>
      <div className="form">
        <p>The link may be old, or the record belongs to another clinic.</p>
        <div className="actions">
          <a className="button main" href="/" data-soft="">
            Go to Today
          </a>
          <a className="button" href="/patients" data-soft="">
            Find a patient
          </a>
        </div>
      </div>
    </main>
  );
}
