'use client';

/** Prints the page as it stands. */
export function PrintButton({ words }: { readonly words: string }) {
  return (
    <button type="button" className="button" onClick={() => window.print()}>
      {words}
    </button>
  );
}
