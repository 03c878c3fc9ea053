// A member with limits goes from page to page, tab to tab and day to day: each limit counts everywhere, a
// drawing or a note of the class never stands for their own answer, and a clock of another day never goes on.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { answered, caution, limitsOf, pseudo } from "./devices.mjs";
import { closeHall, openHall } from "./hall.mjs";

let hall, browser;
const DAY = "2027-01-19T18:30:00";

before(async () => ({ hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** A device of its own on a phone; with `at`, its day is made. */
async function device(run, { at, before: script, ...options } = {}) {
  const context = await browser.newContext({ serviceWorkers: "block", viewport: { width: 390, height: 844 }, ...options });
  if (script) await context.addInitScript(script);
  const page = await context.newPage();
  if (at) await page.clock.install({ time: new Date(at) });
  try {
    await run(page, context);
  } finally {
    await context.close();
  }
}

const open = (page, name) => page.goto(hall.address + name);
const member = (page, how) => answered(page, hall.address, how);

test("a limit that is kept in one tab counts in every other, at once, after a reload and on other pages", () => device(async (one, context) => {
  await open(one, "kit-and-limits.html");
  await caution(one, "sore-wrist");
  await one.check('input[name="keep"]');
  const two = await context.newPage();
  await open(two, "kit-and-limits.html");
  await caution(two, "sore-knee");
  await one.waitForFunction(() => /sore knee/.test(document.querySelector("[data-person]")?.textContent || ""));
  assert.ok(await one.isChecked('input[name="caution"][value="sore-knee"]'), "the form of the first tab shows it");
  const both = await limitsOf(two);
  for (const name of ["kit-and-limits.html", "movements/push-up.html"]) {
    await open(one, name);
    assert.deepEqual((await limitsOf(one)).sort(), both.sort(), name);
  }
  // Taken away in the one, it is gone in the other: no tab holds on to a copy.
  await two.uncheck('input[name="caution"][value="sore-wrist"]');
  await one.waitForFunction(() => !/sore wrist/.test(document.querySelector("[data-person]")?.textContent || ""));
  assert.equal(await one.evaluate(() => sessionStorage.getItem("rungbook-limits")), null);
}));

test("what was said in a tab alone neither hides what is kept nor is hidden by it", () => device(async (one, context) => {
  await open(one, "kit-and-limits.html");
  await caution(one, "sore-wrist");
  const two = await context.newPage();
  await open(two, "kit-and-limits.html");
  await caution(two, "sore-knee");
  await two.check('input[name="keep"]');
  await open(one, "movements/push-up.html");
  assert.match(await one.textContent("[data-person]"), /sore knee/);
  assert.match(await one.textContent("[data-person]"), /sore wrist/);
  // A form that stood there before adds its one box to what is kept now.
  await two.evaluate(() => rungbookPerson.keepLimits(["sore-knee", "pregnancy"], [], true));
  await caution(two, "hip-pain");
  assert.ok((await two.evaluate(() => rungbookPerson.limits().cautions)).includes("pregnancy"));
}));

const NOTHING_KEPT = () => {
  for (const name of ["localStorage", "sessionStorage"]) Object.defineProperty(window, name, { get() { throw new DOMException("denied", "SecurityError"); } });
};

test("where nothing is kept, Start asks for limits and says whose clock it would run", () => device(async (page) => {
  await open(page, "kit-and-limits.html");
  await caution(page, "sore-wrist");
  for (const [name, start] of [["today.html", ".go"], ["sessions/push-and-pull.html", ".clock-start"]]) {
    await open(page, name);
    await page.click(start);
    await page.waitForSelector("[data-clock-asks]");
    const asked = await page.textContent("[data-clock-asks]");
    assert.match(asked, /Any limits today\?.*Run the class's clock.*nobody in particular/, name);
    assert.match(asked, /keeps nothing: what is picked on another page does not come along/, name);
    assert.equal(await page.locator("dialog.clock").count(), 0, "no clock runs");
  }
}, { before: NOTHING_KEPT }));

/** Writes a result down in My book. */
async function result(page, amount) {
  await open(page, "book.html");
  await page.evaluate(() => (document.querySelector("[data-adding]").open = true));
  const form = '[data-form="result"]';
  await page.selectOption(`${form} [name="ladder"]`, "push-up");
  await page.selectOption(`${form} [name="rung"]`, "5");
  await page.fill(`${form} [name="amount"]`, String(amount));
  await page.$eval(form, (one) => (one.noValidate = true));
  await page.click(`${form} button[type="submit"]`);
  await page.waitForFunction(() => document.querySelector("[data-said]")?.textContent);
  return page.textContent("[data-said]");
}

test("a result that is not kept says the true reason: nothing is kept, no room, or the number", async () => {
  await device(async (page) => {
    assert.match(await result(page, 8), /Not kept: this browser keeps nothing for this site\. Write it on paper/);
  }, { before: NOTHING_KEPT });
  const full = () => {
    const put = Storage.prototype.setItem;
    Storage.prototype.setItem = function (key, value) {
      if (key === "rungbook-book") throw new DOMException("full", "QuotaExceededError");
      return put.call(this, key, value);
    };
  };
  await device(async (page) => {
    assert.match(await result(page, 8), /Not kept: this browser has no room for it/);
  }, { before: full });
  await device(async (page) => {
    await open(page, "book.html");
    const why = await page.evaluate(() => {
      rungbookBook.change((book) => book.results.push({ id: "a", day: "2027-01-19", ladder: "push-up", rung: 5, setting: null, counts: "reps", amount: 20000, added_kg: 0, note: "" }));
      return rungbookBook.whyNot();
    });
    assert.equal(why, "Not kept: amount is 20000; it should be a whole number from 0 to 10000.");
  });
});

test("a drawing beside a change says that it is drawn unchanged, on every page that is read near", () => device(async (page) => {
  await member(page);
  await open(page, "movements/push-up.html");
  await page.waitForSelector("[data-flag].change:not([hidden])");
  assert.match(await pseudo(page, ".picture", "::before"), /Drawn unchanged/);
  await open(page, "ladders/push-up.html");
  assert.match(await pseudo(page, ".rail.large > li:has(.change-how) > .change-how", "::after"), /drawn unchanged/);
  assert.match(await pseudo(page, ".to-scale figcaption", "::before"), /Drawn unchanged/);
  await open(page, "floor.html#push-up");
  await page.evaluate(() => {
    rungbookPerson.setFront({ situations: ["sore-wrist"], traits: [], lacks: [] });
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  await page.waitForSelector(".flag.change > strong");
  assert.match(await pseudo(page, ".flag.change:has(> strong)", "::after"), /drawn unchanged/);
  await page.evaluate(() => rungbookPerson.setFront(null));
  await open(page, "sessions/push-and-pull.html");
  await page.click(".own.changed .own-cues summary");
  await page.waitForSelector(".own.changed .own-figure");
  assert.match(await pseudo(page, ".own.changed .own-cues > div:has(.own-figure)", "::before"), /Drawn unchanged/);
  // Where it is fine nothing of the kind is said.
  await open(page, "movements/towel-row.html");
  assert.equal(await pseudo(page, ".picture", "::before"), "none");
}));

/** Starts the session's clock in one's own version and waits for its words. */
async function started(page, session = "push-and-pull") {
  await open(page, `sessions/${session}.html`);
  await page.waitForSelector(".own");
  await page.click(".clock-start");
  await page.waitForSelector("dialog.clock[open]");
  await page.clock.runFor(300);
  await page.waitForFunction(() => /own version/.test(document.querySelector(".clock-whose")?.textContent || ""));
}

/** What the face shows at each step to the end of the session. @returns {Promise<{now: string, more: string, next: string, dose: string, shown: boolean, digits: string}[]>} */
async function throughout(page, look = async () => {}, steps = 90) {
  const all = [];
  for (let step = 0; step < steps && (await page.locator("dialog.over").count()) === 0; step += 1) {
    await page.clock.runFor(1100);
    all.push(await page.evaluate(() => {
      const text = (name) => document.querySelector(`dialog .clock-${name}`)?.textContent || "";
      const picture = document.querySelector("dialog .clock-figure");
      return { now: text("now"), more: text("more"), next: text("next"), dose: text("dose"), shown: picture.getClientRects().length > 0, digits: text("digits") };
    }));
    await look(all.at(-1));
    await page.click("dialog button:text-is('Next')", { timeout: 2000 }).catch(() => {});
  }
  return all;
}

test("the clock draws nothing of a changed line, and its change-over says the change", () => device(async (page) => {
  await member(page);
  await started(page);
  const versions = await page.evaluate(async () => {
    const found = await rungbookSessionPage.known();
    return [...found.values()].map(({ name, brief, kind }) => ({ name, brief, kind }));
  });
  const changed = versions.filter(({ brief }) => brief);
  assert.ok(changed.length > 2, JSON.stringify(versions));
  const seen = await throughout(page);
  for (const { name, brief } of changed) {
    const at = seen.filter(({ now, more }) => now === name && more.includes(brief));
    assert.ok(at.length > 0 && at.every(({ shown }) => !shown), `${name}: ${JSON.stringify(at)}`);
    const before = seen.filter(({ next }) => next.startsWith(`Next: ${name}`));
    assert.ok(before.every(({ next }) => next.includes(brief)), JSON.stringify(before));
  }
  assert.ok(seen.some(({ shown }) => shown), "a line that is fine keeps its drawing");
  assert.ok(seen.some(({ next }) => changed.some(({ brief }) => next.includes(brief))));
}, { at: DAY }));

test("under a changed version or a swap the class's cue is gone, and its note says that it is the class's", () => device(async (page) => {
  await member(page, { situations: ["sore-wrist", "pregnancy"] });
  let shown = 0;
  let gone = 0;
  for (const name of ["push-and-pull", "steady-on-your-feet", "legs-and-trunk", "legs-in-a-small-room", "test-day"]) {
    await open(page, `sessions/${name}.html`);
    await page.waitForSelector(".own");
    const lines = await page.$$eval("[data-item]:has(> .own):has(> .beneath)", (all) => all.map((line) => {
      const fine = line.querySelector(":scope > .own").classList.contains("fine");
      const own = (line.querySelector(".own-name")?.getAttribute("href") || "").replace(/#.*/, "");
      const its = [...line.querySelectorAll(":scope > .what a, :scope > .three a")].map((link) => link.getAttribute("href").replace(/#.*/, ""));
      const seen = (one) => Boolean(one?.getClientRects().length);
      const [cue, note] = [".cue", ".note"].map((one) => line.querySelector(`:scope > .beneath > ${one}`));
      return { fine, own, its, cue: seen(cue), note: note && seen(note), named: note && getComputedStyle(note, "::before").content, words: line.textContent };
    }));
    for (const { fine, own, its, cue, note, named, words } of lines) {
      const isIts = fine && (its.includes(own) || its.some((to) => to.includes("ladders/")));
      if (!isIts) assert.equal(cue, false, words);
      if (note === null) continue;
      // A note may be a word of care: it is said, and whose it is.
      assert.equal(note, true, words);
      assert.equal(/For the class/.test(named), !isIts, words);
      isIts ? (shown += 1) : (gone += 1);
    }
  }
  assert.ok(shown > 1 && gone > 3, `${shown} ${gone}`);
  // On paper it is the class's sheet, whole.
  await page.emulateMedia({ media: "print" });
  const hidden = await page.$$eval(".beneath", (all) => all.filter((one) => one.getClientRects().length === 0).length);
  assert.equal(hidden, 0);
}));

test("a line's link opens the movement at the rung that the line named, with the same answer first", () => device(async (page) => {
  await member(page);
  // The rung of the finding: hands 45 cm, where a chair serves; the page's own setting asks for a box.
  await page.evaluate(() => localStorage.setItem("rungbook-book", JSON.stringify({
    schema: "rungbook-book-1", stature_cm: null, body_mass_kg: null, heights: {}, rungs: { "push-up": 5 },
    rungs_then: { "push-up": { movement: "incline-push-up", settings: { hands: 45 } } }, results: [], done: [], notes: [],
  })));
  await open(page, "sessions/push-and-pull.html");
  const line = page.locator(".own:has(.own-name:text('Incline push-up'))").first();
  await line.waitFor();
  const how = await line.locator("> .change-how").textContent();
  assert.match(await line.locator(".own-name").textContent(), /hands 45 cm/);
  await line.locator(".own-name").click();
  await page.waitForFunction(() => /\/movements\/incline-push-up\.html#rung-push-up-5$/.test(location.href));
  await page.waitForSelector("[data-flag]:not([hidden])");
  const flag = await page.textContent("[data-flag]");
  assert.ok(flag.startsWith(`For you, change it: ${how}`), flag);
  assert.match(flag, /rung 5 of its ladder, hands 45 cm/);
  assert.doesNotMatch(flag, /Not for you/);
  // Its own setting is answered for as before; a rung that is not this movement's is nobody's answer.
  for (const at of ["", "#rung-push-up-1", "#rung-squat-2", "#rung-nothing-1", "#rung/push-up/5"]) {
    await open(page, "index.html");
    await open(page, `movements/incline-push-up.html${at}`);
    await page.waitForSelector("[data-flag]:not([hidden])");
    assert.match(await page.textContent("[data-flag]"), /^Not for you as it stands: it needs box/, at);
  }
}));

test("a clock of another day is noted under its own day, with what was done then, or dropped; it never goes on", () => device(async (page, context) => {
  await member(page, { kept: true });
  await started(page);
  await page.clock.runFor(4_000);
  const as = await page.evaluate(() => JSON.parse(localStorage.getItem("rungbook-clock")).run.as);
  // Left in a pause: it would wait for ever to go on.
  await page.click("dialog button:text-is('Pause')");
  assert.match(as, /^As: .*on fists|make fists/);
  // Six weeks later, with other limits.
  const later = await context.newPage();
  await page.close();
  await later.clock.install({ time: new Date("2027-03-02T18:30:00") });
  await open(later, "kit-and-limits.html");
  await later.evaluate(() => rungbookPerson.keepLimits(["pregnancy"], [], true));
  await open(later, "sessions/push-and-pull.html");
  await later.waitForFunction(() => /A clock from 19 January/.test(document.querySelector(".run-strip")?.textContent || ""));
  assert.match(await later.textContent(".run-strip"), /Note it or drop it/);
  assert.equal(await later.locator(".run-strip button:text-is('Pause'):visible, .run-strip button:text-is('Go on'):visible").count(), 0);
  assert.equal(await later.textContent(".clock-start >> nth=0"), "Start the whole session");
  await later.click(".clock-start >> nth=0");
  await later.waitForSelector("[data-clock-asks]");
  assert.match(await later.textContent("[data-clock-asks]"), /The clock from 19 January is neither noted nor dropped/);
  await later.click("[data-clock-asks] button:text-is('Note or drop it')");
  await later.waitForSelector("dialog.over");
  assert.match(await later.textContent(".clock-noting"), /This clock is from 19 January.*on that day, or drop it/);
  for (const name of ["Take it back", "Go on", "Pause", "Back", "Next"]) {
    assert.equal(await later.locator(`dialog button:text-is('${name}'):visible`).count(), 0, name);
  }
  assert.equal(await later.inputValue('.clock-noting [name="note"]'), as);
  await later.click(".clock-noting button:text-is('Keep it')");
  await later.waitForSelector(".clock-noting a");
  const [done] = await later.evaluate(() => JSON.parse(localStorage.getItem("rungbook-book")).done);
  assert.deepEqual([done.day, done.note], ["2027-01-19", as]);
}, { at: DAY }));

test("what a clock remembers of a day holds no limits of this tab alone, and none of somebody in front", () => device(async (page) => {
  await member(page);
  await started(page);
  await page.clock.runFor(4_000);
  assert.doesNotMatch(await page.evaluate(() => localStorage.getItem("rungbook-clock")), /fist/);
}, { at: DAY }));

test("a clock over midnight is the same session, and a note is never cut in the middle of a name", () => device(async (page) => {
  await member(page, { kept: true });
  await started(page);
  await page.clock.fastForward(30 * 60_000);
  assert.equal(await page.evaluate(() => rungbookRunKeep.from(rungbookRunKeep.run())), "");
  const { words, names } = await page.evaluate(async () => {
    const found = [...(await rungbookSessionPage.known()).values()].filter(({ kind }) => kind !== "ask");
    return { words: rungbookRunKeep.run().as, names: found.map(({ name }) => name) };
  });
  assert.ok(words.length > 200, words);
  for (const name of names) assert.ok(words.includes(name), `${name} is not in ${words}`);
  await page.evaluate(() => rungbookRunning.change(rungbookRun.end));
  await page.waitForSelector("dialog.over");
  assert.equal(await page.inputValue('.clock-noting [name="note"]'), words);
}, { at: "2027-01-19T23:45:00" }));

test("My book says whose its dose is", () => device(async (page) => {
  await result(page, 12);
  await page.waitForSelector(".answer");
  assert.match(await page.textContent(".answer"), /This dose is the ladder's\. A session, or this week of a cycle, may ask for another/);
}, { at: DAY }));

test("a hold lasts as long on the session's page as on its clock", () => device(async (page) => {
  await member(page);
  await started(page);
  const versions = await page.evaluate(async () => [...(await rungbookSessionPage.known()).values()].map(({ name, dose }) => ({ name, dose })));
  const row = versions.find(({ name, dose }) => name === "Towel row" && /^\d+ s/.test(dose));
  assert.ok(row, JSON.stringify(versions));
  const seen = await throughout(page);
  const at = seen.find(({ now }) => now === "Towel row");
  assert.equal(at.dose, row.dose);
  assert.ok(Number.parseInt(row.dose, 10) <= 12, "never longer than the class's four repetitions");
  const lasts = await page.evaluate(() => rungbookRunning.known().parts[0].plan.slots.filter(([, work, what]) => work && /Towel row/.test(what)).map(([seconds]) => seconds));
  assert.ok(lasts.length > 0 && lasts.every((seconds) => seconds >= Number.parseInt(row.dose, 10)), `${lasts}`);
}, { at: DAY }));

test("a poster says on the screen, and on no paper, that it knows nobody's limits", () => device(async (page) => {
  await member(page, { situations: ["pregnancy"] });
  await open(page, "posters/push-and-pull.html");
  const said = page.locator("text=This poster is for the class: it knows nobody's limits");
  assert.equal(await said.count(), 1);
  assert.ok(await said.isVisible());
  await page.emulateMedia({ media: "print" });
  assert.equal(await said.isVisible(), false);
}));

for (const viewport of [{ width: 390, height: 844 }, { width: 844, height: 390 }]) {
  test(`however long a change is, End and Hide stay in reach at ${viewport.width} x ${viewport.height}`, () => device(async (page) => {
    await member(page, { situations: ["sore-wrist", "pregnancy"] });
    await started(page);
    let looked = 0;
    await throughout(page, async () => {
      looked += 1;
      const boxes = await page.$$eval("dialog .clock-main-controls > button:not([hidden])", (all) => all.map((one) => {
        const { top, bottom, left, right } = one.getBoundingClientRect();
        const hit = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
        return { words: one.textContent, inside: top >= 0 && bottom <= innerHeight && left >= 0 && right <= innerWidth, hit: one.contains(hit) };
      }));
      for (const { words, inside, hit } of boxes) assert.ok(inside && hit, `${words} at step ${looked}`);
      const figure = await page.$eval("dialog .clock-figure", (one) => (one.getClientRects().length ? one.clientHeight : null));
      assert.ok(figure === null || figure >= 56, `a figure of ${figure} px`);
    }, 40);
    assert.ok(looked > 20, `${looked}`);
    // Longer than any of the library's.
    await open(page, "sessions/push-and-pull.html");
    await page.waitForSelector("dialog.clock[open] .clock-main-controls button:visible");
    const reach = await page.evaluate(() => {
      const more = document.querySelector("dialog .clock-more");
      more.textContent = "on fists, one knee down, ".repeat(12);
      more.hidden = false;
      return [...document.querySelectorAll("dialog .clock-main-controls > button:not([hidden])")].map((one) => {
        const { top, bottom } = one.getBoundingClientRect();
        return [one.textContent, top >= 0 && bottom <= innerHeight];
      });
    });
    assert.ok(reach.length >= 2 && reach.every(([, inside]) => inside), `${reach}`);
  }, { at: DAY, viewport }));
}

test("cleared limits are limits that are not said, above as in the running clock", () => device(async (page) => {
  await member(page);
  await started(page);
  await page.evaluate(() => document.dispatchEvent(new CustomEvent("rungbook-erase")));
  await page.waitForFunction(() => /Limits not said yet/.test(document.querySelector(".clock-now")?.textContent || "") || document.querySelector(".clock-asks")?.textContent);
  const strip = await page.textContent("[data-person]");
  assert.match(strip, /limits not said yet/i);
  assert.doesNotMatch(strip, /no limits/i);
  // Said to be none, both say so.
  await page.click("dialog .clock-asks button:text-is('None')");
  await page.waitForFunction(() => /Any kit, no limits/.test(document.querySelector("[data-person]")?.textContent || ""));
  await page.waitForFunction(() => !/Limits not said/.test(document.querySelector("dialog")?.textContent || ""));
}, { at: DAY }));
