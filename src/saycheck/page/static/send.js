// Talks to the server: every edit goes out at once, and comes back with what has changed on the page.
import { apply, state } from "./sheet.js";

const ENDED = "The program that serves this page has ended. What you did before is kept; start saycheck review again.";

export function tell(sentence, wrong = false) {
  const told = document.getElementById("told");
  told.textContent = sentence;
  told.classList.toggle("wrong", wrong);
}

export const who = () => document.getElementById("who").value.trim() || "someone";

export async function get(path) {
  const answer = await fetch(path).catch(() => null);
  if (!answer) { tell(ENDED, true); return null; }
  const said = await answer.json();
  if (!answer.ok) { tell(said.refused ?? "That did not work.", true); return null; }
  return said;
}

async function post(path, body, headers) {
  const answer = await fetch(path, { method: "POST", body, headers: { "saycheck-since": state.version, ...headers } }).catch(() => null);
  if (!answer) return { refused: ENDED };
  const text = await answer.text();
  try { return { ok: answer.ok, ...JSON.parse(text) }; } catch { return { refused: text || "That did not work." }; }
}

// Sends a wish; true where it was done. Wishes go one after the other, so that each sees the one before.
let last = Promise.resolve();
export function wish(asked) {
  last = last.then(() => sendWish(asked));
  return last;
}

async function sendWish(asked) {
  const body = JSON.stringify({ ...asked, who: who(), seen: state.seen || "none" });
  return taken(await post("/edit", body, { "content-type": "application/json" }));
}

export async function ask(path, body) {
  const said = await post(path, JSON.stringify(body), { "content-type": "application/json" });
  if (!said.ok) tell(said.refused, true);
  return said.ok ? said : null;
}

export async function send(path, form) {
  return taken(await post(path, form, {}));
}

export async function order(path, body) {
  return taken(await post(path, JSON.stringify(body), { "content-type": "application/json" }));
}

function taken(said) {
  if (!said.ok) { tell(said.refused ?? "That did not work.", true); return false; }
  apply(said);
  document.body.dataset.made = String(Number(document.body.dataset.made ?? 0) + said.made.length);
  tell([...said.done.map((one) => `${one}.`), ...said.news.map((one) => `${one}.`)].join(" "));
  return true;
}
