// The page as it stands: takes in what has changed, here or elsewhere, without losing the place.
import { keepPlace } from "./cursor.js";
import { get, tell } from "./send.js";

const EVERY_MS = 2000;
export const state = { version: "", seen: "" };

export function begin() {
  state.version = document.body.dataset.version;
  state.seen = document.body.dataset.seen;
  setInterval(() => { if (!document.hidden) look(); }, EVERY_MS);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) look(); });
  reviewed();
}

async function look() {
  const before = state.version;
  const said = await get(`/changes?since=${encodeURIComponent(before)}&seen=${encodeURIComponent(state.seen)}`);
  if (!said || state.version !== before) return;
  const changed = said.version !== before;
  if (!apply(said)) return;
  if (changed && said.news.length) tell(said.news.map((one) => `${one}.`).join(" "));
}

const AGAIN = "The walk was heard again meanwhile. Save what you are writing, or leave it with Back; then the page is shown anew.";

// Only what has changed is sent, and only that is touched. False where the page must begin anew.
export function apply(said) {
  if (said.again) {
    if (document.querySelector("form.edit")) tell(AGAIN, true); else location.reload();
    return false;
  }
  state.version = said.version;
  state.seen = said.seen;
  if (!said.order) return true;
  const place = keepPlace();
  for (const [key, html] of Object.entries(said.html)) replace(key, html);
  for (const section of said.order) leave(section);
  for (const section of said.order) arrange(section);
  for (const part of document.querySelectorAll("main .part.brief")) if (!said.sections.includes(part.id.slice(2))) part.remove();
  for (const [key, html] of Object.entries(said.words)) replace(key, html);
  strip(said);
  heading(said.head);
  fresh.clear();
  reviewed();
  place();
  return true;
}

const fresh = new Map();  // entries that stand nowhere on the page at the moment, by key

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

function leave({ key, title, entries }) {
  const part = document.getElementById(`s-${key}`) ?? begun(key, title);
  const stay = new Set(entries);
  for (const entry of [...part.querySelectorAll(".entry")]) if (!stay.has(entry.id)) { fresh.set(entry.id, entry); entry.remove(); }
  part.hidden = entries.length === 0;
  part.querySelector(".count").textContent = entries.length;
}

function arrange({ key, entries }) {
  const list = document.querySelector(`#s-${key} .list`);
  let next = list.firstElementChild;
  for (const name of entries) {
    const node = fresh.get(name) ?? document.getElementById(name);
    if (node === next) next = next.nextElementSibling;
    else if (node) list.insertBefore(node, next);
  }
}

// A section that was not there before: a zone that no list of the machine has.
function begun(key, title) {
  const part = document.getElementById("s-zone-0").cloneNode(true);
  part.id = `s-${key}`;
  part.setAttribute("aria-labelledby", `h-${key}`);
  part.querySelector("h2").id = `h-${key}`;
  part.querySelector(".name").textContent = title;
  part.querySelector(".list").replaceChildren();
  document.getElementById("s-dropped").before(part);
  return part;
}

function strip({ strip: whole, zones, marks }) {
  if (whole) { document.getElementById("strip-place").innerHTML = whole; return; }
  if (zones) {
    document.getElementById("strip").setAttribute("aria-label", `The recording: ${zones.told}`);
    document.getElementById("strip-zones").innerHTML = zones.html;
  }
  const all = document.getElementById("strip-marks");
  for (const [key, html] of Object.entries(marks)) {
    document.getElementById(key)?.remove();
    all.insertAdjacentHTML("beforeend", html);
  }
  for (const mark of [...all.children]) if (!document.getElementById(mark.dataset.go)) mark.remove();
}

function heading(head) {
  document.getElementById("unit").textContent = head.unit;
  document.getElementById("machine").textContent = `${head.kind}, ${head.hours}`;
  document.getElementById("recordings").textContent = head.recordings;
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

