import Link from 'next/link';

/** The way back from a screen about one patient. */
export function BackToPatient({ patientId }: { readonly patientId: string }) {
  return (
    <Link className="button" href={`/patients/${patientId}`} prefetch={false}>
      Back to the patient
    </Link>
  );
}
