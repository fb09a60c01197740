/** What stood in the boxes of the form that was sent last, and on which page. Passwords and files are never kept. */
type Sent = { readonly path: string; readonly boxes: readonly { readonly name: string; readonly place: number; readonly value: string }[] };

type Box = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

const NOT_TYPED = ['hidden', 'password', 'file', 'submit', 'button'];

let sent: Sent | undefined;

/** Remembers, in this window only, what a form holds as it is sent: where its action fails, the page is built anew with empty boxes. */
export function rememberTyped(form: HTMLFormElement): void {
  const boxes = boxesOf(form).map(({ box, place }) => ({ name: box.name, place, value: textOf(box) }));
  sent = { path: window.location.pathname, boxes };
}

/** True when the form sent last was one of this page, so that its boxes can be filled again. */
export function hasTyped(): boolean {
  return sent?.path === window.location.pathname && sent.boxes.length > 0;
}

/** Fills the boxes of the page again as they were sent. */
export function putBackTyped(): void {
  if (!hasTyped()) return;
  const forms = [...document.querySelectorAll('form')].map(boxesOf);
  const names = new Set(sent?.boxes.map(({ name }) => name));
  const best = forms.find((boxes) => [...names].every((name) => boxes.some(({ box }) => box.name === name)));
  for (const { box, place } of best ?? []) {
    const kept = sent?.boxes.find((one) => one.name === box.name && one.place === place);
    if (kept) setValue(box, kept.value);
  }
}

function boxesOf(form: HTMLFormElement): { box: Box; place: number }[] {
  const counts = new Map<string, number>();
  return [...form.elements].filter(isTyped).map((box) => {
    const place = counts.get(box.name) ?? 0;
    counts.set(box.name, place + 1);
    return { box, place };
  });
}

function isTyped(element: Element): element is Box {
  if (element instanceof HTMLTextAreaElement || element instanceof HTMLSelectElement) return element.name !== '';
  return element instanceof HTMLInputElement && element.name !== '' && !NOT_TYPED.includes(element.type);
}

function isTick(box: Box): box is HTMLInputElement {
  return box instanceof HTMLInputElement && (box.type === 'checkbox' || box.type === 'radio');
}

function textOf(box: Box): string {
  if (isTick(box)) return box.checked ? 'ticked' : '';
  return box.value;
}

/** Set as a person would, so that a box whose text is held in state hears of it. */
function setValue(box: Box, value: string): void {
  if (isTick(box)) {
    if (box.checked !== (value === 'ticked')) box.click();
    return;
  }
  Object.getOwnPropertyDescriptor(Object.getPrototypeOf(box), 'value')?.set?.call(box, value);
  for (const event of ['input', 'change']) box.dispatchEvent(new Event(event, { bubbles: true }));
}
