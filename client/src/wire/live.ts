/* News from the server that something changed; whoever hears it asks again. An event carries no content. */
/** One line of the record of what happened at a table. */
export interface TableEvent {
  kind: string;
  at: string;
  detail: Record<string, unknown>;
}

export interface LiveEvent {
  table: string;
  kind: string;
}

const POLL_MS = 3000;

/** What of EventSource is needed here, so that a test can stand in for it. */
export interface Stream {
  onmessage: ((event: MessageEvent<string>) => unknown) | null;
  onerror: ((event: Event) => unknown) | null;
  readyState: number;
  close(): void;
}

const CLOSED = 2;

/**
 * Call `onnews` whenever something changed at a table (null: at any). Returns how to stop.
 *
 * A stream that breaks reconnects by itself; one that cannot be had (an old proxy, the server away) is
 * replaced by asking every 3 seconds. After each reconnection the server says hello first, which is news.
 */
export function watch(
  table: string | null,
  onnews: (news: LiveEvent) => void,
  open: (url: string) => Stream = (url) => new EventSource(url),
): () => void {
  let poll: ReturnType<typeof setInterval> | undefined;
  const stream = open(table === null ? "/api/live" : `/api/live?table=${encodeURIComponent(table)}`);

  const startPolling = () => {
    poll ??= setInterval(() => onnews({ table: table ?? "", kind: "poll" }), POLL_MS);
  };
  const stopPolling = () => {
    clearInterval(poll);
    poll = undefined;
  };

  stream.onmessage = (event) => {
    stopPolling();
    onnews(JSON.parse(event.data) as LiveEvent);
  };
  stream.onerror = startPolling;
  if (stream.readyState === CLOSED) startPolling();

  return () => {
    stopPolling();
    stream.close();
  };
}
