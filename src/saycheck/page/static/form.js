// The form in which a finding is changed, split or made: part, side, state, condition, measurements.
import { combo } from "./combo.js";
import { copy } from "./cursor.js";
import { ask, get } from "./send.js";
import { show } from "./actions.js";

let known = null;
export async function vocabulary() {
  if (known) return known;
  const said = await get("/vocabulary");
  if (!said) return { parts: [], conditions: [], units: [] };
  known = said;
  document.getElementById("units").replaceChildren(...said.units.map((unit) => new Option(unit, unit)));
  return known;
}

export async function edit(entry, id) {
  const finding = await get(`/finding/${encodeURIComponent(id)}`);
  if (!finding) return;
  const form = await made([finding], ["Finding"]);
  show(entry, form, () => {
    const patches = pieces(form);
    return patches && { action: "change", findings: [id], patches, ...answering(entry) };
  });
}

export async function split(entry, id) {
  const finding = await get(`/finding/${encodeURIComponent(id)}`);
  if (!finding) return;
  const rest = { ...finding, condition: "", measurements: [] };
  const form = await made([finding, rest], ["First piece", "Second piece"]);
  const more = form.querySelector("[data-more]");
  more.hidden = false;
  more.addEventListener("click", async () => {
    const count = form.querySelectorAll(".piece").length;
    form.querySelector(".pieces").append(await piece(rest, `Piece ${count + 1}`, count));
  });
  show(entry, form, () => {
    const patches = pieces(form);
    return patches && { action: "split", findings: [id], patches };
  });
}

// A finding of the words of an unclear passage, or of a part that was not spoken of.
export async function addFor(entry, about) {
  const { start, end } = entry.dataset;
  const blank = { part: "", side: "none", state: "", condition: "", denied: false, measurements: [] };
  const proposed = about ? { ...blank, ...about, state: "writeup" } : await ask("/proposal", { start: Number(start), end: Number(end) });
  if (!proposed) return;
  const form = await made([proposed], [about ? "What is wrong" : "A finding of these words"]);
  show(entry, form, () => {
    const patches = pieces(form);
    if (!patches) return null;
    return about ? { action: "add", patches: [{ ...patches[0], zone: about.zone }], reason: "the reviewer says so" } : { action: "add", start: proposed.start, end: proposed.end, patches };
  });
}

const answering = (entry) => (entry.dataset.question ? { question: entry.dataset.question } : {});

export async function made(findings, titles) {
  const form = copy("t-edit");
  for (const [at, finding] of findings.entries()) form.querySelector(".pieces").append(await piece(finding, titles[at], at));
  return form;
}

async function piece(finding, title, at) {
  const { parts, conditions } = await vocabulary();
  const set = copy("t-piece");
  set.querySelector("legend").textContent = title;
  const [part, condition] = [set.querySelector("[name=part]"), set.querySelector("[name=condition]")];
  part.value = finding.part;
  condition.value = finding.condition;
  set.querySelector("[name=denied]").checked = finding.denied;
  for (const pick of set.querySelectorAll(".pick")) {
    for (const radio of pick.querySelectorAll("input")) {
      radio.name = `${pick.dataset.name}-${at}`;
      radio.checked = radio.value === finding[pick.dataset.name];
    }
  }
  combo(part, parts.map((one) => ({ name: one.name, also: one.sayings })));
  combo(condition, conditions.map((one) => ({ name: one, also: [] })));
  const numbers = set.querySelector(".numbers");
  const add = (said) => {
    const row = copy("t-number");
    const [value, unit, plus] = row.querySelectorAll("input");
    if (said) { value.value = said.value; unit.value = said.unit === "count" ? "" : said.unit; plus.value = said.plus_minus || ""; }
    row.querySelector("[data-less]").addEventListener("click", () => row.remove());
    numbers.append(row);
    if (!said) value.focus();
  };
  finding.measurements.forEach(add);
  set.querySelector("[data-number]").addEventListener("click", () => add(null));
  for (const label of set.querySelectorAll(".field label")) {
    const field = label.parentElement.querySelector("input");
    field.id = `field-${at}-${field.name}`;
    label.htmlFor = field.id;
  }
  return set;
}

const number = (text) => Number(text.trim().replace(",", "."));

// What the form says, or null with a sentence where something is missing.
export function pieces(form) {
  const wrong = form.querySelector(".wrong");
  wrong.textContent = "";
  const out = [];
  for (const set of form.querySelectorAll(".piece")) {
    const picked = (name) => set.querySelector(`[data-name=${name}] input:checked`)?.value;
    const measurements = [...set.querySelectorAll(".number")].map((row) => {
      const [value, unit, plus] = row.querySelectorAll("input");
      return { value: value.value.trim() ? number(value.value) : NaN, unit: unit.value.trim(), plus_minus: plus.value.trim() ? number(plus.value) : 0 };
    });
    const part = set.querySelector("[name=part]").value.trim();
    if (!part) wrong.textContent = "Which part? Fill in the part.";
    else if (!picked("state")) wrong.textContent = "How is it? Choose a state.";
    else if (measurements.some((one) => !Number.isFinite(one.value) || !(one.plus_minus >= 0))) wrong.textContent = "A measurement is no number.";
    if (wrong.textContent) return null;
    const condition = set.querySelector("[name=condition]").value.trim();
    out.push({ part, side: picked("side") ?? "none", state: picked("state"), condition: condition || null, denied: set.querySelector("[name=denied]").checked, measurements });
  }
  return out;
}
