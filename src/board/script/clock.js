// The clock of the whole class on the board: which block is on, what is next, how long. It reckons as the
// site's does, by run.js; here is its face. Never says what somebody does: the cards do.
"use strict";

const rungbookBoardClock = (() => {
  const clock = rungbookClock;
  const run = rungbookRun;
  /** Often enough that no second is skipped to the eye. */
  const EVERY_MS = 200;
  const noSides = () => false;

  const make = (tag, className, ...inside) => {
    const one = Object.assign(document.createElement(tag), { className });
    one.append(...inside);
    return one;
  };
  const button = (words, does) => {
    const one = make("button", "", words);
    one.type = "button";
    one.addEventListener("click", does);
    return one;
  };
  /** Text only where it changed, so that nothing is said or laid out for nothing. */
  const put = (place, text) => {
    if (place.textContent !== text) place.textContent = text;
    place.hidden = text === "";
  };
  /** Kept through a page that is read again, where the browser allows it. */
  const keep = (key, value) => {
    try {
      if (value === null) sessionStorage.removeItem(key);
      else sessionStorage.setItem(key, JSON.stringify(value));
    } catch {
      // Then a page that is read again begins without it.
    }
  };
  const kept = (key) => {
    try {
      return JSON.parse(sessionStorage.getItem(key) || "null");
    } catch {
      return null;
    }
  };

  const minutes = (seconds) => (seconds >= 60 ? `${Math.ceil(seconds / 60)} min left` : `${seconds} s left`);
  const counted = ({ count: c }) => (c ? `${c.word} ${c.n}${c.of ? ` of ${c.of}` : ""}` : "");

  /** @param data as `clock` of the table has it @param groups whose group is which, by block @param session its name */
  function begin(data, groups, session) {
    const place = document.getElementById("clock");
    if (!place || !data.blocks.length) return;
    const parts = run.parts(data.blocks.map(([name, plan]) => ({ name, plan })), data.rig_s, 0, data.blocks.length - 1);
    const key = `rungbook-board-clock ${session}`;
    const before = kept(key);
    let reading = clock.readAgain(before, Date.now(), performance.now());
    let one = before?.run || null;
    let hidden = false;
    let shown = -1;
    let ticking;

    const now = () => {
      reading = clock.read(reading, Date.now(), performance.now(), hidden || document.hidden);
      hidden = document.hidden;
      return reading.own;
    };
    const digits = make("p", "digits");
    digits.setAttribute("role", "timer");
    const name = make("p", "block-now");
    const what = make("p", "now");
    what.setAttribute("role", "status");
    const each = make("p", "each", "Dark names are on. Each does what stands over their name.");
    const next = make("p", "next");
    const left = make("p", "left");
    const change = (how) => () => {
      one = how(parts, one, now());
      draw();
    };
    const start = button("Start the clock", () => {
      one = run.begin({ session, week: null, mode: "class", from: 0, to: data.blocks.length - 1 }, now());
      // A tablet on the wall that goes dark helps nobody; where this is not to be had, it does.
      navigator.wakeLock?.request("screen").catch(() => {});
      shown = -1;
      draw();
    });
    const pause = button("Pause", () => change(one.now.paused_at === null ? run.pause : run.goOn)());
    const controls = [
      button("Back", change(run.back)),
      pause,
      button("Next", change(run.next)),
      button("+1 min", change(run.addMinute)),
      button("Skip block", change(run.skip)),
      button("End", change(run.end)),
    ];
    const undo = button("Take the end back", change(run.takeBack));
    const buttons = make("div", "controls", start, ...controls, undo);
    place.append(digits, make("div", "words", name, what, each, next), left, buttons);

    /** The block that is on stands out, and comes into sight when it begins. */
    const follow = (seen) => {
      const at = seen && !seen.whole ? seen.block : -1;
      for (const section of document.querySelectorAll(".block")) section.classList.toggle("on", section.id === `block-${at + 1}`);
      // Together everybody is at one line; in groups each at theirs.
      // Before the first set those who begin with a line are shown there already.
      const isReady = at >= 0 && seen.phase === "ready";
      const first = isReady && (data.blocks[at][2].find((lines) => lines.length > 0) ?? [seen.next_line ?? 0]);
      const lines = at >= 0 && !seen.rig && seen.work ? (data.blocks[at][2][seen.slot] ?? [seen.line]) : first || [];
      const isGrouped = at >= 0 && data.blocks[at][2].length > 0;
      for (const list of document.querySelectorAll("[data-line]")) {
        const here = lines.flatMap((line, group) => (line !== null && list.dataset.line === `${at}-${line}` ? [group] : []));
        list.closest(".line").classList.toggle("on", here.length > 0);
        for (const li of list.querySelectorAll(".who li")) {
          const group = groups[at]?.[Number(li.dataset.who)] ?? 0;
          li.classList.toggle("now", here.includes(isGrouped ? group : 0));
        }
      }
      const part = at >= 0 ? seen.part : -1;
      const section = at >= 0 && part !== shown && document.getElementById(`block-${at + 1}`);
      if (section) {
        section.style.scrollMarginTop = `${document.getElementById("top").offsetHeight + 8}px`;
        section.scrollIntoView({ block: "start" });
      }
      shown = part;
    };
    const draw = () => {
      const seen = one && run.view(parts, one, now(), noSides);
      if (seen) one = seen.run;
      const is = Boolean(seen) && !seen.whole;
      place.classList.toggle("running", Boolean(seen));
      place.classList.toggle("at-work", is && seen.phase === "going" && seen.work && !seen.paused);
      put(digits, seen ? `${seen.digits}${/^\d+$/.test(seen.digits) ? " s" : ""}` : "");
      put(name, is ? (seen.rig ? `Next block: ${seen.name}` : seen.name) : "");
      each.hidden = !is;
      const rest = is && seen.rest_s > 0 ? `Rest ${clock.shown(seen.rest_s)}, then ` : "";
      const words = seen ? [`${seen.paused && is ? "Paused. " : ""}${rest}${seen.now}`, is ? counted(seen) : ""] : [];
      put(what, words.filter(Boolean).join(", "));
      put(next, is && seen.next ? `Next: ${seen.next}` : "");
      put(left, is ? minutes(seen.left_s) : "");
      start.hidden = is;
      start.textContent = seen ? "Start again" : "Start the clock";
      for (const control of controls) control.hidden = !is;
      pause.textContent = is && seen.paused ? "Go on" : "Pause";
      undo.hidden = !seen || one.ended === null;
      follow(seen);
      keep(key, one && { run: one, own: reading.own, wall: reading.wall });
      clearInterval(ticking);
      if (is) ticking = setInterval(draw, EVERY_MS);
    };
    draw();
  }

  return { begin, keep, kept };
})();
