/*
 * A letter beside what it proposes: pointing at one side lights up what belongs to it on the other, and the keys answer.
 * The keys count only while the focus is on a proposal, so that they cannot be typed by chance.
 */
(() => {
  if (customElements.get("lq-letter")) {
    return;
  }
  const LIT = "lq-lit";
  const KEYS = { y: "accept", n: "refuse", c: "correct" };
  const TYPING = "input, select, textarea, lq-answer";

  class Letter extends HTMLElement {
    connectedCallback() {
      this.addEventListener("mouseover", this.#point);
      this.addEventListener("focusin", this.#focus);
      this.addEventListener("mouseleave", this.#leave);
      this.addEventListener("click", this.#click);
      this.addEventListener("keydown", this.#key);
    }

    disconnectedCallback() {
      this.removeEventListener("mouseover", this.#point);
      this.removeEventListener("focusin", this.#focus);
      this.removeEventListener("mouseleave", this.#leave);
      this.removeEventListener("click", this.#click);
      this.removeEventListener("keydown", this.#key);
    }

    #point = (event) => this.#light(event.target, false);

    #focus = (event) => this.#light(event.target, true);

    #leave = () => this.#light(document.activeElement, false);

    #light(target, show) {
      const words = target?.closest?.("[data-for]");
      const row = target?.closest?.("[data-proposal]");
      const ids = words ? words.dataset.for.split(" ") : row ? [row.id] : [];
      let first = true;
      for (const piece of this.querySelectorAll("[data-for]")) {
        const lit = piece.dataset.for.split(" ").some((id) => ids.includes(id));
        piece.classList.toggle(LIT, lit);
        if (lit && show && row && first) {
          first = false;
          this.#reveal(piece);
        }
      }
      for (const proposal of this.querySelectorAll("[data-proposal]")) {
        const lit = ids.includes(proposal.id);
        proposal.classList.toggle(LIT, lit);
        if (lit && show && words && first) {
          first = false;
          this.#reveal(proposal);
        }
      }
    }

    #reveal(element) {
      element.scrollIntoView({ block: "nearest" });
    }

    #click = (event) => {
      const words = event.target.closest("[data-for]");
      if (words) {
        this.#go(words);
      }
    };

    #go(words) {
      const row = document.getElementById(words.dataset.for.split(" ")[0]);
      (row?.querySelector("[data-act=accept]") ?? row)?.focus();
    }

    #key = (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) {
        return;
      }
      const words = event.target.closest("[data-for]");
      if (words) {
        if (event.key === "Enter" || event.key === " ") {
          event.preventDefault();
          this.#go(words);
        }
        return;
      }
      const row = event.target.closest("[data-proposal]");
      if (!row) {
        return;
      }
      if (event.target.closest(TYPING)) {
        if (event.key === "Escape" || (event.key === "Enter" && !event.target.matches("textarea"))) {
          event.preventDefault();
          row.querySelector("[data-act=accept]")?.focus();
        }
        return;
      }
      const key = event.key.toLowerCase();
      if (key === "a") {
        event.preventDefault();
        document.querySelector("vaadin-button[data-act=all]")?.click();
      } else if (KEYS[key]) {
        event.preventDefault();
        row.querySelector(`[data-act=${KEYS[key]}]`)?.click();
        if (key !== "c") {
          this.#step(row, 1);
        }
      } else if (key === "arrowdown" || key === "arrowup") {
        event.preventDefault();
        this.#step(row, key === "arrowdown" ? 1 : -1);
      }
    };

    #step(row, by) {
      const rows = [...this.querySelectorAll("[data-proposal]")];
      const next = rows[rows.indexOf(row) + by];
      (next?.querySelector("[data-act=accept]") ?? next)?.focus();
    }
  }

  customElements.define("lq-letter", Letter);
})();
