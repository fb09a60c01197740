import type { Reading } from '@/lib/outcome';

type BoxProps = {
  readonly id: string;
  readonly label: string;
  readonly text: string;
  readonly read: (text: string) => Reading<unknown>;
  readonly onType: (text: string) => void;
  readonly onEnter?: () => void;
  readonly className?: string;
};

/** One measured figure beside the ladder, such as a height: label, box, and below it why it cannot be read. */
export function MeasuredBox({ id, label, text, read, onType, onEnter, className = '' }: BoxProps) {
  const reading = text.trim() === '' ? undefined : read(text);
  const refused = reading && reading.kind !== 'read' ? reading.reason : '';
  return (
    <div className={`measured-box ${className}`}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="text"
        inputMode="decimal"
        autoComplete="off"
        maxLength={60}
        value={text}
        aria-invalid={refused !== ''}
        aria-describedby={`${id}-refusal`}
        onChange={(event) => onType(event.target.value)}
        onKeyDown={(event) => {
          if (event.key !== 'Enter') return;
          event.preventDefault();
          onEnter?.();
        }}
      />
      <span className="refusal" id={`${id}-refusal`}>
        {refused}
      </span>
    </div>
  );
}
