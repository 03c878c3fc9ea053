// The coach in class: opens cards in place, says who is in front with one touch a limit, keeps the
// screen awake. Who is in front is person.js's business: named on every page, gone with the tab.
"use strict";

(() => {
  const { fit, why, inBrief } = rungbookFits;
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
  /** Whom the page is for. @type {Who} */
  let who = rungbookPerson.who();
  /** @type {WakeLockSentinel | null} */
  let awake = null;

  const buttons = () =>
    Array.from(quick.querySelectorAll("button")).filter((one) => !("clear" in one.dataset));
  const pressed = () => buttons().filter((one) => one.getAttribute("aria-pressed") === "true");
  /** @param {string | undefined} text */
  const listed = (text) => (text || "").split(" ").filter(Boolean);

  /** The pressed limits are the person in front; none pressed, nobody is. */
  function keepFront() {
    const on = pressed();
    const ids = (/** @type {"situation" | "limit" | "lacks"} */ key) => on.flatMap((one) => listed(one.dataset[key]));
    rungbookPerson.setFront(on.length ? { situations: ids("situation"), traits: ids("limit"), lacks: ids("lacks") } : null);
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  }

  /** Whether what the person in front has stands pressed, all of it: the buttons name it then. @param {Front | null} front */
  const areAllPressed = (front) => front !== null && [...front.situations, ...front.traits, ...front.lacks].every((id) =>
    pressed().some(({ dataset: { situation, limit, lacks } }) => [situation, limit, ...listed(lacks)].includes(id)));

  /** Presses what the person in front has, wherever it was said. */
  function showFront() {
    const front = rungbookPerson.front();
    const has = (/** @type {HTMLElement} */ { dataset: { situation, limit, lacks } }) => front !== null && (
      (situation !== undefined && front.situations.includes(situation))
      || (limit !== undefined && front.traits.includes(limit))
      || (lacks !== undefined && listed(lacks).every((id) => front.lacks.includes(id))));
    for (const one of buttons()) one.setAttribute("aria-pressed", String(has(one)));
    const clear = quick instanceof HTMLElement ? quick.querySelector("[data-clear]") : null;
    if (clear instanceof HTMLElement) clear.hidden = front === null;
    // What is pressed behind More stands on it: nobody's limit is out of sight.
    const more = quick instanceof HTMLElement ? quick.querySelector(".more-quick > summary") : null;
    const behind = pressed().filter((one) => one.closest(".more-quick")).map((one) => (one.textContent || "").trim());
    if (more) more.textContent = behind.length ? `${behind.join(", ")}; more limits` : "More limits";
    // With a card open the head's strip makes way for it: whose kit and limits count is said here in its words.
    const whose = quick?.querySelector("[data-whose]");
    const said = document.querySelector("[data-person] > .person-said")?.textContent || "";
    if (whose) whose.textContent = /^(Mine|For this person):/.test(said) && !areAllPressed(front) ? said : "";
  }

  /** Somebody with one quick limit and nothing else. @param {HTMLElement} one @returns {Person} */
  function alone({ dataset: { situation, limit, lacks } }) {
    const words = globalThis.rungbookWords;
    const asks = situation ? words?.situations[situation]?.asks || "" : limit ? `${limit}:1` : "";
    return { kit: null, noise: "loud", lacks: listed(lacks), limits: rungbookFits.together([asks]) };
  }

  /** In brief, which pressed limit rules a rung out; else the whole reason. @param {Asks} asks */
  function whyInBrief(asks) {
    const reason = why(who, asks, "coach");
    if (reason === "") return "";
    const ruling = pressed().filter((one) => fit(alone(one), asks).kind === "out");
    return ruling.map((one) => (one.textContent || "").trim().toLowerCase()).join(", ") || reason;
  }

  /** What the cards ask of the person. @type {Telling} */
  const telling = {
    person: () => who,
    why: (asks) => why(who, asks, "coach"),
    whyInBrief,
    change: (asks) => inBrief(fit(who, asks)),
    settings: (words, asks) => rungbookFits.settingWords(words, fit(who, asks)),
    object: (words, says, asks) => rungbookFits.objectWords(words, says, fit(who, asks)),
    how: (asks) => rungbookFits.howWords(fit(who, asks)),
    general: (asks) => rungbookFits.general(who, asks),
  };

  function draw() {
    if (!(place instanceof HTMLElement)) return;
    const card = shown && cards.get(shown.id);
    const session = inSession && sessions.get(inSession.id);
    // Said once on the session's page and not asked for here: how much of it the block asks.
    const dose = shown && session && inSession ? rungbookFloorSteps.doseOf(session.blocks[inSession.block], shown.id, shown.rung) : "";
    if (shown && card) rungbookFloorCard.draw(place, card, { rung: shown.rung, dose, inSession: inSession !== null }, telling);
    else if (seen && faults.has(seen.id)) {
      const fault = /** @type {FaultCard} */ (faults.get(seen.id));
      rungbookFloorFault.draw(place, fault, inSession !== null, telling);
    } else if (!shown && !seen && inSession && session) {
      rungbookFloorSteps.draw(place, session, inSession.block, telling);
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

  /** The wall of limits folds once one is chosen or a card opens; what is pressed in it stays named on it. */
  function foldMore() {
    const more = quick?.querySelector(".more-quick");
    if (more?.contains(document.activeElement)) more.querySelector("summary")?.focus({ preventScroll: true });
    more?.removeAttribute("open");
  }

  function showPlace() {
    if (lists instanceof HTMLElement) lists.hidden = true;
    foldMore();
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

  /** A session as the week that is on asks for it, as its own page and today's do; of two nobody chose one. @param {string} id */
  async function asked(id) {
    const written = await rungbookBring.session(id);
    const day = rungbookBring.today();
    const on = written.weeks.filter(({ from, to }) => from <= day && day <= to);
    if (on.length !== 1) return written;
    const { cycle, number } = on[0];
    return { ...(await rungbookBring.inWeek(id, { cycle, week: number })), week: number };
  }

  /** @param {string} id @param {string} block from 1 */
  function openSession(id, block) {
    shown = null;
    seen = null;
    inSession = { id, block: Math.max(0, (Number(block) || 1) - 1) };
    const steps = rungbookBring.files(["scripts/floor-steps.js"]);
    if (!sessions.has(id)) awaited(steps.then(() => asked(id)), sessions, `sessions/${id}.html`);
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
      link.textContent = `Back to ${last.id.replaceAll("-", " ")}`;
      line.replaceChildren(link);
      line.hidden = false;
    } catch {
      line.hidden = true;
    }
  }

  /** @param {HTMLElement} place @param {string} name @param {string} words */
  function note(place, name, words) {
    let said = place.querySelector(`:scope > .${name}`);
    if (words === "") return said?.remove();
    if (!said) {
      said = document.createElement("span");
      said.className = name;
      place.append(said);
    }
    said.textContent = words;
  }

  function showWho() {
    showFront();
    for (const rung of lists instanceof HTMLElement ? lists.querySelectorAll(".rail > li") : []) {
      if (!(rung instanceof HTMLElement)) continue;
      const words = whyInBrief(rung.dataset);
      note(rung, "misfit-why", words);
      note(rung, "change-how", telling.change(rung.dataset));
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
    const rung = /#rung-(.+)-(\d+)$/.exec(link.hash);
    const at = link.dataset.rung || (fault && `fault/${fault}`) || (rung && `${rung[1]}/${rung[2]}`);
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
    keepFront();
    foldMore();
  });

  document.addEventListener("rungbook-person", (event) => {
    who = /** @type {CustomEvent<Who>} */ (event).detail;
    showWho();
  });
  document.addEventListener("visibilitychange", () => {
    if (shown) keepAwake();
  });
  window.addEventListener("hashchange", fromAddress);

  document.querySelector("[data-search]")?.addEventListener("focusin", () => rungbookBring.files(["scripts/floor-search.js"]).catch(() => {}), { once: true });
  document.dispatchEvent(new CustomEvent("rungbook-who"));
  quick.hidden = false;
  showFront();
  showLast();
  if (location.hash.length > 1) fromAddress();
})();
