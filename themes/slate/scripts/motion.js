// The moving figure: plays a movement from start to end and back when asked, and only then.
// Never starts by itself, never moves for a person who asked their device for less motion.
"use strict";

const rungbookMotion = (() => {
  /**
   * @typedef {{from: number, frames: number, d: string, strays: string}} Run
   * @typedef {{class: string, width?: string, runs?: Run[], of?: number[]}} Track
   * @typedef {{view: string, keys: number[], paths: Track[], orders: [number, number[]][], onward: boolean, pause: boolean}} Motion
   * @typedef {{from: number, words: (string | number)[], frames: number[][]}} Piece one path's frames that differ only in numbers
   * @typedef {{keys: number[], view: string, looks: {class: string, width: string}[], pieces: Piece[][], of: number[][], orders: [number, number[]][], timeline: Stretch[]}} Film
   * @typedef {{from: number, to: number, seconds: number}} Stretch from frame to frame in so many seconds
   */

  /** Seconds a repetition where the entry gives no pace: common practice, no source. */
  const PACE = 3;
  /** The part of each way for which it stands still at its end. */
  const REST = 0.15;

  /**
   * A path's words: commands and the flags of arcs as text, numbers in tenths.
   * @param {string} d @returns {(string | number)[]}
   */
  function words(d) {
    /** @type {(string | number)[]} */
    const out = [];
    let ofArc = -1;
    for (const word of d.match(/[a-zA-Z]|-?(?:\d+\.?\d*|\.\d+)/g) || []) {
      if (/[a-zA-Z]/.test(word)) {
        out.push(word);
        ofArc = word === "a" ? 0 : -1;
      } else {
        out.push(ofArc === 3 || ofArc === 4 ? word : Math.round(Number(word) * 10));
        if (ofArc >= 0) ofArc += 1;
      }
    }
    return out;
  }

  /** The number of a letter from # to ~; the backslash is left out. @param {number} code */
  const place = (code) => code - 35 - (code > 92 ? 1 : 0);

  /** @param {string} text @returns {number[]} how far each number strays from going on as before */
  function strays(text) {
    const out = [];
    for (let i = 0; i < text.length; i += 1) {
      if (text[i] === " ") {
        out.push(place(text.charCodeAt(i + 1)) * 91 + place(text.charCodeAt(i + 2)) - 91 * 45);
        i += 2;
      } else {
        out.push(place(text.charCodeAt(i)) - 45);
      }
    }
    return out;
  }

  /** @param {Run} run @returns {Piece} */
  function piece(run) {
    const all = words(run.d);
    const first = /** @type {number[]} */ (all.filter((word) => typeof word === "number"));
    const frames = Array.from({ length: run.strays ? run.frames : 1 }, () => first.slice());
    const by = strays(run.strays);
    for (let number = 0; number < first.length; number += 1) {
      for (let at = 1; at < frames.length; at += 1) {
        const [last, before] = [frames[at - 1][number], frames[Math.max(0, at - 2)][number]];
        frames[at][number] = 2 * last - before + by[number * (frames.length - 1) + at - 1];
      }
    }
    return { from: run.from, words: all, frames };
  }

  /**
   * When it is where: along every way between key poses, and back, or from the start again.
   * @param {Motion} motion @param {number} pace seconds a repetition
   */
  function timeline(motion, pace) {
    const { keys } = motion;
    const ways = (keys.length - 1) * (motion.onward ? 1 : 2);
    const seconds = pace / ways;
    /** @type {Stretch[]} */
    const there = [];
    for (let i = 1; i < keys.length; i += 1) {
      there.push({ from: keys[i - 1], to: keys[i], seconds: seconds * (1 - REST) });
      there.push({ from: keys[i], to: keys[i], seconds: seconds * REST });
    }
    const end = keys[keys.length - 1];
    if (motion.pause) there.push({ from: end, to: end, seconds: 1 });
    if (motion.onward) return there;
    const back = there.filter((way) => way.from !== way.to).reverse();
    return there.concat(back.flatMap((way) => [
      { from: way.to, to: way.from, seconds: way.seconds },
      { from: way.from, to: way.from, seconds: seconds * REST },
    ]));
  }

  /** Makes a motion ready to draw. @param {Motion} motion @param {number} pace @returns {Film} */
  function film(motion, pace) {
    return {
      keys: motion.keys,
      view: motion.view,
      looks: motion.paths.map((track) => ({ class: track.class, width: track.width || "" })),
      pieces: motion.paths.map((track) => (track.runs || []).map(piece)),
      of: motion.paths.map((track) => track.of || []),
      orders: motion.orders,
      timeline: timeline(motion, pace || PACE),
    };
  }

  /**
   * The frame at so many seconds: slow to leave a key pose, slow to come to one.
   * @param {Stretch[]} stretches @param {number} seconds
   */
  function frameAt(stretches, seconds) {
    let left = seconds % stretches.reduce((sum, stretch) => sum + stretch.seconds, 0);
    for (const { from, to, seconds: takes } of stretches) {
      if (left < takes) return from + (to - from) * (1 - Math.cos(Math.PI * left / takes)) / 2;
      left -= takes;
    }
    return stretches[0].from;
  }

  /** A smooth curve through b and c (Catmull and Rom). @param {number[]} abcd @param {number} u */
  const smooth = ([a, b, c, d], u) =>
    b + (u * (c - a + u * (2 * a - 5 * b + 4 * c - d + u * (3 * b - a - 3 * c + d)))) / 2;

  /** One path at a frame. @param {Piece[]} pieces @param {number} frame @returns {string} */
  function pathAt(pieces, frame) {
    const own = pieces.filter((one) => one.from <= frame).at(-1) || pieces[0];
    if (!own) return "";
    const last = own.frames.length - 1;
    const at = Math.min(frame - own.from, last);
    const b = Math.max(0, Math.floor(at));
    const near = [b - 1, b, b + 1, b + 2].map((one) => own.frames[Math.min(last, Math.max(0, one))]);
    let number = 0;
    const text = own.words.map((word) => {
      if (typeof word === "string") return word;
      const value = smooth(near.map((numbers) => numbers[number]), at - b);
      number += 1;
      return (value / 10).toFixed(2);
    });
    return text.join(" ");
  }

  /**
   * Every path at a frame, back to front: {which, d}.
   * @param {Film} shown @param {number} frame
   */
  function picture(shown, frame) {
    const order = (shown.orders.filter(([from]) => from <= frame).at(-1) || shown.orders[0])[1];
    const plain = new Map(order.filter((which) => shown.of[which].length === 0)
      .map((which) => [which, pathAt(shown.pieces[which], frame)]));
    return order.map((which) => ({
      which,
      d: plain.get(which) ?? shown.of[which].map((other) => plain.get(other) || "").join(" "),
    }));
  }

  /** @type {Map<string, Motion>} */
  const kept = new Map();
  /** What the file of a motion calls. @param {string} id @param {Motion} motion */
  const keep = (id, motion) => kept.set(id, motion);

  return { film, frameAt, picture, keep, kept };
})();

