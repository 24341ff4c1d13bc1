// What can be done about an entry: at once, or through a form that opens in it.
import { copy, current, goTo, entries } from "./cursor.js";
import { choosePhotograph } from "./photographs.js";
import { edit, split, addFor } from "./form.js";
import { play } from "./sound.js";
import { order, tell, who, wish } from "./send.js";

export function begin() {
  document.querySelector("main").addEventListener("click", clicked);
}

function clicked(event) {
  const button = event.target.closest("button");
  const entry = event.target.closest(".entry");
  if (!button) return;
  if (button.classList.contains("accept-all")) acceptAll(button.closest(".part"));
  else if (button.dataset.wish) wish(JSON.parse(button.dataset.wish));
  else if (button.dataset.opens) opened(button, entry);
  else if (button.dataset.do) { goTo(entry, false); act(button.dataset.do); }
  else if (button.dataset.photoOff) order(`/photographs/${button.dataset.photoOff}/off`, { finding: entry.dataset.finding, who: who() });
}

export function act(what) {
  const entry = current();
  if (!entry) return;
  if (what === "play") { play(entry); return; }
  const id = entry.dataset.finding;
  if (!id) { if (what !== "accept") tell("This is a question; choose one of its answers."); return; }
  if (entry.classList.contains("kind-dropped") && what !== "accept") { tell("It is taken off; put it back first."); return; }
  if (what === "accept") accept(entry, id);
  else if (what === "change") edit(entry, id);
  else if (what === "split") split(entry, id);
  else if (what === "drop") drop(entry, id);
  else if (what === "join") join(entry, id);
  else if (what === "photograph") choosePhotograph(id);
}

async function accept(entry, id) {
  const list = entries();
  const next = list[list.indexOf(entry) + 1]?.id;
  const inZone = entry.closest(".brief");
  if (await wish({ action: "accept", findings: [id] }) && inZone && next) goTo(document.getElementById(next));
}

function acceptAll(part) {
  const ids = [...part.querySelectorAll(".entry[data-finding]")].map((entry) => entry.dataset.finding);
  if (ids.length) wish({ action: "accept", findings: ids });
}

// Presses the button of a question that has this key.
export function choose(entry, key) {
  const button = entry.querySelector(`.body > .choices [data-key-hint="${CSS.escape(key)}"]`);
  button?.click();
  return Boolean(button);
}

function opened(button, entry) {
  const { opens, on, part, side } = button.dataset;
  if (opens === "edit") edit(entry, on);
  else if (opens === "add") addFor(entry, part ? { part, side, zone: entry.dataset.zone } : null);
  else ask(entry, opens, on);
}

// A form in an entry: shown, with the focus in it, until it is saved or left.
export function show(entry, form, saved) {
  const place = entry.querySelector(".place");
  const was = [...place.children];
  place.replaceChildren(form);
  form.querySelector("[data-cancel]").addEventListener("click", () => { place.replaceChildren(...was.filter((one) => !one.matches("form"))); goTo(entry); });
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const asked = saved(form);
    if (asked === null) return;
    const kept = [...place.children];
    form.remove();
    if (!(await wish(asked)) && document.contains(place)) { place.replaceChildren(...kept); form.querySelector("input")?.focus(); }
  });
  form.querySelector("input, button")?.focus();
  form.scrollIntoView({ block: "nearest" });
}

function drop(entry, id) {
  const form = copy("t-drop");
  form.querySelectorAll("[data-reason]").forEach((button, at) => {
    button.dataset.numberKey = at + 1;
    button.addEventListener("click", () => { form.elements.reason.value = button.dataset.reason; form.requestSubmit(); });
  });
  show(entry, form, () => ({ action: "drop", findings: [id], reason: form.elements.reason.value.trim() }));
}

// What an entry says in one line; read from its text, since what is off the screen is not laid out.
function named(entry) {
  const heading = entry.querySelector("h3").cloneNode(true);
  heading.querySelector(".said")?.prepend(", ");
  return heading.textContent;
}

function join(entry, id) {
  const form = copy("t-join");
  const start = Number(entry.dataset.start ?? 0);
  const near = entries()
    .filter((one) => one.dataset.finding && one.dataset.finding !== id && !one.classList.contains("kind-dropped"))
    .sort((a, b) => Math.abs((a.dataset.start ?? 1e9) - start) - Math.abs((b.dataset.start ?? 1e9) - start))
    .slice(0, 9);
  let other = null;
  near.forEach((one, at) => {
    const button = document.createElement("button");
    button.type = "button";
    button.dataset.numberKey = at + 1;
    button.textContent = `${named(one)} `;
    const key = document.createElement("kbd");
    key.textContent = at + 1;
    button.append(key);
    button.addEventListener("click", () => { other = one.dataset.finding; form.requestSubmit(); });
    form.querySelector(".column").append(button);
  });
  show(entry, form, () => (other ? { action: "merge", findings: [id, other] } : null));
}

const number = (text) => (text.trim() ? Number(text.trim().replace(",", ".")) : NaN);

function ask(entry, what, on) {
  const form = copy(`t-${what}`);
  const question = entry.dataset.question;
  const wrong = form.querySelector(".wrong");
  show(entry, form, () => {
    const field = form.elements;
    if (what === "unit") return { action: "machine", unit: field.unit.value, question };
    const value = number((field.hours ?? field.value).value);
    if (!Number.isFinite(value)) { wrong.textContent = "That is no number."; return null; }
    if (what === "hours") return { action: "machine", hours: value, question };
    const measurement = { value, unit: field.unit.value.trim(), plus_minus: number(field.plus.value) || 0 };
    return { action: "change", findings: [on], patches: [{ measured: [measurement] }], question };
  });
}
