import { type FormEvent, startTransition } from 'react';

/**
 * Sends a form to its action and leaves the boxes as they are.
 *
 * React empties a form that it sends itself, and unticks even a box whose tick is held in state. The form needs `method="post"`: sent
 * before the page is alive, nothing typed may stand in the address.
 */
export function withoutReset(action: (form: FormData) => void): (event: FormEvent<HTMLFormElement>) => void {
  return (event) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    startTransition(() => action(form));
  };
}
