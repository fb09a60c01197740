type Props = {
  readonly errors: Readonly<Record<string, string>>;
  /** The id of a box by its name, where a page has several forms. */
  readonly idOf?: (box: string) => string;
};

/** Above a form that was refused: that nothing was saved, or what stops the whole of it, and the way to the first box that says why. */
export function RefusedAbove({ errors, idOf = (box) => box }: Props) {
  const boxes = Object.keys(errors);
  if (boxes.length === 0) return null;
  const [first] = boxes.filter((box) => box !== 'form');
  return (
    <p className="refused-box" role="alert">
      {errors.form ?? `Nothing is saved yet: ${boxes.length === 1 ? 'one box wants' : `${boxes.length} boxes want`} another look.`}{' '}
      {first && <a href={`#${idOf(first)}`}>{boxes.length === 1 ? 'Go to it' : 'Go to the first'}</a>}
    </p>
  );
}
