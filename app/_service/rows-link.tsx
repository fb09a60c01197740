import type { RowChoice } from '@/db/service/service-rows';
import type { ServicePeriod } from '@/lib/service/service-period';
import styles from './service.module.css';

type Props = RowChoice & { readonly period: ServicePeriod; readonly words: string; readonly about: string };

/** The address of the cases behind a figure. */
function rowsAddress({ figure, by, of }: RowChoice, { choice }: ServicePeriod): string {
  const kind = by === undefined ? {} : { by, ...(of == null ? {} : { of }) };
  return `/clinic/service/rows?${new URLSearchParams({ figure, period: choice, ...kind })}`;
}

/** How many cases a figure has, as the link to them. `about` names the figure for those who hear the link alone. */
export function RowsLink({ period, words, about, ...choice }: Props) {
  return (
    <a className={styles.rowsLink} href={rowsAddress(choice, period)} aria-label={`${words}: the cases behind ${about}`} data-soft="">
      {words}
    </a>
  );
}
