import styles from './second-factor.module.css';
/** Recovery codes, shown this once. */
export function RecoveryCodes({ codes }: { readonly codes: readonly string[] }) {
  return (
    <section className="field" aria-labelledby="codes-head">
      <h2 id="codes-head">Recovery codes</h2>
      <p>
        Print them or write them down now: they are shown this once. When the authenticator is lost, each of them lets you in one time in
        place of its code.
      </p>
      <ul className={styles.recoveryCodes} data-recovery-codes="">
        {codes.map((code) => (
          <li key={code}>
            <code>{code}</code>
          </li>
        ))}
      </ul>
    </section>
  );
}
