// The page comes alive: each module looks after one thing.
import { begin as cursor } from "./cursor.js";
import { begin as keys } from "./keys.js";
import { begin as looks } from "./looks.js";
import { begin as sheet } from "./sheet.js";
import { begin as sound } from "./sound.js";
import { begin as actions } from "./actions.js";
import { begin as words } from "./words.js";
import { begin as photographs } from "./photographs.js";

for (const begin of [sheet, sound, actions, words, photographs, looks, keys, cursor]) begin();
document.documentElement.dataset.ready = "";
