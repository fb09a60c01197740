import 'server-only';
import { deviceKey } from '@/app/_draft/device-key';
import type { Therapist } from '@/db/therapist';
import { buildId } from './build-id';
import type { Signed } from './care';

/** A person as a device knows them that keeps something of theirs. */
export function signedOn(therapist: Therapist): Signed {
  return { build: buildId(), person: deviceKey(therapist, '', 'offline').name, waiting: deviceKey(therapist, '', 'waiting') };
}
