// A file that is chosen becomes the text of the field it goes into. Not here: sending it.
(() => {
  "use strict";

  document.addEventListener("change", async (event) => {
    const into = event.target.matches("input[type=file][data-into]") && document.getElementById(event.target.dataset.into);
    const file = into && event.target.files[0];
    if (file) { into.value = await file.text(); into.dispatchEvent(new Event("input", { bubbles: true })); }
  });
})();