if (typeof module === "object") module.exports = rungbookMotion;

if (typeof document === "object") {
  const less = matchMedia("(prefers-reduced-motion: reduce)");

  for (const figure of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-motion]"))) {
    const { motion: id = "", pace = "" } = figure.dataset;
    const poses = /** @type {HTMLElement} */ (figure.querySelector(".poses"));
    const button = document.createElement("button");
    const trouble = document.createElement("p");
    const still = /** @type {SVGSVGElement} */ (figure.querySelector("svg"));
    const svg = /** @type {SVGSVGElement} */ (still.cloneNode(false));
    /** @type {ReturnType<typeof rungbookMotion.film> | null} */
    let film = null;
    /** @type {SVGPathElement[]} */
    let paths = [];
    let playing = false;
    let step = -1;

    button.type = "button";
    trouble.setAttribute("role", "status");
    // Named and described by the words of the picture that it stands in for.
    svg.setAttribute("class", "fig moving");
    figure.append(button, trouble);

    const label = () => {
      if (!less.matches) {
        button.textContent = "Show it moving";
        button.setAttribute("aria-pressed", String(playing));
        return;
      }
      button.removeAttribute("aria-pressed");
      const last = film ? film.keys[film.keys.length - 1] : 0;
      button.textContent = step < 0 ? "Show it step by step" : `Next step (this is ${step + 1} of ${last + 1})`;
    };

    /** @param {number} frame */
    const draw = (frame) => {
      if (!film) return;
      const now = rungbookMotion.picture(film, frame);
      now.forEach(({ which, d }, at) => {
        const path = paths[which];
        path.setAttribute("d", d);
        if (svg.children[at] !== path) svg.insertBefore(path, svg.children[at] || null);
      });
      while (svg.children.length > now.length) svg.lastElementChild?.remove();
    };

    const raise = () => {
      if (svg.isConnected || !film) return;
      // As tall as what it stands in for: the button stays under the finger.
      const { width, height } = poses.getBoundingClientRect();
      svg.setAttribute("viewBox", film.view);
      svg.style.width = `${width}px`;
      svg.style.height = `${height}px`;
      paths = film.looks.map((look) => {
        const path = /** @type {SVGPathElement} */ (document.createElementNS(still.namespaceURI, "path"));
        path.setAttribute("class", look.class);
        if (look.width) path.setAttribute("stroke-width", look.width);
        return path;
      });
      svg.replaceChildren();
      poses.hidden = true;
      poses.after(svg);
    };

    const stop = () => {
      playing = false;
      step = -1;
      svg.remove();
      poses.hidden = false;
      label();
    };

    const play = () => {
      playing = true;
      raise();
      label();
      let start = -1;
      const tick = (/** @type {number} */ now) => {
        if (!playing || !film || !svg.isConnected) return;
        if (start < 0) start = now;
        draw(rungbookMotion.frameAt(film.timeline, (now - start) / 1000));
        requestAnimationFrame(tick);
      };
      draw(0);
      requestAnimationFrame(tick);
    };

    const stepOn = () => {
      if (!film) return;
      if (step >= film.keys[film.keys.length - 1]) return stop();
      step += 1;
      raise();
      draw(step);
      label();
    };

    /** Goes on once the motion is here. @param {() => void} then */
    const fetched = (then) => {
      trouble.textContent = "";
      if (film) return then();
      rungbookBring.files([`motion/${id}.js`]).then(() => {
        const motion = rungbookMotion.kept.get(id);
        if (motion) film = rungbookMotion.film(motion, Number(pace));
        if (motion) then();
      }, () => {
        trouble.textContent = "The moving picture did not come. Try again once there is a signal.";
      });
    };

    button.addEventListener("click", () => {
      if (playing) stop();
      // What the device asks for is asked again once the file is here: it may have changed.
      else fetched(() => (less.matches ? stepOn() : playing || play()));
    });
    less.addEventListener("change", stop);
    document.addEventListener("visibilitychange", () => document.hidden && playing && stop());
    document.addEventListener("keydown", (event) => {
      if (event.key === "Escape" && (playing || step >= 0)) stop();
    });
    label();
  }
}
