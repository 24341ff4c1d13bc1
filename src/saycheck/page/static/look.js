// The look that was chosen here before, set before anything is drawn. No module, so that it runs at once.
const chosen = localStorage.getItem("look");
if (chosen) document.documentElement.dataset.look = chosen;
