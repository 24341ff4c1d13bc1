// The seconds that matter, with one key; and a line on the strip where the sound is.
const BEFORE_S = 0.25;
const AFTER_S = 0.35;
const LEAST_S = 2;

const player = document.getElementById("player");
let from = 0;
let whole = false;

export const follows = () => document.getElementById("follow")?.getAttribute("aria-pressed") === "true";

export function begin() {
  document.getElementById("follow")?.addEventListener("click", toggleFollow);
  document.addEventListener("click", (event) => {
    const button = event.target.closest("[data-play-from]");
    if (button) playPiece(Number(button.dataset.playFrom), Number(button.dataset.playTo));
  });
  player.addEventListener("timeupdate", () => head(whole ? player.currentTime : from + player.currentTime));
  player.addEventListener("ended", () => head(null));
  player.addEventListener("pause", () => head(null));
}

export function toggleFollow() {
  const follow = document.getElementById("follow");
  follow?.setAttribute("aria-pressed", String(!follows()));
}

export function play(entry) {
  const { from: start, to } = entry.dataset;
  if (start === undefined) return;
  playPiece(Number(start), Number(to));
}

export function playPiece(start, end) {
  if (!("sound" in document.body.dataset)) return;
  const [a, b] = [Math.max(start - BEFORE_S, 0), Math.max(end + AFTER_S, start + LEAST_S)];
  const source = `/piece.wav?from=${a.toFixed(2)}&to=${b.toFixed(2)}`;
  if (!player.paused && player.getAttribute("src") === source) { player.pause(); return; }
  from = a;
  whole = false;
  player.src = source;
  player.play().catch(() => {});
}

// Plays on from there, out of the whole recording, of which the browser fetches the bytes that it needs.
export function playOn(start) {
  if (!("sound" in document.body.dataset)) return;
  if (!player.paused && whole) { player.pause(); return; }
  whole = true;
  player.src = `/sound.flac#t=${Math.max(start - BEFORE_S, 0).toFixed(2)}`;
  player.play().catch(() => {});
}

function head(seconds) {
  const line = document.getElementById("playhead");
  const length = Number(document.getElementById("strip").dataset.seconds);
  if (!line || !length) return;
  const x = seconds === null ? "-9%" : `${(100 * seconds) / length}%`;
  line.setAttribute("x1", x);
  line.setAttribute("x2", x);
}
