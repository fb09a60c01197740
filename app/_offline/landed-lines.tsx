import type { Landed } from './send-waiting';

/** What became of visits that waited, a paragraph each. */
export function LandedLines({ landed }: { readonly landed: readonly Landed[] }) {
  return landed.map((one) => (
    <p key={one.id}>
      <LandedLine one={one} />
    </p>
  ));
}

function LandedLine({ one }: { readonly one: Landed }) {
  if (one.kind === 'renewed')
    return (
      <>
        {'The program was renewed: for this device to open without a connection, '}
        <a href="/offline">open its page once</a>.
      </>
    );
  if (one.kind === 'saved')
    return (
      <>
        {`The visit of ${one.name}, finished at ${one.finishedAt} without a connection, is on the server. `}
        <a href={one.href}>Open its result</a>
      </>
    );
  if (one.kind === 'back')
    return (
      <>
        {`The visit of ${one.name} is not saved yet. ${one.why} Its figures are on its sheet. `}
        <a href={one.href}>Open the sheet</a>
      </>
    );
  const why = one.why === 'offline' ? 'the server cannot be reached' : 'sign in as whoever finished it, and it is sent';
  return <>{`${one.name === null ? 'A finished visit' : `The finished visit of ${one.name}`} waits on this device: ${why}.`}</>;
}
