// The entry one is at: one at a time is open, with what can be done about it, and the focus is on it.
import { play, follows } from "./sound.js";

let at = null;
let quiet = false;

export const current = () => at;
export const entries = () => [...document.querySelectorAll("main .part:not([hidden]) .entry")];

export function begin() {
  const main = document.querySelector("main");
  main.addEventListener("focusin", (event) => {
    const entry = event.target.closest(".entry");
    if (entry && entry !== at) open(entry);
  });
  main.addEventListener("click", (event) => {
    const entry = event.target.closest(".entry");
    if (entry && entry !== at) goTo(entry, false);
  });
  document.getElementById("strip-place").addEventListener("click", (event) => {
    const mark = event.target.closest("[data-go]");
    const entry = mark && document.getElementById(mark.dataset.go);
    if (entry) goTo(entry);
  });
  const first = entries()[0];
  if (first) { quiet = true; goTo(first, false); quiet = false; }
}

export function goTo(entry, scroll = true) {
  if (!entry) return;
  entry.focus({ preventScroll: true });
  if (entry !== at) open(entry);
  if (scroll) show(entry);
}

function show(entry) {
  const box = entry.getBoundingClientRect();
  const top = document.getElementById("strip-place").getBoundingClientRect().bottom;
  if (box.top < top + 4 || box.bottom > innerHeight - 8) entry.scrollIntoView({ block: box.height > innerHeight / 2 ? "start" : "center" });
}

function open(entry) {
  if (at && at !== entry) close(at);
  at = entry;
  dress(entry);
  if (!quiet && follows()) play(entry);
}

function close(entry) {
  entry.classList.remove("current");
  entry.tabIndex = -1;
  entry.querySelector(".place")?.replaceChildren();
  for (const node of document.querySelectorAll(".words .here")) node.classList.remove("here");
  document.querySelector(".strip .mark.current")?.classList.remove("current");
}

function dress(entry) {
  entry.classList.add("current");
  entry.tabIndex = 0;
  actions(entry);
  const { start, end } = entry.dataset;
  if (start !== undefined) {
    const here = [...document.querySelectorAll(".words [data-at]")].filter((node) => {
      const from = Number(node.dataset.at);
      return from < Number(end) && from + node.textContent.length > Number(start);
    });
    for (const node of here) node.classList.add("here");
    reveal(here[0]);
  }
  document.querySelector(`.strip [data-go="${CSS.escape(entry.id)}"]`)?.classList.add("current");
}

// Scrolls the transcript only where it stands beside the entries.
function reveal(node) {
  const page = document.querySelector(".transcript");
  if (!node || getComputedStyle(page).position !== "sticky") return;
  const box = node.getBoundingClientRect();
  const frame = page.getBoundingClientRect();
  if (box.top < frame.top || box.bottom > frame.bottom) page.scrollTop += box.top - frame.top - frame.height / 3;
}

function actions(entry) {
  const place = entry.querySelector(".place");
  if (place.childElementCount) return;
  const sound = "sound" in document.body.dataset && entry.dataset.from !== undefined;
  const choices = entry.querySelector(".body > .choices");
  if (choices) {
    if (sound && !choices.querySelector("[data-do=play]")) choices.prepend(copy("t-play"));
    return;
  }
  const made = copy(entry.classList.contains("kind-dropped") ? "t-back" : "t-actions");
  if (!sound) made.querySelector("[data-do=play]").remove();
  place.append(made);
}

export const copy = (id) => document.getElementById(id).content.firstElementChild.cloneNode(true);

// Remembers where one is before the page changes; what it returns goes there, or to what has come next.
export function keepPlace() {
  const list = entries();
  const place = at ? list.indexOf(at) : -1;
  const key = at?.id;
  const section = at?.closest(".part")?.id;
  const after = list.slice(place + 1).map((entry) => entry.id);
  const focused = document.activeElement;
  const inside = at?.contains(focused) && focused !== at;
  const elsewhere = focused && focused !== document.body && !at?.contains(focused);
  return () => {
    const same = key && document.getElementById(key);
    const stayed = same && same.closest(".part")?.id === section;
    const next = stayed ? same : after.map((id) => document.getElementById(id)).find((entry) => entry && !entry.closest("[hidden]"));
    const entry = next ?? entries()[0];
    if (!entry) { at = null; return; }
    if (elsewhere && stayed) { if (same !== at) { at = same; dress(same); } return; }
    if (stayed && same === at && inside && document.contains(focused)) return;
    if (at && at !== entry && document.contains(at)) close(at);
    at = null;
    if (stayed) { at = entry; dress(entry); entry.focus({ preventScroll: true }); }
    else goTo(entry);
  };
}

export function step(by) {
  const list = entries();
  const place = list.indexOf(at);
  goTo(list[Math.min(Math.max(place + by, 0), list.length - 1)]);
}

export function toNextOpen() {
  const open = [...document.querySelectorAll("#s-decide .entry, #s-skipped .entry")];
  const place = open.indexOf(at);
  goTo(open[(place + 1) % open.length] ?? at);
}
