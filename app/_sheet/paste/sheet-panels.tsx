import type { ComponentProps } from 'react';
import { PastePanel } from './paste-panel';
import { ReadBack } from './read-back';

type PanelsProps = Omit<ComponentProps<typeof PastePanel>, 'onCancel' | 'text' | 'from'> &
  Omit<ComponentProps<typeof ReadBack>, 'onClose'> & {
    readonly panel: string | null;
    readonly pasted: Pick<ComponentProps<typeof PastePanel>, 'text' | 'from'>;
    readonly onClose: () => void;
  };

/** The panels that are asked for: pasting a column, and reading back. */
export function SheetPanels({ panel, pasted, from, onClose, ...sheet }: PanelsProps) {
  if (panel === 'paste') return <PastePanel {...sheet} {...pasted} onCancel={onClose} />;
  return panel === 'read-back' ? <ReadBack {...sheet} from={from} onClose={onClose} /> : null;
}
