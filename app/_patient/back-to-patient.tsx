/** The way back from a screen about one patient. */
export function BackToPatient({ patientId }: { readonly patientId: string }) {
  return (
    <a className="button" href={`/patients/${patientId}`} data-soft="">
      Back to the patient
    </a>
  );
}
