// By day, by night, for the sun; and the list of keys.
const LOOKS = [["", "as the device"], ["light", "day"], ["dark", "night"], ["sun", "sun"]];

export function begin() {
  const root = document.documentElement;
  const name = document.getElementById("look-name");
  const show = () => { name.textContent = LOOKS.find(([look]) => look === (root.dataset.look ?? ""))?.[1] ?? ""; };
  document.getElementById("look").addEventListener("click", () => {
    const at = LOOKS.findIndex(([look]) => look === (root.dataset.look ?? ""));
    const next = LOOKS[(at + 1) % LOOKS.length][0];
    if (next) { root.dataset.look = next; localStorage.setItem("look", next); }
    else { delete root.dataset.look; localStorage.removeItem("look"); }
    show();
  });
  show();
  const keys = document.getElementById("keys");
  document.getElementById("help").addEventListener("click", () => keys.showModal());
}
