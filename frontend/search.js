/* The key / leads to the search in the bar, unless somebody types or a dialog is open. */
(() => {
  if (window.limbqueueSearchKey) {
    return;
  }
  window.limbqueueSearchKey = true;

  const types = (element) =>
    element &&
    (element.isContentEditable || ["INPUT", "TEXTAREA", "SELECT"].includes(element.tagName));

  document.addEventListener("keydown", (event) => {
    if (event.key !== "/" || event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) {
      return;
    }
    let focused = document.activeElement;
    while (focused && focused.shadowRoot && focused.shadowRoot.activeElement) {
      focused = focused.shadowRoot.activeElement;
    }
    const box = document.querySelector(".lq-search-words");
    if (!box || types(focused) || document.querySelector("vaadin-dialog[opened], vaadin-confirm-dialog[opened]")) {
      return;
    }
    event.preventDefault();
    box.focus();
    box.select();
  });
})();
