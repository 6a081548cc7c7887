/*
 * One answer out of a few, or "not known". A row of radio buttons for fast hands: Y, N and U, or the first letter of an
 * answer, or the arrow keys; more than six answers become a list to pick from. A value that is none of the answers is
 * kept and shown as it came. With the attribute "required" one of the answers must be given. A letter that can only mean
 * one answer says "lq-answered", after which a form may go on.
 */
(() => {
  if (customElements.get("lq-answer")) {
    return;
  }
  const MOST_BUTTONS = 6;
  let made = 0;

  class Answer extends HTMLElement {
    #options = [];
    #value = "";
    #name = `lq-answer-${++made}`;
    #drawn = "";

    connectedCallback() {
      for (const property of ["options", "value"]) {
        if (Object.hasOwn(this, property)) {
          const set = this[property];
          delete this[property];
          this[property] = set;
        }
      }
      this.#draw();
    }

    get options() {
      return this.#options;
    }

    set options(options) {
      this.#options = options ?? [];
      this.#draw();
    }

    get value() {
      return this.#value;
    }

    set value(value) {
      this.#value = value ?? "";
      this.#draw();
    }

    focus() {
      this.querySelector("input:checked, select")?.focus();
    }

    #answers() {
      const answers = [{ code: "", label: "?", words: "not known" }];
      for (const option of this.#options) {
        answers.push({ ...option, words: option.label });
      }
      if (this.hasAttribute("required")) {
        return answers.slice(1);
      }
      if (!answers.some((answer) => answer.code === this.#value)) {
        answers.push({ code: this.#value, label: `“${this.#value}”`, words: `${this.#value}, as it came` });
      }
      /* "Not known" stands last, out of the way of the answers. */
      return [...answers.slice(1), answers[0]];
    }

    #draw() {
      if (!this.isConnected || this.#options.length === 0) {
        return;
      }
      const answers = this.#answers();
      const drawn = JSON.stringify(answers);
      if (drawn !== this.#drawn) {
        this.#drawn = drawn;
        this.replaceChildren(
          ...(this.#options.length > MOST_BUTTONS ? [this.#list(answers)] : answers.map((answer) => this.#button(answer))),
        );
      }
      for (const input of this.querySelectorAll("input")) {
        input.checked = input.value === this.#value;
      }
      const select = this.querySelector("select");
      if (select) {
        select.value = this.#value;
        select.classList.toggle("lq-answer-unknown", this.#value === "");
      }
    }

    #button(answer) {
      const label = document.createElement("label");
      label.className = "lq-answer-button";
      label.dataset.code = answer.code === "" ? "unknown" : answer.code;
      label.title = answer.words;
      const input = document.createElement("input");
      input.type = "radio";
      input.name = this.#name;
      input.value = answer.code;
      input.setAttribute("aria-label", answer.words);
      input.addEventListener("change", () => this.#answer(answer.code));
      input.addEventListener("keydown", (event) => this.#key(event));
      const words = document.createElement("span");
      words.textContent = answer.label;
      words.setAttribute("aria-hidden", "true");
      label.append(input, words);
      return label;
    }

    #list(answers) {
      const select = document.createElement("select");
      select.setAttribute("aria-label", this.getAttribute("aria-label") ?? "");
      for (const answer of [answers.at(-1), ...answers.slice(0, -1)]) {
        select.append(new Option(answer.code === "" ? "not known" : answer.label, answer.code));
      }
      select.addEventListener("change", () => this.#answer(select.value));
      return select;
    }

    #key(event) {
      if (event.ctrlKey || event.metaKey || event.altKey) {
        return;
      }
      if (event.key === "Backspace" || event.key === "Delete" || event.key === "?") {
        this.#pick("", event);
        return;
      }
      if (event.key.length !== 1 || event.key === " ") {
        return;
      }
      const letter = event.key.toLowerCase();
      const starting = this.#options.filter((option) => option.label.toLowerCase().startsWith(letter));
      const none = this.#options.length === 1 && letter === "n" ? this.#options : [];
      if (starting.length > 1) {
        const now = starting.findIndex((option) => option.code === this.#value);
        this.#pick(starting[(now + 1) % starting.length].code, event);
      } else if (starting.length + none.length > 0) {
        this.#pick([...starting, ...none][0].code, event);
        this.#goOn();
      } else if (letter === "u") {
        this.#pick("", event);
        this.#goOn();
      }
    }

    #pick(code, event) {
      event.preventDefault();
      if (code !== this.#value) {
        this.#answer(code);
      }
      this.focus();
    }

    #goOn() {
      this.dispatchEvent(new CustomEvent("lq-answered", { bubbles: true }));
    }

    #answer(code) {
      this.#value = code;
      this.#draw();
      this.dispatchEvent(new CustomEvent("value-changed", { bubbles: true, detail: { value: code } }));
    }
  }

  customElements.define("lq-answer", Answer);
})();
