import type { GarmentSpec } from '../../garment-forms/garment-catalogue';

/**
 * What a garment is called to a payer: a compression garment only where it has a compression class, else a pressure garment.
 *
 * Source: common practice of the trade: classes belong to compression; garments for scars are pressure garments.
 */
export function garmentKind(garment: Pick<GarmentSpec, 'pressure'> | null | undefined): 'compression garment' | 'pressure garment' {
  return garment?.pressure ? 'compression garment' : 'pressure garment';
}
