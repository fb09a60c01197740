import { z } from 'zod';
import { MEASURER_BOUNDS, type MeasurerMatch } from './measurer';

/** The matches as they are stored. */
export const MEASURER_MATCHES: z.ZodType<readonly MeasurerMatch[]> = z
  .array(
    z.object({
      digest: z.string().length(64),
      is: z.union([
        z.object({ kind: z.literal('person'), personId: z.string().min(1) }),
        z.object({ kind: z.literal('outsider'), role: z.string().min(1).max(MEASURER_BOUNDS.role) }),
        z.object({ kind: z.literal('left') }),
      ]),
    }),
  )
  .max(MEASURER_BOUNDS.most);
