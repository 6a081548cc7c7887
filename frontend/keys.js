/*
 * The keys of the queue and of a referral before the physician. A key presses the button that carries it (data-key), never while something is
 * typed, a dialog is open, or the page has only just been shown and what is pressed would decide.
 */
(() => {
  if (window.limbqueueKeys) {
    return;
  }
  const OFF = "lq-keys-off";
  /* Nobody reads a referral faster than that. */
  const READ_AFTER_MS = 300;
  let pressedAt = 0;

  const off = () => localStorage.getItem(OFF) === "yes";

  const focused = () => {
    let element = document.activeElement;
    while (element && element.shadowRoot && element.shadowRoot.activeElement) {
      element = element.shadowRoot.activeElement;
    }
    return element;
  };

  const types = (element) =>
    element &&
    (element.isContentEditable ||
      element.tagName === "TEXTAREA" ||
      element.tagName === "SELECT" ||
      (element.tagName === "INPUT" && !["checkbox", "radio", "button"].includes(element.type)));

  const covered = () => document.querySelector("vaadin-dialog[opened], vaadin-confirm-dialog[opened]");

  window.limbqueueKeys = {
    /** Called once a referral is on the page. */
    shown(page, referral) {
      page.dataset.referral = referral;
      delete page.dataset.read;
      if (pressedAt) {
        const from = pressedAt;
        pressedAt = 0;
        // A message sent within a frame arrives once the frame has been painted.
        const painted = new MessageChannel();
        painted.port1.onmessage = () => performance.measure("lq-shown", { start: from, end: performance.now() });
        requestAnimationFrame(() => painted.port2.postMessage(""));
      }
      setTimeout(() => {
        if (page.dataset.referral === referral) {
          page.dataset.read = referral;
        }
      }, READ_AFTER_MS);
    },

    /** The switch in the list of keys. */
    bind(box) {
      box.checked = !off();
      box.addEventListener("change", () => localStorage.setItem(OFF, box.checked ? "no" : "yes"));
    },
  };

  /* The words that a flag rests on are a button that can be broken over lines, which a real one cannot. */
  document.addEventListener("keydown", (event) => {
    if ((event.key === "Enter" || event.key === " ") && event.target.matches?.(".lq-proof-open") && !event.repeat) {
      event.preventDefault();
      event.target.click();
    }
  });

  /** Ctrl+Enter presses the button of a dialog that decides. */
  document.addEventListener("keydown", (event) => {
    const button = event.ctrlKey && event.key === "Enter" && document.querySelector("vaadin-dialog[opened] .lq-decide");
    if (button && !event.repeat && !off()) {
      event.preventDefault();
      focused()?.dispatchEvent(new Event("change", { bubbles: true }));
      button.click();
    }
  });

  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.repeat || event.defaultPrevented) {
      return;
    }
    const page = document.querySelector(".lq-referral, .lq-queue");
    if (!page || off() || types(focused()) || covered()) {
      return;
    }
    const button = page.querySelector(`[data-key="${CSS.escape(event.key.toLowerCase())}"]`);
    if (!button || button.disabled || (button.dataset.decides && !page.dataset.read)) {
      return;
    }
    event.preventDefault();
    pressedAt = performance.now();
    button.click();
  });
})();
