// Talks to the server: every edit goes out at once, and comes back with what has changed on the page.
import { apply, state } from "./sheet.js";

const JSON_SENT = { "content-type": "application/json" };
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

// All that changes something goes one after the other, so that each sees the one before.
let last = Promise.resolve();
function inTurn(sent) {
  last = last.catch(() => {}).then(async () => taken(await sent()));
  return last;
}

// Sends a wish; true where it was done.
export function wish(asked) {
  return inTurn(() => post("/edit", JSON.stringify({ ...asked, who: who(), seen: state.seen || "none" }), JSON_SENT));
}

export async function ask(path, body) {
  const said = await post(path, JSON.stringify(body), JSON_SENT);
  if (!said.ok) tell(said.refused, true);
  return said.ok ? said : null;
}

export const send = (path, form) => inTurn(() => post(path, form, {}));

export const order = (path, body) => inTurn(() => post(path, JSON.stringify(body), JSON_SENT));

function taken(said) {
  if (!said.ok) { tell(said.refused ?? "That did not work.", true); return false; }
  if (!apply(said)) return true;
  document.body.dataset.made = String(Number(document.body.dataset.made ?? 0) + said.made.length);
  tell([...said.done.map((one) => `${one}.`), ...said.news.map((one) => `${one}.`)].join(" "));
  return true;
}
