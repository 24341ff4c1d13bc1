// A field that offers what is known while one types: by name, or by what else it is called. What is not known can
// be typed all the same. Built as the combobox of the ARIA Authoring Practices.
const MOST = 8;
let count = 0;

export function combo(field, known) {
  const list = document.createElement("div");
  list.id = `list-${++count}`;
  list.setAttribute("role", "listbox");
  list.setAttribute("aria-label", "Known names");
  list.hidden = true;
  const attributes = { role: "combobox", "aria-autocomplete": "list", "aria-expanded": "false", "aria-controls": list.id, autocomplete: "off" };
  for (const [name, value] of Object.entries(attributes)) field.setAttribute(name, value);
  field.after(list);
  let at = -1;

  const close = () => { list.hidden = true; at = -1; field.setAttribute("aria-expanded", "false"); field.removeAttribute("aria-activedescendant"); };
  const take = (option) => { field.value = option.dataset.name; close(); };
  const point = (to) => {
    const options = [...list.children];
    at = (to + options.length) % options.length;
    options.forEach((option, place) => option.setAttribute("aria-selected", String(place === at)));
    field.setAttribute("aria-activedescendant", options[at].id);
    options[at].scrollIntoView({ block: "nearest" });
  };
  const open = () => {
    const found = matches(known, field.value);
    list.replaceChildren(...found.map(([one, saying], place) => {
      const option = document.createElement("div");
      option.id = `${list.id}-${place}`;
      option.setAttribute("role", "option");
      option.setAttribute("aria-selected", "false");
      option.dataset.name = one.name;
      option.textContent = one.name;
      if (saying && saying !== one.name) { const small = document.createElement("small"); small.textContent = ` ${saying}`; option.append(small); }
      option.addEventListener("mousedown", (event) => { event.preventDefault(); take(option); });
      return option;
    }));
    at = -1;
    list.hidden = found.length === 0;
    field.setAttribute("aria-expanded", String(!list.hidden));
    field.removeAttribute("aria-activedescendant");
  };

  field.addEventListener("input", open);
  field.addEventListener("focus", () => field.select());
  field.addEventListener("blur", close);
  field.addEventListener("keydown", (event) => {
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      event.preventDefault();
      if (list.hidden) open();
      if (!list.hidden) point(at < 0 && event.key === "ArrowUp" ? -1 : at + (event.key === "ArrowDown" ? 1 : -1));
    } else if (event.key === "Enter" && !list.hidden && at >= 0) {
      event.preventDefault();
      take(list.children[at]);
    } else if (event.key === "Escape" && !list.hidden) {
      event.preventDefault();
      event.stopPropagation();
      close();
    } else if (event.key === "Tab" && !list.hidden && at >= 0) take(list.children[at]);
  });
}

// Names that fit what was typed, those that begin with it first, each with the saying that fits.
export function matches(known, typed) {
  const wanted = typed.trim().toLowerCase();
  const found = [];
  for (const one of known) {
    let best = null;
    for (const saying of [one.name, ...one.also]) {
      const place = saying.indexOf(wanted);
      if (place < 0) continue;
      const score = (place === 0 ? 0 : saying[place - 1] === " " ? 1 : 2) + (saying === one.name ? 0 : 3);
      if (!best || score < best.score) best = { score, saying };
    }
    if (best) found.push([best.score, one, best.saying]);
  }
  found.sort((a, b) => a[0] - b[0] || a[1].name.length - b[1].name.length);
  return found.slice(0, MOST).map(([, one, saying]) => [one, saying]);
}
