/** Why a person wears compression or pressure garments, as broad groups. Clinic default list; the tool diagnoses nothing. */
export const DIAGNOSIS_GROUPS = [
  'burn scar',
  'other scar',
  'lymphoedema',
  'lipoedema',
  'venous',
  'vascular malformation',
  'other',
] as const;
