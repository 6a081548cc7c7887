/*
 * The arteries of both legs, from the aorta to the feet, as a picture and a table that says the same. The server says
 * what is reported (property "picture"); where the arteries run is in arteries.json. The drawing for paper is made from
 * the same file, and draws the same element by element.
 *
 * With the attribute "editable" each segment is a button: the arrow keys follow the arteries, Enter opens an editor of
 * its lesions. Nothing is changed here alone: "lesion-set", "lesion-add", "lesion-remove" and "lesions-undo" ask the
 * server, which keeps the document; "typed" holds the lesions as they were typed, with what is wrong beside each field, and
 * "fields" the fields of a lesion. With "compact" the table is folded away.
 */
(() => {
  if (customElements.get("lq-arteries")) {
    return;
  }
  const GEOMETRY = new URL("arteries.json", document.currentScript.src);
  const SVG = "http://www.w3.org/2000/svg";
  const INK = "#000000";
  const SOFT = "#4d4d4d";
  const PAPER = "#ffffff";
  const BODY = "#f4f4f4";
  const EDGE = "#c4c4c4";
  const WALL = 1;
  const LABEL_SIZE = 12.5;
  const SMALLER = 11.5;
  const STEPS = 4;
  const SETTLED_AFTER_MS = 250;
  const EMPTY = { lesionsKnown: false, places: [], marks: [], cuts: [], labels: [], caption: "", lines: [] };
  const NO_LESIONS = { lesions: [], undo: "" };
  let loading;
  let made = 0;

  const geometry = () => (loading ??= fetch(GEOMETRY).then((answer) => answer.json()));

  /* ---- Courses: see limbqueue.picture.Course ---- */

  const number = (value) => {
    const tenths = Math.round(value * 10);
    return tenths % 10 === 0 ? String(tenths / 10 + 0) : String(tenths / 10);
  };

  const pathOf = (points) => "M" + points.map((point) => `${number(point.x)} ${number(point.y)}`).join(" L");

  const distance = (one, other) =>
    Math.sqrt((other.x - one.x) * (other.x - one.x) + (other.y - one.y) * (other.y - one.y));

  const aside = (point, away) => ({ ...point, x: point.x - point.dy * away, y: point.y + point.dx * away });

  const spline = (before, from, to, after, t) =>
    0.5 *
    (2 * from +
      (to - before) * t +
      (2 * before - 5 * from + 4 * to - after) * t * t +
      (3 * from - before - 3 * to + after) * t * t * t);

  const through = (waypoints) => {
    const line = [];
    const last = waypoints.length - 1;
    for (let i = 0; i < last; i++) {
      const before = waypoints[Math.max(0, i - 1)];
      const from = waypoints[i];
      const to = waypoints[i + 1];
      const after = waypoints[Math.min(last, i + 2)];
      for (let step = 0; step < STEPS; step++) {
        const t = step / STEPS;
        line.push([spline(before[0], from[0], to[0], after[0], t), spline(before[1], from[1], to[1], after[1], t)]);
      }
    }
    line.push(waypoints[last]);
    return line.map(([x, y], i) => {
      const from = line[Math.max(0, i - 1)];
      const to = line[Math.min(line.length - 1, i + 1)];
      const length = Math.sqrt((to[0] - from[0]) * (to[0] - from[0]) + (to[1] - from[1]) * (to[1] - from[1]));
      return { x, y, dx: (to[0] - from[0]) / length, dy: (to[1] - from[1]) / length };
    });
  };

  const mirrored = (course, width) => course.map((point) => ({ ...point, x: width - point.x, dx: -point.dx }));

  const lengthOf = (course) => {
    let length = 0;
    for (let i = 1; i < course.length; i++) {
      length += distance(course[i - 1], course[i]);
    }
    return length;
  };

  const at = (course, share) => {
    let rest = share * lengthOf(course);
    for (let i = 1; i < course.length; i++) {
      const from = course[i - 1];
      const to = course[i];
      const piece = distance(from, to);
      if (rest <= piece || i === course.length - 1) {
        const t = Math.min(1, rest / piece);
        return {
          x: from.x + (to.x - from.x) * t,
          y: from.y + (to.y - from.y) * t,
          dx: (to.x - from.x) / piece,
          dy: (to.y - from.y) / piece,
        };
      }
      rest -= piece;
    }
    return course[0];
  };

  const partOf = (course, from, to) => {
    const total = lengthOf(course);
    const part = [at(course, from)];
    let walked = 0;
    for (let i = 1; i < course.length - 1; i++) {
      walked += distance(course[i - 1], course[i]);
      if (walked > from * total && walked < to * total) {
        part.push(course[i]);
      }
    }
    part.push(at(course, to));
    return part;
  };

  const spaced = (course, from, to, spacing) => {
    const pieces = Math.max(1, Math.round(((to - from) * lengthOf(course)) / spacing));
    return Array.from({ length: pieces + 1 }, (_, i) => at(course, from + ((to - from) * i) / pieces));
  };

  /* ---- Drawing: see limbqueue.picture.LegDrawing ---- */

  const element = (tag, attributes = {}, within = []) => {
    const made = document.createElementNS(SVG, tag);
    for (const [name, value] of Object.entries(attributes)) {
      made.setAttribute(name, typeof value === "number" ? number(value) : value);
    }
    made.append(...within);
    return made;
  };

  const stroke = (path, colour, width, more = {}) =>
    element("path", { d: path, fill: "none", stroke: colour, "stroke-width": width, ...more });

  const across = (point, width) => pathOf([aside(point, -(width / 2 + 3)), aside(point, width / 2 + 3)]);

  /* The area within a distance of a course. */
  const around = (course, away) =>
    pathOf([
      ...course.map((point) => aside(point, away)),
      ...course.map((point) => aside(point, -away)).toReversed(),
    ]) + " Z";

  const dots = (points, width, side, full) =>
    points
      .map((point) => aside(point, side * (width / 2 + 2.4)))
      .map((point) =>
        element("circle", {
          cx: point.x,
          cy: point.y,
          r: 1.4,
          fill: full ? INK : PAPER,
          stroke: INK,
          "stroke-width": 0.8,
        }),
      );

  const SIGNS = {
    stenosis(course, width, from, to, percent) {
      const path = pathOf(partOf(course, from, to));
      const open = Math.max(0.7, (width - 2 * WALL) * (1 - percent / 100));
      return [stroke(path, INK, width), stroke(path, PAPER, open)];
    },
    occlusion(course, width, from, to) {
      return [
        stroke(pathOf(partOf(course, from, to)), INK, width),
        stroke(across(at(course, from), width), INK, 1.6),
        stroke(across(at(course, to), width), INK, 1.6),
      ];
    },
    unknown(course, width, from, to) {
      const path = pathOf(partOf(course, from, to));
      return [
        stroke(path, INK, width),
        stroke(path, PAPER, width - 1),
        stroke(path, INK, width - 1, { "stroke-dasharray": "1.2 2" }),
      ];
    },
    moderate(course, width, from, to, percent, outwards) {
      return dots(spaced(course, from, to, 7), width, outwards, false);
    },
    severe(course, width, from, to) {
      const points = spaced(course, from, to, 5);
      return [...dots(points, width, 1, true), ...dots(points, width, -1, true)];
    },
    stent(course, width, from, to) {
      const points = spaced(course, from, to, 4.5);
      const reach = width / 2 + 1.8;
      const zigzag = (away) => pathOf(points.map((point, i) => aside(point, i % 2 === 0 ? away : -away)));
      const lines = [zigzag(reach), zigzag(-reach)];
      return [...lines.map((line) => stroke(line, PAPER, 2.4)), ...lines.map((line) => stroke(line, INK, 0.9))];
    },
    bypass(course, width, from, to, percent, outwards) {
      const points = spaced(course, from, to, 3);
      const last = points.length - 1;
      const path = pathOf(
        points.map((point, i) => {
          const near = Math.min(1, Math.min(i, last - i) / 5);
          return aside(point, outwards * 10 * near * near * (3 - 2 * near));
        }),
      );
      return [stroke(path, INK, 5), stroke(path, PAPER, 3)];
    },
    broken() {
      return [];
    },
    aneurysm(course, width, from, to) {
      const points = spaced(course, from, to, 2);
      const last = points.length - 1;
      const around = [];
      for (const side of [1, -1]) {
        for (let i = 0; i <= last; i++) {
          const here = side > 0 ? i : last - i;
          const bulge = width / 2 + (width / 2 + 3) * Math.sin((Math.PI * here) / last);
          around.push(aside(points[here], side * bulge));
        }
      }
      return [element("path", { d: pathOf(around) + " Z", fill: PAPER, stroke: INK, "stroke-width": 1.2 })];
    },
  };

  const vessel = (course, width, colour, more = {}) =>
    stroke(pathOf(course), colour, width, { "stroke-linejoin": "round", "stroke-linecap": "round", ...more });

  /* Nobody has said what is in the vessel. */
  const BROKEN = { "stroke-dasharray": "3 2.5", "stroke-linecap": "butt" };

  const text = (words, x, y, anchor, colour, size) =>
    element("text", { x, y, "text-anchor": anchor, fill: colour, "font-size": size }, [words]);

  class Drawing {
    #arteries;
    #picture;

    constructor(arteries, picture) {
      this.#arteries = arteries;
      this.#picture = picture;
    }

    artery(code) {
      return this.#arteries.segments.find((artery) => artery.code === code);
    }

    turned(course, side) {
      return side === "left" ? mirrored(course, this.#arteries.width) : course;
    }

    course(segment, side) {
      return this.turned(through(this.artery(segment).points), side);
    }

    layers() {
      return [
        this.#layer("body", this.#body()),
        this.#layer("leaders", this.#leaders()),
        this.#layer("vessels", this.#vessels()),
        this.#layer(
          "marks",
          this.#picture.marks.map((mark) => this.#mark(mark)),
        ),
        this.#layer("cuts", this.#cuts()),
        this.#layer("labels", this.#labels()),
      ];
    }

    #layer(name, elements) {
      return element("g", { "data-layer": name }, elements);
    }

    #body() {
      return ["right", "left"].flatMap((side) => {
        const levels = this.#picture.cuts.filter((cut) => cut.side === side).map((cut) => cut.level);
        return this.#arteries.body.flatMap((part) =>
          this.#part(
            part,
            side,
            part.gone.some((level) => levels.includes(level)),
          ),
        );
      });
    }

    #part(part, side, gone) {
      const lateral = this.turned(through(part.lateral), side);
      const medial = this.turned(through(part.medial), side);
      const edge = (course) => stroke(pathOf(course), EDGE, 1, gone ? { "stroke-dasharray": "1 3" } : {});
      const elements = [];
      if (!gone) {
        elements.push(element("path", { d: pathOf([...lateral, ...medial.toReversed()]) + " Z", fill: BODY }));
      }
      elements.push(edge(lateral));
      if (part.edges === "both") {
        elements.push(edge(medial));
      }
      return elements;
    }

    #leaders() {
      return this.#picture.labels
        .filter((label) => label.pointX !== label.x)
        .map((label) =>
          stroke(
            `M${number(label.x + (label.end ? 3 : -3))} ${number(label.y - 4)}` +
              ` L${number(label.pointX)} ${number(label.pointY)}`,
            SOFT,
            0.7,
          ),
        );
    }

    #vessels() {
      const elements = [];
      for (const lumen of [false, true]) {
        for (const place of this.#picture.places) {
          const width = this.artery(place.segment).width;
          const course = this.course(place.segment, place.side);
          if (place.goneFrom > 0) {
            const there = place.goneFrom < 1 ? partOf(course, 0, place.goneFrom) : course;
            const broken = !lumen && !this.#picture.lesionsKnown ? BROKEN : {};
            elements.push(vessel(there, lumen ? width - 2 * WALL : width, lumen ? PAPER : INK, broken));
          }
          if (place.goneFrom < 1 && lumen) {
            elements.push(stroke(pathOf(partOf(course, place.goneFrom, 1)), SOFT, 1, { "stroke-dasharray": "1 3" }));
          }
        }
      }
      return elements;
    }

    #mark(mark) {
      const sign = SIGNS[mark.kind](
        this.course(mark.segment, mark.side),
        this.artery(mark.segment).width,
        mark.from,
        mark.to,
        mark.percent,
        mark.side === "left" ? -1 : 1,
      );
      return element("g", { "data-mark": mark.kind, "data-segment": mark.segment, "data-side": mark.side }, sign);
    }

    #cuts() {
      return this.#picture.cuts.map((cut) => {
        const drawn = this.#arteries.cuts.find((known) => known.code === cut.level);
        const [from, to] = [drawn.from, drawn.to].map((x) => (cut.side === "left" ? this.#arteries.width - x : x));
        return stroke(`M${number(from)} ${number(drawn.y)} L${number(to)} ${number(drawn.y)}`, INK, 3, {
          "data-cut": cut.level,
          "data-side": cut.side,
        });
      });
    }

    #labels() {
      const { width, height } = this.#arteries;
      return [
        text("R", 4, 22, "start", INK, 20),
        text("L", width - 4, 22, "end", INK, 20),
        ...this.#picture.labels.map((label) =>
          text(label.text, label.x, label.y, label.end ? "end" : "start", INK, LABEL_SIZE),
        ),
        text(this.#picture.caption, width / 2, height - 4, "middle", SOFT, SMALLER),
      ];
    }

    static key({ key }) {
      const rows = Math.ceil(key.entries.length / key.columns);
      const svg = element("svg", {
        viewBox: `0 0 ${number(key.columns * key.columnWidth)} ${number(rows * key.rowHeight)}`,
        role: "img",
        "aria-label": "Signs of the picture: " + key.entries.map((entry) => entry.words.toLowerCase()).join(", "),
      });
      key.entries.forEach((entry, i) => {
        const x = (i % key.columns) * key.columnWidth;
        const y = Math.floor(i / key.columns) * key.rowHeight + key.rowHeight / 2;
        const sample = through([
          [x + 4, y],
          [x + 48, y],
        ]);
        svg.append(
          vessel(sample, 7, INK, entry.kind === "broken" ? BROKEN : {}),
          vessel(sample, 7 - 2 * WALL, PAPER),
          element("g", { "data-mark": entry.kind }, SIGNS[entry.kind](sample, 7, 0.2, 0.8, entry.percent, -1)),
          text(entry.words, x + 56, y + 4, "start", INK, SMALLER),
        );
      });
      return svg;
    }
  }

  /* ---- The component ---- */

  const html = (tag, attributes = {}, ...within) => {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) {
      if (name === "class") {
        made.className = value;
      } else {
        made.setAttribute(name, value);
      }
    }
    made.append(...within);
    return made;
  };

  const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

  class Arteries extends HTMLElement {
    #id = `lq-arteries-${++made}`;
    #arteries;
    #picture = EMPTY;
    #typed = NO_LESIONS;
    #fields = [];
    #svg;
    #table = html("div", { class: "lq-arteries-words" });
    #editor = html("div", { class: "lq-arteries-editor", hidden: "" });
    #live = html("div", { class: "lq-arteries-live", role: "status" });
    #undo = html("button", { type: "button", class: "lq-button lq-arteries-undo" }, "Undo");
    #built = false;
    #open = "";
    #shown = "";
    #focused = "infrarenalAorta";
    #announce = "";
    #waiting = new Map();

    async connectedCallback() {
      for (const property of ["fields", "picture", "typed"]) {
        if (Object.hasOwn(this, property)) {
          const set = this[property];
          delete this[property];
          this[property] = set;
        }
      }
      this.#arteries = await geometry();
      if (this.isConnected && !this.#built) {
        this.#build();
      }
      this.#draw();
    }

    disconnectedCallback() {
      this.#settle();
    }

    get picture() {
      return this.#picture;
    }

    set picture(picture) {
      this.#picture = picture ?? EMPTY;
      this.#draw();
    }

    get typed() {
      return this.#typed;
    }

    set typed(typed) {
      this.#typed = typed ?? NO_LESIONS;
      this.#draw();
    }

    get fields() {
      return this.#fields;
    }

    set fields(fields) {
      this.#fields = fields ?? [];
      this.#draw();
    }

    get editable() {
      return this.hasAttribute("editable");
    }

    #build() {
      this.#built = true;
      const { width, height } = this.#arteries;
      this.#svg = element("svg", {
        viewBox: `0 0 ${number(width)} ${number(height)}`,
        "font-size": LABEL_SIZE,
        class: "lq-arteries-picture",
      });
      const signs = html("details", { class: "lq-arteries-signs" }, html("summary", {}, "Signs"));
      signs.append(Drawing.key(this.#arteries));
      const drawn = html("div", { class: "lq-arteries-drawn" }, this.#svg, signs);
      if (!this.editable) {
        const heading = html("summary", {}, "The same in words");
        const words = html("details", { class: "lq-arteries-fold" }, heading, this.#table);
        words.open = !this.hasAttribute("compact");
        this.replaceChildren(drawn, words);
        return;
      }
      const how = html(
        "p",
        { class: "lq-arteries-how", id: `${this.#id}-how` },
        "Click an artery to enter a lesion. On the keyboard: the arrow keys follow the arteries, Enter opens one.",
      );
      this.#undo.addEventListener("click", () => this.#takeBack());
      const tools = html("div", { class: "lq-arteries-tools" }, this.#undo, this.#live);
      const side = html("div", { class: "lq-arteries-side" }, how, tools, this.#editor, this.#table);
      this.replaceChildren(html("div", { class: "lq-arteries-halves" }, drawn, side));
      this.#svg.addEventListener("keydown", (event) => this.#key(event));
      this.addEventListener("keydown", (event) => this.#anywhere(event));
    }

    #draw() {
      if (!this.#built) {
        return;
      }
      const drawing = new Drawing(this.#arteries, this.#picture);
      const seen = JSON.stringify(this.#picture);
      if (seen !== this.#shown) {
        this.#shown = seen;
        this.#drawPicture(drawing);
        this.#drawTable();
      }
      if (this.editable) {
        /* Disabled, it would lose the keyboard's place. */
        this.#undo.setAttribute("aria-disabled", String(this.#typed.undo === ""));
        this.#undo.setAttribute("aria-label", this.#typed.undo === "" ? "Undo" : `Undo: ${this.#typed.undo}`);
        this.#drawEditor();
        if (this.#announce) {
          /* The answer of the server comes in several parts, one right after another. */
          const what = this.#announce;
          this.#announce = "";
          setTimeout(() => (this.#live.textContent = this.#saying(what)), 0);
        }
      }
    }

    /* ---- The picture ---- */

    #drawPicture(drawing) {
      const had = this.#svg.contains(document.activeElement);
      if (!this.editable) {
        this.#svg.setAttribute("role", "img");
        this.#svg.setAttribute("aria-label", this.#summary());
        this.#svg.replaceChildren(...drawing.layers());
        return;
      }
      this.#svg.setAttribute("role", "group");
      this.#svg.setAttribute("aria-label", "Leg arteries, the patient's right leg at the left");
      this.#svg.setAttribute("aria-describedby", `${this.#id}-how`);
      const layers = drawing.layers();
      for (const layer of layers) {
        layer.setAttribute("aria-hidden", "true");
      }
      this.#svg.replaceChildren(layers[0], this.#halos(drawing), ...layers.slice(1), this.#buttons(drawing));
      this.#mark();
      if (had) {
        this.#button(this.#focused)?.focus();
      }
    }

    #summary() {
      const lines = this.#picture.lines.map((line) =>
        line.both ? `${line.label}: ${line.both}` : `${line.label}: right ${line.right}, left ${line.left}`,
      );
      return `Leg arteries. ${lines.join(". ")}.`;
    }

    #halos(drawing) {
      return element(
        "g",
        { "data-layer": "halos", "aria-hidden": "true" },
        this.#picture.places.map((place) => {
          const course = drawing.course(place.segment, place.side);
          const width = drawing.artery(place.segment).width;
          return element("g", { class: "lq-artery-halo", "data-halo": this.#placeOf(place) }, [
            vessel(course, "", "", { class: "lq-artery-halo-edge", "stroke-width": width + 11 }),
            vessel(course, "", "", { class: "lq-artery-halo-fill", "stroke-width": width + 7 }),
          ]);
        }),
      );
    }

    #buttons(drawing) {
      return element(
        "g",
        { "data-layer": "buttons" },
        this.#picture.places.map((place) => {
          const name = this.#placeOf(place);
          const button = element(
            "g",
            {
              class: "lq-artery",
              role: "button",
              "data-place": name,
              "aria-haspopup": "dialog",
              "aria-label": `${capital(place.name)}: ${place.words}`,
              tabindex: name === this.#focused ? "0" : "-1",
            },
            /* An area and no line: a line that runs straight down has no width for those who find it by its box. */
            [
              element("path", {
                d: around(drawing.course(place.segment, place.side), drawing.artery(place.segment).width / 2 + 5),
                fill: "transparent",
              }),
            ],
          );
          button.append(element("title", {}, [`${capital(place.name)}: ${place.words}`]));
          button.addEventListener("click", () => this.#edit(name));
          button.addEventListener("focus", () => this.#rove(name));
          button.addEventListener("blur", () => this.#mark());
          button.addEventListener("pointerenter", () => this.#halo(name, "lq-hovered", true));
          button.addEventListener("pointerleave", () => this.#halo(name, "lq-hovered", false));
          return button;
        }),
      );
    }

    #placeOf(place) {
      return place.side ? `${place.side}-${place.segment}` : place.segment;
    }

    #place(name) {
      return this.#picture.places.find((place) => this.#placeOf(place) === name);
    }

    #button(name) {
      return this.#svg.querySelector(`[data-place="${name}"]`);
    }

    #halo(name, state, on) {
      this.#svg.querySelector(`[data-halo="${name}"]`)?.classList.toggle(state, on);
    }

    #rove(name) {
      this.#button(this.#focused)?.setAttribute("tabindex", "-1");
      this.#focused = name;
      this.#button(name)?.setAttribute("tabindex", "0");
      this.#mark();
    }

    #mark() {
      for (const halo of this.#svg.querySelectorAll("[data-halo]")) {
        const name = halo.dataset.halo;
        halo.classList.toggle("lq-focused", this.#button(name)?.matches(":focus-visible") ?? false);
        halo.classList.toggle("lq-open", name === this.#open);
      }
    }

    /* Up and down along the arteries, left and right to what stands beside it. */
    #key(event) {
      const name = event.target.dataset?.place;
      if (!name || event.ctrlKey || event.metaKey || event.altKey) {
        return;
      }
      const place = this.#place(name);
      const artery = this.#arteries.segments.find((segment) => segment.code === place.segment);
      const steps = {
        ArrowUp: () => this.#named(artery.up, place.side),
        ArrowDown: () => this.#named(artery.down, place.side || "right"),
        ArrowLeft: () => this.#beside(artery, place, -1),
        ArrowRight: () => this.#beside(artery, place, 1),
        Home: () => "infrarenalAorta",
        End: () => this.#named("pedal", place.side || "right"),
      };
      if (steps[event.key]) {
        event.preventDefault();
        event.stopPropagation();
        const to = steps[event.key]();
        if (to) {
          this.#button(to)?.focus();
        }
      } else if (event.key === "Enter" || event.key === " ") {
        event.preventDefault();
        event.stopPropagation();
        this.#edit(name);
      }
    }

    #named(code, side) {
      if (!code) {
        return "";
      }
      return this.#arteries.segments[0].code === code ? code : `${side}-${code}`;
    }

    #beside(artery, place, step) {
      const row = this.#arteries.segments.filter((segment) => segment.row === artery.row);
      if (!place.side) {
        return this.#named("commonIliac", step < 0 ? "right" : "left");
      }
      const places = ["right", "left"].flatMap((side) =>
        row.map((segment) => ({ name: this.#named(segment.code, side), x: this.#middle(segment, side) })),
      );
      places.sort((one, other) => one.x - other.x);
      const now = places.findIndex((other) => other.name === this.#placeOf(place));
      return places[now + step]?.name;
    }

    #middle(segment, side) {
      const x = at(through(segment.points), 0.5).x;
      return side === "left" ? this.#arteries.width - x : x;
    }

    /* ---- The words ---- */

    #drawTable() {
      const had = this.#table.contains(document.activeElement) ? document.activeElement.dataset.opens : "";
      const head = html(
        "thead",
        {},
        html("tr", {}, html("td"), html("th", { scope: "col" }, "Right"), html("th", { scope: "col" }, "Left")),
      );
      const body = html("tbody");
      for (const line of this.#picture.lines) {
        const row = html("tr", {}, html("th", { scope: "row" }, line.label));
        if (line.both) {
          row.append(this.#cell(line.label, "", line.both, { colspan: "2" }));
        } else {
          row.append(this.#cell(line.label, "right", line.right), this.#cell(line.label, "left", line.left));
        }
        body.append(row);
      }
      const caption = html("caption", {}, "Leg arteries in words");
      this.#table.replaceChildren(html("table", {}, caption, head, body));
      if (had) {
        this.#table.querySelector(`[data-opens="${had}"]`)?.focus();
      }
    }

    #cell(label, side, words, attributes = {}) {
      const cell = html("td", attributes);
      const artery = this.#arteries.segments.find((segment) => segment.name === label);
      if (this.editable && artery) {
        const name = this.#named(artery.code, side);
        const open = html("button", { type: "button", class: "lq-link", "data-opens": name }, words);
        open.setAttribute("aria-label", `${capital(this.#place(name)?.name ?? "")}: ${words}. Edit`);
        open.addEventListener("click", () => this.#edit(name));
        cell.append(open);
      } else {
        const quiet = words === "not known" ? "lq-not-known" : words === "nothing reported" ? "lq-soft" : "";
        cell.append(quiet ? html("span", { class: quiet }, words) : words);
      }
      return cell;
    }

    /* ---- The editor ---- */

    #lesionsOf(name) {
      const place = this.#place(name);
      const aorta = place && !place.side;
      return this.#typed.lesions
        .map((lesion, index) => ({ lesion, index }))
        .filter(
          ({ lesion }) =>
            place && lesion.values.segment === place.segment && (aorta || lesion.values.side === place.side),
        );
    }

    #edit(name) {
      this.#settle();
      this.#open = name;
      this.#rove(name);
      this.#drawEditor();
      this.#mark();
      const first = this.#editor.querySelector("input:not([type=radio]), .lq-arteries-add");
      first?.focus();
      this.#editor.scrollIntoView({ block: "nearest" });
    }

    #close() {
      this.#settle();
      const name = this.#open;
      this.#open = "";
      this.#drawEditor();
      this.#button(name)?.focus();
      this.#mark();
    }

    #drawEditor() {
      if (this.#open === "") {
        this.#editor.hidden = true;
        this.#editor.dataset.shape = "";
        this.#editor.replaceChildren();
        return;
      }
      const place = this.#place(this.#open);
      if (!place) {
        return;
      }
      const lesions = this.#lesionsOf(this.#open);
      const shape = [this.#open, ...lesions.map(({ index }) => index)].join(" ");
      if (this.#editor.dataset.shape !== shape || this.#editor.hidden) {
        this.#rebuild(place, lesions, shape);
      }
      for (const { lesion, index } of lesions) {
        for (const field of this.#fields) {
          this.#fill(index, field, lesion);
        }
      }
      const words = this.#editor.querySelector(".lq-arteries-editor-words");
      words.textContent = lesions.length === 0 ? capital(place.words) + "." : "";
    }

    #rebuild(place, lesions, shape) {
      const active = this.#editor.contains(document.activeElement) ? document.activeElement : undefined;
      const back = active?.closest("[data-lesion-field]")?.dataset.lesionField ?? "";
      const typing = active?.matches("input:not([type=radio])") ? active.value : undefined;
      const heading = html("h3", { id: `${this.#id}-place` }, capital(place.name));
      const close = html("button", { type: "button", class: "lq-link lq-arteries-close" }, "Close");
      close.addEventListener("click", () => this.#close());
      const words = html("p", { class: "lq-arteries-editor-words lq-soft" });
      const add = html("button", { type: "button", class: "lq-button lq-arteries-add" }, "Add lesion");
      add.setAttribute("aria-label", `Add lesion of the ${place.name}`);
      add.addEventListener("click", () => this.#add(place));
      const cards = lesions.map(({ index }, number) => this.#card(place, index, number));
      this.#editor.setAttribute("role", "dialog");
      this.#editor.setAttribute("aria-labelledby", `${this.#id}-place`);
      this.#editor.hidden = false;
      this.#editor.dataset.shape = shape;
      const head = html("div", { class: "lq-arteries-editor-head" }, heading, close);
      this.#editor.replaceChildren(head, words, ...cards, add);
      if (active) {
        const field = back && this.#editor.querySelector(`[data-lesion-field="${back}"]`);
        const control = field && (field.querySelector("input:not([type=radio])") ?? field.querySelector("lq-answer"));
        (control || add).focus();
        if (control && typing !== undefined && "value" in control) {
          control.value = typing;
        }
      }
    }

    #card(place, index, number) {
      const name = `Lesion ${number + 1}`;
      const remove = html("button", { type: "button", class: "lq-link" }, "Delete");
      remove.setAttribute("aria-label", `Delete lesion ${number + 1} of the ${place.name}`);
      remove.addEventListener("click", () => this.#remove(place, index));
      const card = html("div", { class: "lq-arteries-lesion", role: "group", "aria-label": `${name}, ${place.name}` });
      card.append(html("div", { class: "lq-arteries-lesion-head" }, html("span", {}, name), remove));
      const grid = html("div", { class: "lq-arteries-fields" });
      for (const field of this.#fields) {
        grid.append(this.#field(index, field, name));
      }
      card.append(grid);
      return card;
    }

    #field(index, field, lesion) {
      const key = `${index} ${field.path}`;
      const told = html("div", { class: "lq-told", id: `${this.#id}-told-${index}-${field.path}` });
      const label = html("span", { class: "lq-arteries-label", "aria-hidden": "true" }, field.label);
      if (field.hint) {
        label.append(html("span", { class: "lq-hint" }, field.hint));
      }
      const name = `${field.label}, ${lesion.toLowerCase()}${field.unit ? `, ${field.unit}` : ""}`;
      const control = field.options.length > 0 ? this.#answer(index, field, name) : this.#line(index, field, name);
      const cell = html("div", { class: "lq-cell" }, control);
      if (field.unit) {
        cell.append(html("span", { class: "lq-unit", "aria-hidden": "true" }, field.unit));
      }
      cell.append(told);
      return html("div", { class: "lq-arteries-field", "data-lesion-field": key }, label, cell);
    }

    #answer(index, field, name) {
      const answer = document.createElement("lq-answer");
      answer.setAttribute("role", "radiogroup");
      answer.setAttribute("aria-label", name);
      answer.options = field.options;
      answer.addEventListener("value-changed", (event) => this.#set(index, field, event.detail.value));
      return answer;
    }

    #line(index, field, name) {
      const line = html("input", { type: "text", autocomplete: "off", inputmode: "decimal", "aria-label": name });
      line.className = "lq-input-amount";
      line.addEventListener("input", () => this.#soon(index, field, line));
      line.addEventListener("change", () => this.#settle());
      line.addEventListener("blur", () => this.#settle());
      return line;
    }

    #fill(index, field, lesion) {
      const cell = this.#editor.querySelector(`[data-lesion-field="${index} ${field.path}"]`);
      const control = cell?.querySelector(".lq-cell")?.firstElementChild;
      if (!control) {
        return;
      }
      const value = lesion.values[field.path] ?? "";
      /* What is being typed is not disturbed by what the server has understood so far. */
      if (control.localName !== "input" || control !== document.activeElement) {
        if (control.value !== value && !this.#waiting.has(control)) {
          control.value = value;
        }
      }
      const problem = lesion.problems[field.path] ?? "";
      const told = cell.querySelector(".lq-told");
      if (told.textContent !== problem) {
        told.replaceChildren(...(problem ? [html("span", { class: "lq-problem" }, problem)] : []));
      }
      if (problem) {
        control.setAttribute("aria-invalid", "true");
        control.setAttribute("aria-describedby", told.id);
      } else {
        control.removeAttribute("aria-invalid");
        control.removeAttribute("aria-describedby");
      }
    }

    /* ---- What is asked of the server ---- */

    #soon(index, field, line) {
      clearTimeout(this.#waiting.get(line)?.timer);
      const send = () => {
        this.#waiting.delete(line);
        this.#set(index, field, line.value);
      };
      this.#waiting.set(line, { timer: setTimeout(send, SETTLED_AFTER_MS), send });
    }

    #settle() {
      for (const { timer, send } of [...this.#waiting.values()]) {
        clearTimeout(timer);
        send();
      }
    }

    #set(index, field, value) {
      const lesion = this.#typed.lesions[index];
      if (!lesion || (lesion.values[field.path] ?? "") === value) {
        return;
      }
      lesion.values[field.path] = value;
      this.#announce = this.#open;
      this.#tell("lesion-set", { index, field: field.path, value });
    }

    #add(place) {
      this.#settle();
      const index = this.#typed.lesions.length;
      const values = { segment: place.segment, ...(place.side ? { side: place.side } : {}) };
      this.#typed = { ...this.#typed, lesions: [...this.#typed.lesions, { values, problems: {} }] };
      this.#announce = this.#open;
      this.#tell("lesion-add", { segment: place.segment, side: place.side });
      this.#drawEditor();
      this.#editor.querySelector(`[data-lesion-field^="${index} "] input:not([type=radio])`)?.focus();
    }

    #remove(place, index) {
      this.#settle();
      this.#typed = { ...this.#typed, lesions: this.#typed.lesions.filter((_, other) => other !== index) };
      this.#announce = this.#open;
      this.#tell("lesion-remove", { index });
      this.#drawEditor();
      this.#editor.querySelector(".lq-arteries-add")?.focus();
    }

    #takeBack() {
      this.#settle();
      if (this.#typed.undo === "") {
        return;
      }
      this.#announce = "undone";
      this.#tell("lesions-undo", {});
    }

    #tell(name, detail) {
      this.dispatchEvent(new CustomEvent(name, { detail }));
    }

    #saying(what) {
      if (what === "undone") {
        return "Undone.";
      }
      const place = this.#place(what);
      return place ? `${capital(place.name)}: ${place.words}.` : "";
    }

    #anywhere(event) {
      if (event.key === "Escape" && this.#open !== "") {
        event.preventDefault();
        event.stopPropagation();
        this.#close();
      } else if (event.key === "z" && (event.ctrlKey || event.metaKey) && !event.target.matches("input, select")) {
        event.preventDefault();
        this.#takeBack();
      }
    }
  }

  customElements.define("lq-arteries", Arteries);
})();
