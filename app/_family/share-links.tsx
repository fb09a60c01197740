'use client';

import { useActionState, useRef, useState } from 'react';
import styles from './family.module.css';
import { type MadeLink, makeLinkAction, withdrawLinkAction } from './share-actions';

type Props = {
  readonly patientId: string;
  readonly documentId: string;
  readonly links: readonly {
    readonly linkId: string;
    readonly made: string;
    readonly state: string;
    readonly open: boolean;
    readonly opened: string;
  }[];
  readonly address: string;
  readonly days: number;
  readonly mayShare: boolean;
  /** Why no link answers any more, whatever its days say. */
  readonly stopped: string | null;
};

/** Links to the page for a family without an account: made, shown once, opened, withdrawn. */
export function ShareLinks({ documentId, links, address, days, mayShare, stopped }: Props) {
  const [made, make, busy] = useActionState<MadeLink, FormData>(makeLinkAction, null);
  return (
    <section className={`panel no-print ${styles.familyLinks}`} aria-labelledby="links-head">
      <h2 id="links-head">Links for the family</h2>
      {stopped && <p>{stopped}</p>}
      {mayShare && (
        <form className="form" action={make}>
          <input type="hidden" name="documentId" value={documentId} />
          {made && (
            <div className="field" role="status">
              <label htmlFor="share-address">Link</label>
              <span className="hint">{`Copy it now: it is shown this once. Whoever has it can read this page for ${days} days, or until you withdraw it.`}</span>
              <CopyBox key={made.path} address={`${address}${made.path}`} />
            </div>
          )}
          <div className="actions">
            <button type="submit" className="button" aria-disabled={busy}>
              Make a link
            </button>
          </div>
        </form>
      )}
      {links.length === 0 ? (
        <p className="secondary">No link was made. The page can always be printed.</p>
      ) : (
        <ul className="plain-list">
          {links.map((link) => (
            <li key={link.linkId} className={styles.linkRow}>
              <span>{`Made ${link.made}: ${link.state}, ${link.opened}.`}</span>
              {link.open && mayShare && (
                <form action={withdrawLinkAction}>
                  <input type="hidden" name="linkId" value={link.linkId} />
                  <button type="submit" className="button">
                    Withdraw
                  </button>
                </form>
              )}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** The address, chosen whole when it is reached, and one key that copies it. Where the browser may not copy by itself, it is chosen and said. */
function CopyBox({ address }: { address: string }) {
  const box = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState('');
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(address);
      setSaid('Copied.');
    } catch {
      box.current?.focus();
      box.current?.select();
      setSaid('This browser does not let a page copy: the link is chosen, copy it from there.');
    }
  };
  return (
    <>
      <input ref={box} id="share-address" readOnly value={address} onFocus={(event) => event.target.select()} />
      <div className={styles.linkRow}>
        <button type="button" className="button" onClick={copy}>
          Copy the link
        </button>
        <span role="status">{said}</span>
      </div>
    </>
  );
}
