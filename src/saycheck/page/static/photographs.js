// Photographs: chosen or taken, and sent one by one.
import { send, tell, who } from "./send.js";

const field = document.getElementById("file");
const LARGEST = 16 * 1024 * 1024;
let finding = null;

export function begin() {
  field.addEventListener("change", async () => {
    for (const photograph of field.files) {
      if (photograph.size > LARGEST) { tell(`${photograph.name} has more than 16 MB; send a smaller one.`, true); continue; }
      const form = new FormData();
      form.append("finding", finding);
      form.append("who", who());
      form.append("photograph", photograph);
      await send("/photographs", form);
    }
    field.value = "";
  });
}

export function choosePhotograph(id) {
  finding = id;
  field.click();
}
