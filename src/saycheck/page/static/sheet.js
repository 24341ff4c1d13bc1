// The page as it stands: takes in what has changed, here or elsewhere, without losing the place.
import { keepPlace } from "./cursor.js";
import { get, tell } from "./send.js";

const EVERY_MS = 2000;
let strip = "";
export const state = { version: "", seen: "" };

export function begin() {
  state.version = document.body.dataset.version;
  state.seen = document.body.dataset.seen;
  setInterval(() => { if (!document.hidden) look(); }, EVERY_MS);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) look(); });
  reviewed();
}

async function look() {
  const before = state.seen;
  const said = await get(`/changes?since=${encodeURIComponent(state.version)}&seen=${encodeURIComponent(state.seen)}`);
  if (!said || state.seen !== before) return;
  const changed = said.version !== state.version;
  apply(said);
  if (changed && said.news.length) tell(said.news.map((one) => `${one}.`).join(" "));
}

export function apply(said) {
  state.version = said.version;
  state.seen = said.seen;
  if (!said.order) return;
  const place = keepPlace();
  for (const [key, html] of Object.entries(said.html)) replace(key, html);
  const keep = new Set();
  for (const [section, keys] of said.order) arrange(section, keys, keep);
  for (const entry of document.querySelectorAll(".entry")) if (!keep.has(entry.id)) entry.remove();
  for (const [key, html] of Object.entries(said.words)) replace(key, html);
  if (said.strip !== strip) document.getElementById("strip-place").innerHTML = strip = said.strip;
  heading(said.head);
  fresh.clear();
  reviewed();
  place();
}

const fresh = new Map();

function replace(key, html) {
  const made = document.createElement("template");
  made.innerHTML = html.trim();
  const node = made.content.firstElementChild;
  const old = document.getElementById(key);
  if (!old) { fresh.set(key, node); return; }
  const form = old.querySelector("form.edit");
  if (form) node.querySelector(".place").append(form);  // someone is writing here
  old.replaceWith(node);
}

function arrange(section, keys, keep) {
  const list = document.querySelector(`#s-${section} .list`);
  let after = null;
  for (const key of keys) {
    keep.add(key);
    const node = document.getElementById(key) ?? fresh.get(key);
    if (!node) continue;
    const there = after ? after.nextElementSibling : list.firstElementChild;
    if (node !== there) list.insertBefore(node, there);
    after = node;
  }
  const part = document.getElementById(`s-${section}`);
  part.hidden = keys.length === 0;
  part.querySelector(".count").textContent = keys.length;
}

function heading(head) {
  document.getElementById("unit").textContent = head.unit;
  document.getElementById("machine").textContent = `${head.kind}, ${head.hours}`;
  document.getElementById("progress").textContent = head.told;
  document.getElementById("undo").disabled = !head.undo;
  document.getElementById("redo").disabled = !head.redo;
}

function reviewed() {
  const open = document.querySelectorAll("#s-decide .entry, #s-skipped .entry").length;
  const end = document.getElementById("s-end");
  const main = end.parentElement;
  end.hidden = open > 0;
  if (!end.hidden && main.firstElementChild !== end) main.prepend(end);
}

