/* The queue by keyboard: j, k and the arrows move through the lines; Enter, as for every link, opens. */
(() => {
  if (window.limbqueueQueueKeys) {
    return;
  }
  window.limbqueueQueueKeys = true;

  const steps = { j: 1, ArrowDown: 1, k: -1, ArrowUp: -1 };

  document.addEventListener("keydown", (event) => {
    const step = steps[event.key];
    const queue = document.querySelector(".lq-queue");
    if (!step || !queue || event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) {
      return;
    }
    const focused = document.activeElement;
    if (focused && focused !== document.body && !queue.contains(focused)) {
      return; // somebody types in a dialog or moves in the navigation
    }
    const lines = [...queue.querySelectorAll("a.lq-queue-entry")];
    const at = lines.indexOf(focused);
    const next = at < 0 ? lines[step > 0 ? 0 : lines.length - 1] : lines[at + step];
    if (next) {
      event.preventDefault();
      next.focus();
      next.scrollIntoView({ block: "nearest" });
    }
  });
})();
