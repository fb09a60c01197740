import type { LengthUnit } from '@/lib/units/length';
import { readLength } from '@/lib/units/read-length';
import { echoLength } from '@/lib/units/show-length';

type Pasted = { readonly text: string; readonly refused: string | null; readonly stands: string };

/** How a pasted figure was read, or why it is refused, and what stands in its box now: the last two cells of a row of any preview. */
export function PastedCells({ figure: { text, refused, stands }, unit }: { readonly figure: Pasted; readonly unit: LengthUnit }) {
  const reading = readLength(text, unit, true);
  return (
    <>
      <td className={refused ? 'refusal' : undefined}>
        {refused ?? (reading.kind === 'read' ? echoLength(reading.value.nm / 1e6, unit) : '')}
      </td>
      <td>{stands === '' ? '–' : <b>{`${stands}, is replaced`}</b>}</td>
    </>
  );
}
