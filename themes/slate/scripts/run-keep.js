// The run of a session on this device: own time, kept so that a reload, a lock or another tab does not
// lose it. Sends nothing; says with `rungbook-run` when it changed, here or in another tab.
"use strict";

const rungbookRunKeep = (() => {
  const KEPT = "rungbook-clock";
  const TIME = "rungbook-clock-time";
  const KEEP_EVERY_MS = 2000;
  const clock = rungbookClock;
  /** No session is as long as this: a clock begun on another day and longer ago is over, whatever it shows. */
  const OVER_MS = 4 * 60 * 60 * 1000;

  /** @param {string} key @returns {unknown} */
  function taken(key) {
    try {
      return JSON.parse(localStorage.getItem(key) || "null");
    } catch {
      return null;
    }
  }

  /** Whether this browser keeps nothing. */
  let blocked = false;

  /** @param {string} key @param {unknown} value */
  function put(key, value) {
    try {
      if (value === null) localStorage.removeItem(key);
      else localStorage.setItem(key, JSON.stringify(value));
    } catch {
      // The clock runs all the same; only a reload would lose it.
      blocked = true;
    }
  }

  /** A run as it was kept; null where it is none, or one of an older site. @returns {WholeRun | null} */
  function kept() {
    const run = /** @type {{run?: WholeRun} | null} */ (taken(KEPT))?.run;
    const whole = run && typeof run.session === "string" && run.now && Array.isArray(run.trail) && typeof run.now.started === "number";
    return whole ? run : null;
  }

  /** @returns {{own: number, wall: number} | null} */
  function keptTime() {
    const time = /** @type {{own?: unknown, wall?: unknown} | null} */ (taken(TIME));
    return time && typeof time.own === "number" && typeof time.wall === "number" ? { own: time.own, wall: time.wall } : null;
  }

  /** @type {WholeRun | null} */
  let run = kept();
  let reading = clock.readAgain(run ? keptTime() : null, Date.now(), performance.now());
  let hidden = false;
  let keptAt = 0;

  function keepTime() {
    keptAt = reading.own;
    put(TIME, { own: reading.own, wall: reading.wall });
  }

  /** Own time now; see clock.js. */
  function now() {
    const isHidden = document.visibilityState === "hidden";
    const before = reading;
    reading = clock.read(reading, Date.now(), performance.now(), hidden || isHidden);
    hidden = isHidden;
    // A wall clock that was set is kept at once, or a reload would take it for time gone by.
    const wasSet = Math.abs(reading.own - before.own - (reading.wall - before.wall)) > 50;
    if (run && (wasSet || reading.own - keptAt > KEEP_EVERY_MS)) keepTime();
    return reading.own;
  }

  /** @param {number} ms */
  const dayOf = (ms) => rungbookBook.today(new Date(ms));

  /** The day on which a run was begun, as this device's calendar had it. @param {WholeRun} of */
  const dayRun = (of) => of.day || dayOf(of.begun);

  /** That day in words, where it was another one: such a clock can be noted or dropped, and never goes on. @param {WholeRun} of */
  function from(of) {
    if (dayRun(of) === rungbookBook.today() || Math.abs(now() - of.begun) < OVER_MS) return "";
    return new Date(`${dayRun(of)}T00:00:00Z`).toLocaleDateString(document.documentElement.lang, { day: "numeric", month: "long", timeZone: "UTC" });
  }

  const tell = () => document.dispatchEvent(new CustomEvent("rungbook-run"));

  /** @param {WholeRun | null} next null: nothing runs */
  function set(next) {
    run = next;
    put(KEPT, next && { run: next });
    if (next) keepTime();
    else put(TIME, null);
    tell();
  }

  /** What another tab changed while this one did not look. */
  function again() {
    if (blocked) return;
    const there = kept();
    if (JSON.stringify(there) === JSON.stringify(run)) return;
    if (there && !run) reading = clock.readAgain(keptTime(), Date.now(), performance.now());
    run = there;
    tell();
  }

  window.addEventListener("storage", (event) => {
    if (event.key === KEPT || event.key === null) again();
  });
  document.addEventListener("visibilitychange", () => {
    hidden = hidden || document.visibilityState === "hidden";
    if (document.visibilityState === "visible") again();
  });
  window.addEventListener("pagehide", () => {
    if (!run) return;
    now();
    keepTime();
  });

  return { run: () => run, set, now, dayRun, from };
})();
