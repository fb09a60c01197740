import { type Limit, limit } from './limit';

const asked = (value: number, source: string, what: string): Limit => limit(value, 'days', 'clinic default', source, what);

/** How long an answer of “no” counts before it greys and is asked again, a limit for each subject. Published: that they are asked; no interval was found. */
export const CAUTION_ASK_LIMITS = {
  visitAnswerDays: asked(
    92,
    'Asked at every visit and hand-over; a visit comes at least every 3 months while growing.',
    'Days that an answer of a visit counts when no visit follows',
  ),
  orderAskDays: asked(
    14,
    'Asked at every new order for this pressure and side.',
    'Days before an order within which its cautions are asked',
  ),
  handOverAskDays: asked(
    1,
    'Asked at every hand-over: the day itself, or the day before.',
    'Days before a hand-over within which its cautions are asked',
  ),
  pregnancyAskDays: asked(
    31,
    'Size is checked monthly in pregnancy; clot risk lasts to 6 weeks after birth.',
    'Days that “not pregnant” counts',
  ),
  medicineAskDays: asked(
    92,
    'Swelling comes 1 to 3 days to a year after the start of a medicine (review, doi 10.7759/cureus.53400, abstract).',
    'Days that “no new medicine” counts',
  ),
  operationAskDays: asked(92, 'Asked at every visit and at once after an admission.', 'Days that “no operation” counts'),
  deviceAskDays: asked(92, 'Lines, pumps and openings come and go between visits.', 'Days that “no device, line or opening” counts'),
  accessAskDays: asked(365, 'Kidney and dialysis access: yearly, or at change.', 'Days that “no dialysis access” counts'),
  heartAskDays: asked(365, 'Heart class: yearly, or at change.', 'Days that “no heart failure” counts'),
  feelingAskDays: asked(365, 'Monofilament yearly, a daily look at the skin.', 'Days that “feeling is whole” counts'),
  cancerAskDays: asked(365, 'Yearly, or at change.', 'Days that “no active cancer” counts'),
  graftAskDays: asked(365, 'Yearly, or after a vascular operation.', 'Days that “no bypass near the skin” counts'),
  allergyAskDays: asked(365, 'Allergies are asked before the first garment and with the yearly sheet.', 'Days that “no allergy” counts'),
  removeAskDays: asked(182, 'Hands, sight and memory change; who lives with the person too.', 'Days that “can take it off” counts'),
  heatAskDays: asked(182, 'Before each summer.', 'Days that an answer on heat counts'),
} as const satisfies Record<string, Limit>;
