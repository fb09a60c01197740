import { type PeriodChoice, SERVICE_PERIODS } from '@/lib/service/service-period';

/** The period of an address; the last twelve months where it names none. */
export function periodNamed(asked: string | readonly string[] | null | undefined): PeriodChoice {
  return SERVICE_PERIODS.find((choice) => choice === asked) ?? 'twelve-months';
}
