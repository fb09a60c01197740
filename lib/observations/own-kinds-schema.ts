import { z } from 'zod';
import { OWN_KIND_BOUNDS, type OwnKind } from './catalogue';

const figure = z.number().min(-OWN_KIND_BOUNDS.figure).max(OWN_KIND_BOUNDS.figure);

/** A clinic's own kinds as they are stored. */
export const OWN_KINDS: z.ZodType<readonly OwnKind[]> = z
  .array(
    z.object({
      id: z.string().regex(/^own-\d{1,3}$/),
      label: z.string().min(1).max(OWN_KIND_BOUNDS.label),
      unit: z.string().max(OWN_KIND_BOUNDS.unit),
      low: figure,
      high: figure,
      leastChange: figure.nullable(),
      asked: z.boolean(),
    }),
  )
  .max(OWN_KIND_BOUNDS.most);
