import type { FactorOffer } from './second-factor';
import styles from './second-factor.module.css';

/** The offered second factor for an authenticator program: a QR code, and the same key as text. */
export function FactorPicture({ offer }: { readonly offer: FactorOffer }) {
  const size = offer.squares.length;
  return (
    <div className={styles.factorOffer}>
      <svg className={styles.qrCode} viewBox={`0 0 ${size} ${size}`} role="img" aria-label="QR code for an authenticator program">
        <path d={darkSquares(offer.squares)} />
      </svg>
      <div className="form">
        <p>
          Point the camera of an authenticator program at this picture. It then shows six digits, new ones every half-minute. Any program
          for time-based codes will do.
        </p>
        <p>
          Without a camera, type this key into it:
          <br />
          <code className={styles.factorKey} data-factor-key="">
            {offer.key}
          </code>
        </p>
      </div>
      <input type="hidden" name="sealed" value={offer.sealed} />
    </div>
  );
}

/** One path of a stroke a run: `M4 4h7v1h-7z` is seven dark squares. */
export function darkSquares(squares: FactorOffer['squares']): string {
  return squares
    .flatMap((row, y) =>
      [
        ...row
          .map((dark) => (dark ? '1' : '0'))
          .join('')
          .matchAll(/1+/g),
      ].map(({ index, 0: run }) => `M${index} ${y}h${run.length}v1h-${run.length}z`),
    )
    .join('');
}
