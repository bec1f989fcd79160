// Speaking with the desk: JSON there and back. Two things can go amiss: nobody answers, or what was sent is refused.

const token = document.querySelector('meta[name="desk-token"]').content;

/** Nobody answers: the desk was closed, or the machine sleeps. */
export class Away extends Error {}

/** The desk answered that it will not do this; `told` is what it said. */
export class Refused extends Error {
  /** @param {number} status @param {any} told */
  constructor(status, told) {
    super(told?.words ?? String(status));
    this.status = status;
    this.told = told;
  }
}

/**
 * @param {string} method
 * @param {string} path "/api/answer"
 * @param {object} [body]
 * @param {AbortSignal} [signal]
 */
export async function ask(method, path, body, signal) {
  let reply;
  try {
    reply = await fetch(path, {
      method,
      signal,
      headers: { 'X-Desk-Token': token, ...(body ? { 'Content-Type': 'application/json' } : {}) },
      body: body ? JSON.stringify(body) : undefined,
    });
  } catch (cause) {
    if (cause.name === 'AbortError') throw cause;
    throw new Away();
  }
  const told = reply.headers.get('content-type')?.includes('json') ? await reply.json() : await reply.text();
  if (!reply.ok) throw new Refused(reply.status, told);
  return told;
}

export const post = (path, body, signal) => ask('POST', path, body, signal);
export const get = (path) => ask('GET', path);
