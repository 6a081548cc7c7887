/*
 * A long form for fast hands: Enter goes to the next field and never sends anything. What was typed is saved a moment
 * after the last change, and when the page is hidden.
 */
(() => {
  if (customElements.get("lq-form")) {
    return;
  }
  const SAVE_AFTER_MS = 1000;
  const FIELDS = "input:not([type=radio]), input[type=radio]:checked, select, textarea";

  class Form extends HTMLElement {
    #timer = 0;
    #hidden = () => {
      if (document.visibilityState === "hidden" && this.#timer) {
        this.#save();
      }
    };

    connectedCallback() {
      this.addEventListener("keydown", this.#key);
      document.addEventListener("visibilitychange", this.#hidden);
    }

    disconnectedCallback() {
      clearTimeout(this.#timer);
      document.removeEventListener("visibilitychange", this.#hidden);
    }

    /* Called by the server after each change that it has taken in. */
    saveSoon() {
      clearTimeout(this.#timer);
      this.#timer = setTimeout(() => this.#save(), SAVE_AFTER_MS);
    }

    #save() {
      clearTimeout(this.#timer);
      this.#timer = 0;
      this.dispatchEvent(new CustomEvent("lq-save"));
    }

    #key = (event) => {
      if (event.key !== "Enter" || event.target.matches("textarea, button, a, summary")) {
        return;
      }
      event.preventDefault();
      const fields = [...this.querySelectorAll(FIELDS)].filter((field) => field.offsetParent !== null);
      const next = fields.indexOf(event.target) + (event.shiftKey ? -1 : 1);
      fields[next]?.focus();
    };
  }

  customElements.define("lq-form", Form);
})();
