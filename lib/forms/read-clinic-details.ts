import { isLandmarkOf, LIMBS, type LimbKind } from '../ladder/limb';
import { CLINIC_BOUNDS, type ClinicDetails, type FirstSetUp } from '../record/clinic-details';
import { readLength } from '../units/read-length';

/** What was typed, word for word, by box; the address one line a line. */
export type TypedClinicDetails = Readonly<Record<string, string>>;

/**
 * A clinic's details from what was typed, or one sentence beside each box that stops them.
 *
 * Refuses an empty name, texts too long, too many lines of address, a unit that is none, a time zone that is not among those given, and a first set-up
 * of a limb that is not whole: zero, direction and interval go together.
 * Shape: typed boxes, the zones this machine knows. Example: an address of two lines and an empty telephone is read.
 */
export function readClinicDetails(
  typed: TypedClinicDetails,
  zones: readonly string[],
): { readonly kind: 'read'; readonly details: ClinicDetails } | { readonly kind: 'refused'; readonly errors: Record<string, string> } {
  const errors: Record<string, string> = {};
  const text = (box: string, most: number): string => {
    const found = (typed[box] ?? '').trim();
    if (found.length > most) errors[box] = `Too long: ${most} characters at most.`;
    return found;
  };
  const name = text('name', CLINIC_BOUNDS.name);
  if (name === '') errors.name = 'Type the name of the clinic: it heads every page and letter.';
  const subtitle = text('subtitle', CLINIC_BOUNDS.name);
  const phone = text('phone', CLINIC_BOUNDS.phone) || null;
  const emergency = text('emergency', CLINIC_BOUNDS.phone);
  if (emergency !== '' && !/\d/.test(emergency)) errors.emergency = 'Type a number that a telephone can dial, or leave it empty.';
  const address = (typed.address ?? '')
    .split(/\r?\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '');
  if (address.length > CLINIC_BOUNDS.lines) errors.address = `${CLINIC_BOUNDS.lines} lines at most.`;
  else if (address.some((line) => line.length > CLINIC_BOUNDS.line)) errors.address = `${CLINIC_BOUNDS.line} characters a line at most.`;
  const lengthUnit = (['in', 'cm'] as const).find((one) => one === typed.lengthUnit);
  if (!lengthUnit) errors.lengthUnit = 'Choose inches or centimetres.';
  const massUnit = (['lb', 'kg'] as const).find((one) => one === typed.massUnit);
  if (!massUnit) errors.massUnit = 'Choose pounds or kilograms.';
  const timeZone = zones.find((one) => one === typed.timeZone);
  if (!timeZone) errors.timeZone = 'Choose the zone in which the clinic counts its days.';
  const posture = text('posture', CLINIC_BOUNDS.posture);
  const setUp: Partial<Record<LimbKind, FirstSetUp>> = {};
  for (const limb of Object.keys(LIMBS) as LimbKind[]) {
    const [zero, direction, interval] = [
      text(`${limb}Zero`, 60),
      text(`${limb}Direction`, 4),
      text(`${limb}Interval`, CLINIC_BOUNDS.interval),
    ];
    const unit = (['in', 'cm'] as const).find((one) => one === typed[`${limb}Unit`]) ?? lengthUnit;
    if (zero === '' && direction === '' && interval === '') continue;
    const way = (['up', 'down'] as const).find((one) => one === direction);
    if (!isLandmarkOf(limb, zero)) errors[`${limb}Zero`] = 'Choose the landmark that is zero, or leave all three empty.';
    if (!way) errors[`${limb}Direction`] = 'Choose the direction, or leave all three empty.';
    const step = unit && readLength(interval, unit, true);
    if (step && step.kind !== 'read')
      errors[`${limb}Interval`] = interval === '' ? 'Type the interval, or leave all three empty.' : step.reason;
    else if (step && step.value.nm <= 0) errors[`${limb}Interval`] = 'The interval is more than nought.';
    if (way) setUp[limb] = { zero, direction: way, interval, ...(unit && unit !== lengthUnit ? { unit } : {}) };
  }
  if (!lengthUnit || !massUnit || !timeZone || Object.keys(errors).length > 0) return { kind: 'refused', errors };
  return {
    kind: 'read',
    details: {
      name,
      subtitle,
      lengthUnit,
      massUnit,
      timeZone,
      address,
      phone,
      setUp,
      ...(emergency && { emergency }),
      ...(posture && { posture }),
    },
  };
}
