/** One request to a server: never longer than its time, never more than a mebibyte of answer, no redirect. */

/** The part of `fetch` that is used. */
export type Fetch = (
  url: string,
  options: {
    readonly signal: AbortSignal;
    readonly redirect: "manual";
    readonly headers: Readonly<Record<string, string>>;
  },
) => Promise<{ readonly status: number; readonly body: AsyncIterable<Uint8Array> | null }>;

/** More than any answer about a hundred places has, bytes. */
export const MOST_ANSWER = 1 << 20;

/** A server's answer, or why there is none. */
export type Reply =
  | { readonly kind: "answer"; readonly status: number; readonly body: string }
  | { readonly kind: "endless" }
  | { readonly kind: "none"; readonly why: string };

const secondsText = (ms: number): string => `${Math.max(0.1, Math.round(ms / 100) / 10)} s`;

function reasonOf(error: unknown, timeout: number): string {
  if (!(error instanceof Error)) return "no connection";
  if (error.name === "TimeoutError" || error.name === "AbortError") return `no answer within ${secondsText(timeout)}`;
  const { cause } = error;
  const code = typeof cause === "object" && cause !== null && "code" in cause ? cause.code : null;
  return typeof code !== "string" ? "no connection" : (CODES.get(code) ?? `no connection (${code})`);
}

/** What the system and the client call the usual reasons. */
const CODES: ReadonlyMap<string, string> = new Map([
  ["ECONNREFUSED", "nothing listens there"],
  ["ECONNRESET", "it broke the connection off"],
  ["UND_ERR_SOCKET", "it broke the connection off"],
  ["ENOTFOUND", "there is no such host"],
  ["EAI_AGAIN", "the name of the host cannot be looked up now"],
  ["EHOSTUNREACH", "there is no way to the host"],
  ["ENETUNREACH", "there is no network"],
]);

/** The whole text of an answer; null where it is longer than the most. Leaving the loop ends the connection. */
async function textOf(body: AsyncIterable<Uint8Array> | null): Promise<string | null> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  for await (const chunk of body ?? []) {
    size += chunk.length;
    if (size > MOST_ANSWER) return null;
    chunks.push(chunk);
  }
  return new TextDecoder().decode(Buffer.concat(chunks));
}

/** Asks once; `timeout` in ms covers the answer to its last byte. */
export async function request(fetch: Fetch, url: string, timeout: number): Promise<Reply> {
  try {
    const signal = AbortSignal.timeout(Math.max(1, timeout));
    const response = await fetch(url, { signal, redirect: "manual", headers: { accept: "application/json" } });
    const body = await textOf(response.body);
    return body === null ? { kind: "endless" } : { kind: "answer", status: response.status, body };
  } catch (error) {
    return { kind: "none", why: reasonOf(error, timeout) };
  }
}
