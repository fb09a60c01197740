import type { Therapist } from '../therapist';

/** Whose clinic is counted: a person signed in, or, when all data are checked, the clinic alone. */
export type OfClinic = Pick<Therapist, 'clinicId'>;
