// Everything by key. A single key counts only where nobody is typing, and can be switched off.
import { act, choose } from "./actions.js";
import { current, goTo, step, toNextOpen } from "./cursor.js";
import { play, playOn, toggleFollow } from "./sound.js";
import { wish } from "./send.js";
import { atWords, toWords } from "./words.js";

const PLAIN = {
  j: () => step(1), ArrowDown: () => step(1), k: () => step(-1), ArrowUp: () => step(-1), n: toNextOpen,
  c: () => act("change"), d: () => act("drop"), s: () => act("split"), m: () => act("join"), p: () => act("photograph"),
  u: () => wish({ action: "undo" }), U: () => wish({ action: "redo" }), l: toggleFollow, w: toWords,
  "?": () => document.getElementById("keys").showModal(),
};

export function begin() {
  document.addEventListener("keydown", pressed);
  document.getElementById("undo").addEventListener("click", () => wish({ action: "undo" }));
  document.getElementById("redo").addEventListener("click", () => wish({ action: "redo" }));
}

const typing = (node) => node.matches?.("input:not([type=radio], [type=checkbox]), textarea, select");

function pressed(event) {
  const node = event.target;
  if (event.defaultPrevented || event.altKey || document.querySelector("dialog[open]")) return;
  if (event.ctrlKey || event.metaKey) {
    if (typing(node)) return;
    const key = event.key.toLowerCase();
    if (key === "z" || key === "y") { event.preventDefault(); wish({ action: key === "y" || event.shiftKey ? "redo" : "undo" }); }
    return;
  }
  if (event.key === "Escape") { back(); return; }
  if (node.id === "who" && event.key === "Enter") { goTo(current()); return; }
  const form = node.closest?.("form.edit");
  if (typing(node) || node.matches?.("summary")) return;
  if (form) {
    const reason = form.querySelector(`[data-number-key="${CSS.escape(event.key)}"]`);
    if (reason && !node.matches("input")) { event.preventDefault(); reason.click(); }
    return;
  }
  if (!document.getElementById("keys-on").checked || atWords(node)) return;
  const entry = current();
  const onButton = node.matches?.("button, a");
  if (event.key === " ") {
    if (onButton || !entry) return;
    event.preventDefault();
    if (event.shiftKey) playOn(Number(entry.dataset.from ?? 0)); else play(entry);
  } else if (event.key === "Enter") {
    if (onButton || !entry) return;
    event.preventDefault();
    if (!choose(entry, "Enter")) act("accept");
  } else if (entry && choose(entry, event.key)) {
    event.preventDefault();
  } else if (PLAIN[event.key]) {
    event.preventDefault();
    PLAIN[event.key]();
  }
}

function back() {
  const cancel = document.querySelector("form.edit [data-cancel]");
  if (cancel) { cancel.click(); return; }
  if (!document.getElementById("marked").hidden) { document.getElementById("marked-off").click(); return; }
  goTo(current());
}
