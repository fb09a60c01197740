import { vi } from 'vitest';
import { type MadeUpClinic, madeUpClinic } from './made-up-clinic';

/** Both engines; every test of records runs on each. */
export const ENGINES = ['sqlite', 'postgres'] as const;

/** A fresh database of one engine with two clinics, its modules loaded anew so that they see this engine. */
export async function clinicOn(engine: (typeof ENGINES)[number]): Promise<ClinicOn> {
  vi.resetModules();
  return madeUpClinic(engine);
}

export type ClinicOn = MadeUpClinic;
