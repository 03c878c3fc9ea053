// The coach in class: opens cards in place, quick limits for now only, keeps the screen awake.
// Quick limits live in this page's memory: not stored, not in the address, gone on leaving.
"use strict";

(() => {
  const { fits, needs, spoken, together } = rungbookFits;
  const LAST = "rungbook-floor-last";
  const floor = document.querySelector("[data-floor]");
  const place = document.querySelector("[data-card]");
  const lists = document.querySelector("[data-lists]");
  const quick = document.querySelector("[data-quick]");
  if (!(floor instanceof HTMLElement && place instanceof HTMLElement)) return;
  if (!(lists instanceof HTMLElement && quick instanceof HTMLElement)) return;

  /** @type {Map<string, Card>} */
  const cards = new Map();
  /** @type {Map<string, FaultCard>} */
  const faults = new Map();
  /** @type {Map<string, Steps>} */
  const sessions = new Map();
  /** @type {{id: string, rung: string} | null} */
  let shown = null;
  /** The fault that was asked for by itself. @type {{id: string} | null} */
  let seen = null;
  /** The session and its block, from 0, that the coach is in. @type {{id: string, block: number} | null} */
  let inSession = null;
  /** Kit and limits picked for this device. @type {Person} */
  let picked = { kit: null, limits: {}, noise: "loud" };
  /** @type {WakeLockSentinel | null} */
  let awake = null;

  const buttons = () =>
    Array.from(quick.querySelectorAll("button")).filter((one) => !("clear" in one.dataset));
  const pressed = () => buttons().filter((one) => one.getAttribute("aria-pressed") === "true");

  /** Picked kit and limits, and the quick limits on top. @returns {Person} */
  function person() {
    const asks = pressed().map((one) => one.dataset.asks || "");
    const levels = Object.entries(picked.limits).map(([name, level]) => `${name}:${level}`);
    const lacks = pressed().flatMap((one) => (one.dataset.lacks || "").split(" ").filter(Boolean));
    return { ...picked, lacks, limits: together([...asks, levels.join(" ")]) };
  }

  /**
   * Why a movement does not fit now; in brief, which pressed limit rules it out, if one does.
   * @param {{kit?: string, traits?: string, noise?: string}} asked @param {boolean} [inBrief]
   */
  function why(asked, inBrief) {
    const reason = rungbookFits.why(person(), asked, "coach");
    if (!inBrief || reason === "") return reason;
    const ruling = pressed().filter((one) => !fits(alone(one), needs(asked)));
    return ruling.map((one) => (one.textContent || "").trim().toLowerCase()).join(", ") || reason;
  }

  /** Somebody with one quick limit and nothing else. @param {HTMLElement} limit @returns {Person} */
  const alone = ({ dataset: { asks, lacks } }) =>
    ({ kit: null, noise: "loud", lacks: (lacks || "").split(" ").filter(Boolean), limits: together([asks || ""]) });

  function draw() {
    if (!(place instanceof HTMLElement)) return;
    const card = shown && cards.get(shown.id);
    const session = inSession && sessions.get(inSession.id);
    if (shown && card) rungbookFloorCard.draw(place, card, shown.rung, inSession !== null, why);
    else if (seen && faults.has(seen.id)) {
      const fault = /** @type {FaultCard} */ (faults.get(seen.id));
      rungbookFloorFault.draw(place, fault, inSession !== null, why);
    } else if (!shown && !seen && inSession && session) {
      rungbookFloorSteps.draw(place, session, inSession.block, why);
    } else return;
    place.hidden = false;
  }

  /**
   * Shows what comes if it is still asked for.
   * @template {Card | FaultCard | Steps} T
   * @param {Promise<T>} coming @param {Map<string, T>} here @param {string} page where to go if it does
   *   not come
   */
  function awaited(coming, here, page) {
    coming.then((one) => {
      here.set(one.id, one);
      if ((shown || seen || inSession)?.id === one.id) draw();
    }, () => location.assign(`${document.body.dataset.root || ""}${page}`));
  }

  function showPlace() {
    if (lists instanceof HTMLElement) lists.hidden = true;
    if (place instanceof HTMLElement) {
      // Seen before its data is here, so that the focus has somewhere to go.
      place.replaceChildren();
      place.hidden = false;
      place.focus({ preventScroll: true });
    }
    draw();
    window.scrollTo(0, 0);
    keepAwake();
  }

  /** @param {string} id @param {string} block from 1 */
  function openSession(id, block) {
    shown = null;
    seen = null;
    inSession = { id, block: Math.max(0, (Number(block) || 1) - 1) };
    if (!sessions.has(id)) awaited(rungbookBring.session(id), sessions, `sessions/${id}.html`);
    showPlace();
  }

  /** @param {string} id */
  function openFault(id) {
    shown = null;
    seen = { id };
    if (!faults.has(id)) awaited(rungbookBring.fault(id), faults, `faults/${id}.html`);
    showPlace();
  }

  /** @param {string} id @param {string} rung a rung of it as `row/2`, or a fault as `fault/2` */
  function open(id, rung) {
    seen = null;
    shown = { id, rung };
    if (!cards.has(id)) awaited(rungbookBring.card(id), cards, `movements/${id}.html`);
    showPlace();
    try {
      localStorage.setItem(LAST, JSON.stringify(shown));
    } catch {
      // A full or forbidden storage only means that the way back is not remembered.
    }
  }

  function close() {
    shown = null;
    seen = null;
    inSession = null;
    if (place instanceof HTMLElement) place.hidden = true;
    if (lists instanceof HTMLElement) lists.hidden = false;
    showLast();
    awake?.release().catch(() => {});
    awake = null;
  }

  async function keepAwake() {
    if (awake || !("wakeLock" in navigator) || document.visibilityState !== "visible") return;
    try {
      awake = await navigator.wakeLock.request("screen");
      awake.addEventListener("release", () => (awake = null));
    } catch {
      // The browser may refuse, for example on a low battery; nothing else depends on it.
    }
  }

  /** `#strap-row`, `#strap-row/row/2`, `#strap-row/fault/1`, `#fault/hips-sag`, `#session/push-and-pull/3`. */
  function fromAddress() {
    const [id, ladder, number] = location.hash.slice(1).split("/");
    const plain = /^[a-z0-9-]+$/;
    if (!plain.test(id || "")) return close();
    if (id === "session" && plain.test(ladder || "")) return openSession(ladder, number);
    if (id === "fault" && plain.test(ladder || "")) return openFault(ladder);
    open(id, ladder && number ? `${ladder}/${number}` : "");
  }

  /** One touch back to where the coach was. */
  function showLast() {
    const line = document.querySelector("[data-last]");
    if (!(line instanceof HTMLElement)) return;
    try {
      const last = JSON.parse(localStorage.getItem(LAST) || "null");
      if (!last || !/^[a-z0-9-]+$/.test(last.id)) return;
      const link = document.createElement("a");
      link.className = "button";
      link.href = `#${last.id}${last.rung ? `/${last.rung}` : ""}`;
      link.textContent = `Back to ${spoken(last.id)}`;
      line.replaceChildren(link);
      line.hidden = false;
    } catch {
      line.hidden = true;
    }
  }

  function applyQuick() {
    const clear = quick instanceof HTMLElement ? quick.querySelector("[data-clear]") : null;
    if (clear instanceof HTMLElement) clear.hidden = pressed().length === 0;
    for (const rung of lists instanceof HTMLElement ? lists.querySelectorAll(".rail > li") : []) {
      if (!(rung instanceof HTMLElement)) continue;
      const words = why(rung.dataset);
      let note = rung.querySelector(".misfit-why");
      if (!words) note?.remove();
      else if (note) note.textContent = words;
      else {
        note = document.createElement("span");
        note.className = "misfit-why";
        note.textContent = words;
        rung.append(note);
      }
      rung.classList.toggle("misfit", words !== "");
    }
    draw();
  }

  // Any link to a movement on this page opens its card here, and the back button goes back.
  document.addEventListener("click", (event) => {
    if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.shiftKey) return;
    const link = event.target instanceof Element ? event.target.closest("a") : null;
    if (!link || link.classList.contains("whole-page")) return;
    if (link.dataset.session) {
      event.preventDefault();
      location.hash = `session/${link.dataset.session}/1`;
      return;
    }
    const match = /^(?:\.\/)?(movements|faults)\/([a-z0-9-]+)\.html(?:#(?:fault-(\d+))?.*)?$/.exec(link.getAttribute("href") || "");
    if (!match || match[2] === "index") return;
    event.preventDefault();
    const [, folder, id, fault] = match;
    const at = link.dataset.rung || (fault ? `fault/${fault}` : "");
    location.hash = folder === "faults" ? `fault/${id}` : `${id}${at ? `/${at}` : ""}`;
  });

  place.addEventListener("click", (event) => {
    if (!(event.target instanceof HTMLElement && "close" in event.target.dataset)) return;
    const back = (shown || seen) && inSession;
    location.hash = back ? `session/${inSession?.id}/${(inSession?.block || 0) + 1}` : "";
  });

  quick.addEventListener("click", (event) => {
    const button = event.target instanceof Element ? event.target.closest("button") : null;
    if (!button) return;
    if ("clear" in button.dataset) {
      pressed().forEach((one) => one.setAttribute("aria-pressed", "false"));
    } else {
      const on = button.getAttribute("aria-pressed") === "true";
      button.setAttribute("aria-pressed", String(!on));
    }
    applyQuick();
  });

  document.addEventListener("rungbook-person", (event) => {
    picked = /** @type {CustomEvent<Person>} */ (event).detail;
    applyQuick();
  });
  document.addEventListener("visibilitychange", () => {
    if (shown) keepAwake();
  });
  window.addEventListener("hashchange", fromAddress);

  document.dispatchEvent(new CustomEvent("rungbook-who"));
  quick.hidden = false;
  showLast();
  if (location.hash.length > 1) fromAddress();
})();
