// Begins: unpacks the library and gives it the page.

import {wake} from "./engine.js";

async function begin() {
  await wake();
  library.open_page();
}

begin().catch((error) => {
  const opening = document.getElementById("opening");
  opening.textContent = `${opening.dataset.failed} (${error.message})`;
});
