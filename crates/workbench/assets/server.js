// @ts-check
/** Requests to the program, and the line of messages. */

/** Mark of this window, so that it knows its own changes. */
export const window_mark = Math.random().toString(36).slice(2, 10);

/**
 * Sends a request and reads the JSON of the answer; a broken connection is an answer too.
 * @param {string} method @param {string} address @param {object} [body]
 * @returns {Promise<{ok: boolean, status: number, body: any}>}
 */
export async function ask(method, address, body) {
  try {
    const answer = await fetch(address, {
      method,
      headers: body ? { "content-type": "application/json" } : {},
      body: body ? JSON.stringify(body) : undefined,
    });
    const text = await answer.text();
    return { ok: answer.ok, status: answer.status, body: text ? JSON.parse(text) : {} };
  } catch {
    const message = "the program does not answer; what you typed is still here: try again when it runs";
    return { ok: false, status: 0, body: { errors: [{ code: "no_answer", path: "", message }] } };
  }
}

/**
 * Shows a message; an empty one clears the line.
 * @param {string} words @param {"error" | "note"} [kind]
 */
export function say(words, kind = "note") {
  const line = document.getElementById("message");
  if (!line) return;
  if (line.textContent !== words) line.textContent = words;
  line.dataset.kind = kind;
  line.hidden = words === "";
}
