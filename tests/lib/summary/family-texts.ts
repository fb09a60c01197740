import type { ClinicTexts } from '@/lib/summary/family/clinic-texts';

/** What a made-up clinic says on its family pages: a page with these may be approved. */
export const FAMILY_TEXTS: ClinicTexts = {
  care: '',
  wait: '',
  phone: '555-0142',
  phoneHours: 'Monday to Friday, 8 to 5.',
  night: 'At night and on weekends, call 555-0199.',
  emergency: '911',
};
