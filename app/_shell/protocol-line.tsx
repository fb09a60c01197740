/** Said under every verdict and every proposal, on screen and on paper. `what` is the page unless it is something else. */
export function ProtocolLine({ what = 'This page' }: { readonly what?: string }) {
  return <p className="protocol-line">{what} does not diagnose or decide. Follow your local protocol and the prescriber.</p>;
}
