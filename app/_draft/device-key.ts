import 'server-only';
import { hkdfSync } from 'node:crypto';
import { authSecret } from '@/app/_auth/auth-secret';
import type { Therapist } from '@/db/therapist';
import type { DeviceKey } from '@/lib/entry/entry-data';

/**
 * The name and the key under which a browser keeps what is typed on one sheet while the server cannot be reached.
 *
 * Both come from the server's secret by HKDF-SHA-256 (RFC 5869), for one person, one patient and one kind of form: the same person,
 * signed in again, gets the same key; anybody else gets another. The name tells nothing of any of them.
 */
export function deviceKey(therapist: Therapist, patientId: string, kind: string): DeviceKey {
  const of = (what: string, bytes: number) =>
    Buffer.from(
      hkdfSync('sha256', authSecret(), '', ['copy on a device', what, therapist.clinicId, therapist.id, patientId, kind].join('\n'), bytes),
    );
  return { name: of('name', 16).toString('hex'), key: of('key', 32).toString('base64') };
}
