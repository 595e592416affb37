// Talks to the service that this page came from, and to nobody else.

const TOKEN_HEADER = 'X-Tarnish-Token';
const STATE_HEADER = 'X-Tarnish-State';
const TIMEOUT_MILLIS = 4000;
const PHOTO_TIMEOUT_MILLIS = 60000;

let token = '';
let session = null;

// What the person sees and decides on, and who this page is: acts carry both.
let state = '';
let held = '';
const page = crypto.getRandomValues(new Uint32Array(4)).join('-');

/** A failure with a sentence for the person. `status` is 0 when the service cannot be reached. */
export class Failure extends Error {
  constructor(status, sentence) {
    super(sentence);
    this.status = status;
  }
}

async function call(path, options, patience = TIMEOUT_MILLIS) {
  let response;
  try {
    response = await fetch(path, {
      ...options,
      cache: 'no-store',
      redirect: 'error',
      signal: AbortSignal.timeout(patience),
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
  if (response.status === 401 && !path.startsWith('/api/login')) {
    location.assign('login.html');
  }
  if (!response.ok) throw new Failure(response.status, body.error || 'The service refused.');
  state = response.headers.get(STATE_HEADER) || state;
  return body;
}

/** While a person decides, what counts is what they saw when they began to. */
export function holdState() {
  held = state;
}

export function letStateGo() {
  held = '';
}

export const read = (path) => call(path, {});

/** Who is signed in, if anybody has to: {signIn, person, role}. */
export async function learnSession() {
  session = await read('/api/session');
  token = session.token || '';
  return session;
}

const headers = (type) => ({
  'Content-Type': type,
  [TOKEN_HEADER]: token || 'none yet',
  [STATE_HEADER]: held || state,
  'X-Tarnish-Page': page,
});

const send = (path, body) =>
  call(path, { method: 'POST', headers: headers('application/json'), body: JSON.stringify(body) });

/** After a restart of the service the token is old, so it is asked for once more. */
async function withToken(action) {
  if (!token) await learnSession();
  try {
    return await action();
  } catch (failure) {
    if (failure.status !== 403) throw failure;
    await learnSession();
    return action();
  }
}

/** Sends a change. */
export const write = (path, body) => withToken(() => send(path, body));

export const request = (body) => write('/api/requests', body);

export const sendPhoto = (file, by, remark) =>
  withToken(() =>
    call(
      `/api/photos?${new URLSearchParams({ by, remark })}`,
      { method: 'POST', headers: headers(file.type), body: file },
      PHOTO_TIMEOUT_MILLIS,
    ));

export const signIn = (name, password) => send('/api/login', { name, password });
export const signOut = () => write('/api/logout', {});

/** Everything off, at once: without people to sign in it needs no token that is up to date. */
export const abort = () =>
  session && session.signIn
    ? write('/api/abort', {})
    : call('/api/abort', { method: 'POST', headers: { [TOKEN_HEADER]: '' } });
