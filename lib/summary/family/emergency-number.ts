import type { ClinicDetails } from '../../record/clinic-details';

/** The number every mobile telephone takes for an emergency. Source: 3GPP TS 22.101, emergency numbers without a card: 112 and 911. */
export const ANYWHERE = '112';

/** Numbers by region of the clinic's time zone. Source: national numbering plans (common knowledge, from memory; the clinic sets its own). */
const BY_ZONE: readonly (readonly [zone: RegExp, number: string])[] = [
  [/^(America|US|Canada|Pacific\/Honolulu)/, '911'],
  [/^Australia\//, '000'],
  [/^Pacific\/(Auckland|Chatham)/, '111'],
];

/** The clinic's own emergency number, else the one its time zone proposes. */
export function emergencyOf({ emergency, timeZone }: Pick<ClinicDetails, 'emergency' | 'timeZone'>): string {
  return emergency || emergencyNumber(timeZone);
}

/** What stands while nobody writes a number for a language: which one, and whether the clinic's details have it or its time zone proposes it. */
export function emergencyWhereEmpty(details: Pick<ClinicDetails, 'emergency' | 'timeZone'>): string {
  return details.emergency
    ? `Empty: ${details.emergency}, as the clinic’s details have it.`
    : `Empty: ${emergencyOf(details)}, proposed by the clinic’s time zone: its details have none.`;
}

/**
 * The emergency number that a family page bears until the clinic writes its own: never blank.
 *
 * Example: `America/Chicago` is 911, `Europe/London` 112, a zone that is not listed 112.
 */
export function emergencyNumber(timeZone: string): string {
  return BY_ZONE.find(([zone]) => zone.test(timeZone))?.[1] ?? ANYWHERE;
}
