/*
 * What is known already, offered while it is typed: a field with the attribute "data-suggest" names the list it is
 * offered from. The arrow keys choose, Enter or Tab takes what is chosen, Escape keeps what was typed. Where only one
 * entry fits it is chosen at once. In a field for a name and a dose, the dose is left as it is.
 */
(() => {
  if (customElements.get("lq-suggest")) {
    return;
  }
  const FROM_LETTERS = 2;
  const MOST_OFFERED = 8;
  const FOOT_PX = 60;
  const ANY_MARK = /\p{M}/gu;
  const NO_WORD = /[^\p{L}\p{N}]+/u;

  const plain = (text) => text.normalize("NFD").replace(ANY_MARK, "").toLowerCase();
  const words = (text) => plain(text).split(NO_WORD).filter((word) => word !== "");

  class Suggest extends HTMLElement {
    #lists = {};
    #field;
    #offered = [];
    #chosen = -1;

    /* By name of the list, entries as {id, name, more}: what is taken, and what stands beside it and finds it too. */
    get lists() {
      return this.#lists;
    }

    set lists(lists) {
      this.#lists = {};
      for (const [name, entries] of Object.entries(lists ?? {})) {
        this.#lists[name] = entries.map((entry) => ({
          ...entry,
          words: words(`${entry.name} ${entry.more ?? ""}`),
        }));
      }
    }

    connectedCallback() {
      if (Object.hasOwn(this, "lists")) {
        const lists = this.lists;
        delete this.lists;
        this.lists = lists;
      }
      this.id ||= "lq-suggest";
      this.setAttribute("role", "listbox");
      this.setAttribute("aria-label", "Known already");
      this.hidden = true;
      const form = this.parentElement;
      form.addEventListener("focusin", (event) => this.#prepare(event.target));
      form.addEventListener("input", (event) => this.#typed(event.target));
      form.addEventListener("keydown", (event) => this.#key(event), true);
      form.addEventListener("focusout", () => this.#close());
    }

    #prepare(field) {
      if (field.dataset?.suggest && field.getAttribute("role") !== "combobox") {
        field.setAttribute("role", "combobox");
        field.setAttribute("aria-autocomplete", "list");
        field.setAttribute("aria-expanded", "false");
        field.setAttribute("aria-controls", this.id);
      }
    }

    #typed(field) {
      const list = this.#lists[field.dataset?.suggest];
      if (!list) {
        return;
      }
      delete field.dataset.picked;
      const typed = words(this.#name(field));
      const sought = typed.join("").length < FROM_LETTERS ? [] : typed;
      const found =
        sought.length === 0
          ? []
          : list.filter((entry) => sought.every((word) => entry.words.some((known) => known.startsWith(word))));
      const same = found.filter((entry) => words(entry.name).join(" ") === typed.join(" "));
      /* A name typed to its end is meant, and not one that goes on after it. */
      const only = same.length === 1 ? same : found.length === 1 ? found : [];
      if (found.length === 0 || (same.length === 1 && same[0].id == null)) {
        this.#close();
        return;
      }
      this.#field = field;
      this.#offered = [...same, ...found.filter((entry) => !same.includes(entry))].slice(0, MOST_OFFERED);
      this.#chosen = only.length === 1 ? 0 : -1;
      this.#draw();
    }

    /* What of the field is the name: a dose behind it begins with a figure. */
    #name(field) {
      return this.#split(field)[0];
    }

    #split(field) {
      const parts = field.dataset.line === undefined ? null : field.value.match(/^(.*?)(\s+[\d.,].*)$/su);
      return parts ? [parts[1], parts[2]] : [field.value, ""];
    }

    #draw() {
      this.replaceChildren(
        ...this.#offered.map((entry, at) => {
          const option = document.createElement("div");
          option.id = `${this.id}-${at}`;
          option.setAttribute("role", "option");
          option.setAttribute("aria-selected", String(at === this.#chosen));
          const name = document.createElement("span");
          name.textContent = entry.name;
          const more = document.createElement("span");
          more.className = "lq-suggest-more";
          more.textContent = entry.more ?? "";
          option.append(name, more);
          option.addEventListener("mousedown", (event) => {
            event.preventDefault();
            this.#take(at);
          });
          return option;
        }),
      );
      const around = this.parentElement.getBoundingClientRect();
      const box = this.#field.getBoundingClientRect();
      this.style.insetInlineStart = `${Math.max(0, Math.min(box.left - around.left, around.width - 340))}px`;
      this.hidden = false;
      /* Above the field where there is no room beneath it. */
      const below = box.bottom + this.offsetHeight + FOOT_PX < window.innerHeight || box.top < this.offsetHeight;
      this.style.insetBlockStart = `${(below ? box.bottom + 2 : box.top - this.offsetHeight - 2) - around.top}px`;
      this.#field.setAttribute("aria-expanded", "true");
      if (this.#chosen >= 0) {
        this.#field.setAttribute("aria-activedescendant", `${this.id}-${this.#chosen}`);
      } else {
        this.#field.removeAttribute("aria-activedescendant");
      }
    }

    #close() {
      this.hidden = true;
      this.#offered = [];
      this.#chosen = -1;
      this.#field?.setAttribute("aria-expanded", "false");
      this.#field?.removeAttribute("aria-activedescendant");
      this.#field = undefined;
    }

    #key(event) {
      if (!this.#field || event.target !== this.#field || event.ctrlKey || event.metaKey || event.altKey) {
        return;
      }
      const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
      if (step) {
        event.preventDefault();
        const from = this.#chosen < 0 && step < 0 ? 0 : this.#chosen;
        this.#chosen = (from + step + this.#offered.length) % this.#offered.length;
        this.#draw();
      } else if (event.key === "Escape") {
        event.preventDefault();
        this.#close();
      } else if ((event.key === "Enter" || event.key === "Tab") && !event.shiftKey && this.#chosen >= 0) {
        this.#take(this.#chosen);
      }
    }

    #take(at) {
      const field = this.#field;
      const entry = this.#offered[at];
      field.value = entry.name + this.#split(field)[1];
      this.#close();
      if (entry.id == null) {
        field.dispatchEvent(new Event("input", { bubbles: true }));
        this.#close();
      } else {
        field.dataset.picked = String(entry.id);
        this.parentElement.dispatchEvent(
          new CustomEvent("lq-picked", { detail: { path: field.dataset.path, id: String(entry.id) } }),
        );
      }
    }
  }

  customElements.define("lq-suggest", Suggest);
})();
