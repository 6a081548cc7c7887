/*
 * A long form for fast hands. Enter goes to the next field that is likely to be told and still unknown, and never sends
 * anything; Tab goes to every field. F2 goes to the question that decides most, F4 answers the other leg alike, F8 goes
 * to the next part, Ctrl+Z takes back, Ctrl+Enter puts the referral before the physician.
 *
 * What was typed is saved a moment after the last change and when the page is hidden. Until the server says that it is
 * saved, the browser keeps it for this tab, so that a reload, a lost connection or an ended sign-in loses nothing.
 *
 * A control says by its attribute "data-way" whether Enter stops at it: always when that is empty, else while one of the
 * conditions "path=answer|answer" holds, set apart by semicolons; "*" is any answer, and nothing is none.
 */
(() => {
  if (customElements.get("lq-form")) {
    return;
  }
  const SAVE_AFTER_MS = 1000;
  const FIELDS = "input:not([type=radio]):not([readonly]), input[type=radio]:checked, select, textarea";
  const CONTROL = "[data-path], [data-line], [data-list]";
  const SIDE = /^(legs|armPressures)\.(left|right)\b/;

  class Form extends HTMLElement {
    #timer = 0;
    #asked = [];
    #onceFocused;
    #onceFocusedValue = "";
    #journal = new Map();
    #typedAt = 0;
    #hidden = () => {
      if (document.visibilityState === "hidden" && this.#timer) {
        this.#save();
      }
    };
    #anywhere = (event) => this.#keyAnywhere(event);

    connectedCallback() {
      this.addEventListener("keydown", this.#key);
      this.addEventListener("lq-answered", this.#answered);
      this.addEventListener("focusin", this.#entered);
      this.addEventListener("input", this.#typed);
      this.addEventListener("value-changed", this.#typed);
      document.addEventListener("keydown", this.#anywhere);
      document.addEventListener("visibilitychange", this.#hidden);
    }

    disconnectedCallback() {
      clearTimeout(this.#timer);
      document.removeEventListener("keydown", this.#anywhere);
      document.removeEventListener("visibilitychange", this.#hidden);
    }

    /* The open questions, most decisive first: {path, ask, by}. */
    get asked() {
      return this.#asked;
    }

    set asked(asked) {
      this.#asked = asked ?? [];
    }

    /* Puts the cursor where a new referral begins. */
    begin() {
      this.#next(-1, 1)?.focus();
    }

    /* Called by the server after each change that it has taken in. */
    saveSoon() {
      clearTimeout(this.#timer);
      this.#timer = setTimeout(() => this.#save(), SAVE_AFTER_MS);
    }

    #save() {
      clearTimeout(this.#timer);
      this.#timer = 0;
      this.dispatchEvent(new CustomEvent("lq-save", { detail: { until: this.#typedAt } }));
    }

    /* ---- Moving ---- */

    #fields() {
      return [...this.querySelectorAll(FIELDS)].filter((field) => field.offsetParent !== null);
    }

    /* The field after, or before, the one at this place of the list that is likely to be told. */
    #next(from, step, fields = this.#fields(), alsoKnown = step < 0) {
      for (let at = from + step; at >= 0 && at < fields.length; at += step) {
        const control = fields[at].closest(CONTROL);
        if (control && this.#onTheWay(control) && (alsoKnown || !this.#known(control))) {
          return fields[at];
        }
      }
      return undefined;
    }

    #onTheWay(control) {
      const way = control.dataset.way;
      if (way === undefined) {
        return false;
      }
      return way === "" || way.split(";").some((condition) => this.#holds(condition));
    }

    #holds(condition) {
      const [path, answers] = condition.split("=");
      const value = this.#valueAt(path);
      return answers.split("|").some((answer) => (answer === "*" ? value !== "" : answer === value));
    }

    #valueAt(path) {
      return this.querySelector(`[data-path="${path}"]`)?.value ?? "";
    }

    #known(control) {
      return (
        control.dataset.filled === "true" ||
        (control.dataset.line === undefined && (control.value ?? "") !== "") ||
        this.#comesWithTheName(control)
      );
    }

    /* What the directory knows beside a name fills in by itself. */
    #comesWithTheName(control) {
      const path = control.dataset.path ?? "";
      const name = this.querySelector(`[data-path="${path.slice(0, path.lastIndexOf("."))}.name"]`);
      return name !== control && name?.dataset.picked !== undefined;
    }

    #goOn(field, step) {
      const fields = this.#fields();
      const from = fields.indexOf(field);
      const next = field.closest(CONTROL) ? this.#next(from, step, fields) : fields[from + step];
      if (next) {
        this.#focus(next);
      } else if (step > 0) {
        this.#say("Nothing likely is left. F2 asks what is open, Ctrl+Enter puts it before the physician.");
      }
    }

    #focus(field) {
      this.#say("");
      field.focus();
      if (field.type === "text") {
        field.select();
      }
    }

    #say(words) {
      const line = document.querySelector(".lq-form-says");
      if (line && line.textContent !== words) {
        line.textContent = words;
      }
    }

    #answered = (event) => this.#goOn(event.target.querySelector("input:checked") ?? event.target, 1);

    #key = (event) => {
      const field = event.target;
      if (event.key !== "Enter" || event.ctrlKey || event.metaKey || field.matches("button, a, summary")) {
        return;
      }
      if (field.matches("textarea") && (field.dataset.way === undefined || event.shiftKey)) {
        return;
      }
      event.preventDefault();
      const line = field.dataset.line;
      if (line !== undefined && field.value.trim() !== "" && !event.shiftKey) {
        const text = field.value;
        field.value = "";
        this.#note(`${line}#line`, { before: "", value: "" });
        this.#note(`${line}#entered-${Date.now()}`, { before: "", value: text });
        field.dispatchEvent(new CustomEvent("lq-line", { detail: text }));
        return;
      }
      this.#goOn(field, event.shiftKey ? -1 : 1);
    };

    #keyAnywhere(event) {
      const target = event.composedPath()[0];
      if (
        event.defaultPrevented ||
        event.altKey ||
        (target instanceof Element && target.closest("vaadin-dialog, vaadin-confirm-dialog, [role=dialog]"))
      ) {
        return;
      }
      const control = event.ctrlKey || event.metaKey;
      const action =
        !control && event.key === "F2"
          ? () => this.#question(event.shiftKey ? -1 : 1)
          : !control && event.key === "F4"
            ? () => this.#otherLeg()
            : !control && event.key === "F8"
              ? () => this.#part(event.shiftKey ? -1 : 1)
              : control && event.key === "Enter"
                ? () => this.#tell("lq-submit", {})
                : control && this.#isTakingBack(event, target)
                  ? () => this.#tell(event.key.toLowerCase() === "y" || event.shiftKey ? "lq-redo" : "lq-undo", {})
                  : undefined;
      if (action) {
        event.preventDefault();
        action();
      }
    }

    #tell(name, detail) {
      this.dispatchEvent(new CustomEvent(name, { detail }));
    }

    /* Within a field that is being typed in, the browser takes back single letters first. */
    #isTakingBack(event, target) {
      const key = event.key.toLowerCase();
      if (key !== "z" && (key !== "y" || event.shiftKey)) {
        return false;
      }
      const isText = target instanceof HTMLTextAreaElement || (target instanceof HTMLInputElement && target.type === "text");
      if (!isText) {
        return true;
      }
      return this.contains(target) && target === this.#onceFocused && target.value === this.#onceFocusedValue;
    }

    /* ---- The next question ---- */

    #question(step) {
      const open = this.#asked
        .map((question) => ({ question, field: this.#fieldFor(question.path) }))
        .filter(({ field }) => field);
      const unanswered = open.filter(
        ({ field }) => field === document.activeElement || !this.#known(field.closest(CONTROL)),
      );
      if (unanswered.length === 0) {
        this.#say("Nothing is asked: no answer that is still open could change the proposal.");
        return;
      }
      const now = unanswered.findIndex(({ field }) => field === document.activeElement);
      const at = now < 0 ? 0 : (now + step + unanswered.length) % unanswered.length;
      const { question, field } = unanswered[at];
      field.closest("details")?.setAttribute("open", "");
      this.#focus(field);
      field.scrollIntoView({ block: "center" });
      this.#say(`${question.ask} ${question.by} Question ${at + 1} of ${unanswered.length}.`);
    }

    /* A question about a group of fields, or a list, is asked at the first of them. */
    #fieldFor(path) {
      const control =
        this.querySelector(`[data-path="${path}"]`) ??
        this.querySelector(`[data-line="${path}"], [data-list="${path}"]`) ??
        this.querySelector(`[data-path^="${path}."], [data-path^="${path}["]`);
      return control?.matches("lq-answer") ? control.querySelector("input:checked, select") : control;
    }

    /* ---- Parts, and the other leg ---- */

    #part(step) {
      const parts = [...this.querySelectorAll(".lq-section")];
      const here = parts.findIndex((part) => part.contains(document.activeElement));
      for (let at = here + step; at >= 0 && at < parts.length; at += step) {
        const fields = this.#fields().filter((field) => parts[at].contains(field));
        const field = this.#next(-1, 1, fields) ?? (step < 0 ? this.#next(-1, 1, fields, true) : undefined);
        if (field) {
          this.#focus(field);
          return;
        }
      }
      this.#say("There is no further part.");
    }

    #otherLeg() {
      const section = document.activeElement?.closest(".lq-section");
      const path = document.activeElement?.closest("[data-path]")?.dataset.path ?? "";
      const side = path.match(SIDE)?.[2];
      if (!section || !side) {
        this.#say("F4 answers the other leg alike: it needs the cursor in a part that has two sides.");
        return;
      }
      const other = side === "left" ? "right" : "left";
      const controls = [...section.querySelectorAll("[data-path]")];
      const anyKnown = (of) => controls.some((field) => field.dataset.path.match(SIDE)?.[2] === of && field.value !== "");
      const from = anyKnown(side) ? side : other;
      for (const field of controls) {
        const twin = this.#twin(field);
        if (field.dataset.path.match(SIDE)?.[2] === from && twin && twin.value === "" && field.value !== "") {
          this.#note(twin.dataset.path, { before: "", value: field.value });
          twin.value = field.value;
        }
      }
      this.#tell("lq-other-leg", { section: section.id, from });
      const last = this.#fields().filter((field) => section.contains(field)).at(-1);
      this.#goOn(last, 1);
    }

    #twin(control) {
      const path = control.dataset.path;
      const turned = path.replace(SIDE, (_, whole, side) => `${whole}.${side === "left" ? "right" : "left"}`);
      return turned === path ? undefined : this.querySelector(`[data-path="${turned}"]`);
    }

    /* ---- What is not known to be saved ---- */

    #entered = (event) => {
      const control = event.target.closest?.(CONTROL);
      this.#onceFocused = event.target;
      this.#onceFocusedValue = event.target.value;
      if (control?.dataset.path && !this.#journal.has(control.dataset.path)) {
        control.lqBefore = control.value ?? "";
      }
    };

    #typed = (event) => {
      const control = event.target.closest?.("[data-path], [data-line]");
      if (!control) {
        return;
      }
      const path = control.dataset.path ?? `${control.dataset.line}#line`;
      this.#note(path, { before: control.lqBefore ?? "", value: control.value ?? "" });
    };

    #note(path, { before, value }) {
      const there = this.#journal.get(path);
      this.#journal.set(path, { before: there?.before ?? before, value, at: ++this.#typedAt });
      this.#keep();
    }

    #keep() {
      try {
        if (this.#journal.size === 0) {
          sessionStorage.removeItem(this.#shelf());
        } else {
          const notes = [...this.#journal].map(([path, { before, value }]) => ({ path, before, value }));
          sessionStorage.setItem(this.#shelf(), JSON.stringify(notes));
        }
      } catch {
        /* A browser that keeps nothing has the saving a moment after each change. */
      }
    }

    #shelf() {
      return this.dataset.shelf;
    }

    /* Called by the server when it holds all that was typed until then. */
    saved(until) {
      for (const [path, note] of this.#journal) {
        if (note.at <= until) {
          this.#journal.delete(path);
          const control = this.querySelector(`[data-path="${path}"]`);
          if (control) {
            control.lqBefore = control.value ?? "";
          }
        }
      }
      this.#keep();
    }

    /* Called by the server when the form is there: hands over what an earlier page could not. */
    leftOver() {
      let notes = [];
      try {
        notes = JSON.parse(sessionStorage.getItem(this.#shelf()) ?? "[]");
        sessionStorage.removeItem(this.#shelf());
      } catch {
        notes = [];
      }
      for (const { path, before, value } of notes) {
        if (path.endsWith("#line")) {
          const line = this.querySelector(`[data-line="${path.slice(0, -"#line".length)}"]`);
          if (line && value !== "") {
            line.value = value;
            this.#note(path, { before, value });
          }
        } else {
          this.#note(path, { before, value });
        }
      }
      const entered = notes.filter((note) => !note.path.endsWith("#line"));
      if (entered.length > 0) {
        this.#tell("lq-left-over", { notes: JSON.stringify(entered), until: this.#typedAt });
      }
    }
  }

  customElements.define("lq-form", Form);
})();
