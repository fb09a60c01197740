/** Connections that may wait at once without a request in work; beyond it the one that waits longest goes. */
const MOST_WAITING = 256;

/**
 * Keeps connections that send nothing, or a head drop by drop, from taking all the room.
 *
 * A connection waits from its beginning, and again from the end of an answer. Who has a request in work is never cut off; a browser whose
 * idle connection went opens another without a word.
 */
export function keepFromCrowding(server) {
  const waiting = new Set();
  server.on('connection', (socket) => {
    waiting.add(socket);
    socket.once('close', () => waiting.delete(socket));
    if (waiting.size <= MOST_WAITING) return;
    const [longest] = waiting;
    waiting.delete(longest);
    longest.destroy();
  });
  server.prependListener('request', ({ socket }, response) => {
    waiting.delete(socket);
    response.once('close', () => {
      if (!socket.destroyed) waiting.add(socket);
    });
  });
}
