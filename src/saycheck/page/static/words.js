// The transcript: words are marked with the pointer or with the keys, played, and made into a finding.
import { current, goTo } from "./cursor.js";
import { made, pieces } from "./form.js";
import { playPiece } from "./sound.js";
import { ask, wish } from "./send.js";

const bar = document.getElementById("marked");
let place = null;  // the paragraph, and the first and last word marked in it

export const atWords = (node) => Boolean(node.closest?.("#words"));

export function begin() {
  document.addEventListener("selectionchange", changed);
  document.getElementById("words").addEventListener("keydown", pressed);
  document.getElementById("marked-add").addEventListener("click", add);
  document.getElementById("marked-off").addEventListener("click", letGo);
  document.getElementById("marked-play").addEventListener("click", hear);
}

export function toWords() {
  const here = document.querySelector("#words .here");
  const paragraph = here?.closest(".words") ?? document.querySelector("#words .words");
  if (!paragraph) return;
  paragraph.focus();
  const list = wordsOf(paragraph);
  const from = here ? Math.max(list.findIndex((one) => one.start >= Number(here.dataset.at)), 0) : 0;
  mark(paragraph, from, from);
}

// The words of a paragraph: text node and places in it, and the offset in the transcript in whole characters,
// of which JavaScript counts some as two.
function wordsOf(paragraph) {
  const out = [];
  for (const span of paragraph.querySelectorAll("[data-at]")) {
    const node = span.firstChild;
    for (const found of node?.data.matchAll(/\S+/g) ?? []) {
      const start = Number(span.dataset.at) + [...node.data.slice(0, found.index)].length;
      out.push({ node, from: found.index, to: found.index + found[0].length, start, end: start + [...found[0]].length, text: found[0] });
    }
  }
  return out;
}

function mark(paragraph, first, last) {
  const list = wordsOf(paragraph);
  const clamp = (at) => Math.min(Math.max(at, 0), list.length - 1);
  place = { paragraph, first: clamp(first), last: clamp(last) };
  const [a, b] = [Math.min(place.first, place.last), Math.max(place.first, place.last)];
  getSelection().setBaseAndExtent(list[a].node, list[a].from, list[b].node, list[b].to);
  list[place.last].node.parentElement.scrollIntoView({ block: "nearest" });
}

function pressed(event) {
  const paragraph = event.target.closest(".words");
  if (!paragraph || event.ctrlKey || event.metaKey || event.altKey || event.target.closest("form")) return;
  const by = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
  if (by) {
    event.preventDefault();
    if (!place || place.paragraph !== paragraph) { mark(paragraph, 0, 0); return; }
    const to = place.last + by;
    const other = by > 0 ? paragraph.nextElementSibling : paragraph.previousElementSibling;
    if (event.shiftKey) mark(paragraph, place.first, to);
    else if ((to < 0 || to >= wordsOf(paragraph).length) && other) enter(other, by > 0 ? 0 : Infinity);
    else mark(paragraph, to, to);
  } else if (event.key === "ArrowDown" || event.key === "ArrowUp") {
    event.preventDefault();
    const other = event.key === "ArrowDown" ? paragraph.nextElementSibling : paragraph.previousElementSibling;
    if (other) enter(other, 0);
  } else if (event.key === " ") {
    event.preventDefault();
    hear();
  } else if (event.key === "Enter") {
    event.preventDefault();
    add();
  } else if (event.key === "Escape" || event.key === "w") {
    event.preventDefault();
    event.stopPropagation();
    letGo();
  }
}

function enter(paragraph, at) {
  paragraph.focus();
  mark(paragraph, at, at);
}

// Where the selection lies in the transcript; null where nothing of it is marked.
function range() {
  const chosen = getSelection();
  if (!chosen.rangeCount || chosen.isCollapsed) return null;
  const drawn = chosen.getRangeAt(0);
  const inside = [...document.querySelectorAll("#words .words")].filter((one) => drawn.intersectsNode(one));
  const found = inside.flatMap(wordsOf).filter(({ node, from, to }) => {
    return drawn.comparePoint(node, to) >= 0 && drawn.comparePoint(node, from) <= 0 && !(drawn.endContainer === node && drawn.endOffset <= from) && !(drawn.startContainer === node && drawn.startOffset >= to)
      || (drawn.comparePoint(node, from) === 0 && drawn.comparePoint(node, to) === 0);
  });
  if (!found.length) return null;
  return { start: found[0].start, end: found.at(-1).end, words: found.map((one) => one.text).join(" "), paragraph: found.at(-1).node.parentElement.closest(".words") };
}

function changed() {
  if (document.querySelector("#words form")) return;
  const found = range();
  bar.hidden = !found;
  if (found) document.getElementById("marked-words").textContent = found.words;
}

async function hear() {
  const found = range();
  const said = found && (await ask("/proposal", { start: found.start, end: found.end }));
  if (said && said.start_s !== null) playPiece(said.start_s, said.end_s);
}

function letGo() {
  getSelection().removeAllRanges();
  place = null;
  bar.hidden = true;
  goTo(current());
}

async function add() {
  const found = range();
  if (!found) return;
  const proposed = await ask("/proposal", { start: found.start, end: found.end });
  if (!proposed) return;
  const form = await made([proposed], [`“${proposed.words}”`]);
  document.querySelector("#words form")?.remove();
  bar.hidden = true;
  found.paragraph.after(form);
  form.querySelector("[data-cancel]").addEventListener("click", () => { form.remove(); letGo(); });
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const patches = pieces(form);
    if (!patches) return;
    if (await wish({ action: "add", start: proposed.start, end: proposed.end, patches })) { form.remove(); letGo(); }
  });
  form.querySelector("input").focus();
  form.scrollIntoView({ block: "nearest" });
}

