// Talks to the service that this page came from, and to nobody else.

const TOKEN_HEADER = 'X-Tarnish-Token';
const TIMEOUT_MILLIS = 4000;

let token = '';

/** A failure with a sentence for the person. `status` is 0 when the service cannot be reached. */
export class Failure extends Error {
  constructor(status, sentence) {
    super(sentence);
    this.status = status;
  }
}

async function call(path, options) {
  let response;
  try {
    response = await fetch(path, {
      ...options,
      cache: 'no-store',
      redirect: 'error',
      signal: AbortSignal.timeout(TIMEOUT_MILLIS),
    });
  } catch {
    throw new Failure(0, 'The service cannot be reached.');
  }
  let body = {};
  try {
    body = await response.json();
  } catch {
    throw new Failure(response.status, 'The service gave an answer that cannot be read.');
  }
  if (!response.ok) throw new Failure(response.status, body.error || 'The service refused.');
  return body;
}

export const read = (path) => call(path, {});

async function learnToken() {
  token = (await read('/api/session')).token;
}

async function send(path, body) {
  const headers = { 'Content-Type': 'application/json', [TOKEN_HEADER]: token };
  return call(path, { method: 'POST', headers, body: JSON.stringify(body) });
}

/** Sends a change; after a restart of the service the token is old, so it is asked for once more. */
export async function write(path, body) {
  if (!token) await learnToken();
  try {
    return await send(path, body);
  } catch (failure) {
    if (failure.status !== 403) throw failure;
    await learnToken();
    return send(path, body);
  }
}

export const request = (body) => write('/api/requests', body);

/** Everything off, at once: needs neither a name nor a token that is up to date. */
export const abort = () => call('/api/abort', { method: 'POST', headers: { [TOKEN_HEADER]: '' } });
