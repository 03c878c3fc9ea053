// The big face is read across a hall: letters are measured against distance, on a phone at two metres and a
// tablet at three, upright and lying. What it gives besides is only what was asked for, from this device alone.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { closeHall, openHall } from "./hall.mjs";
import { endByHold } from "./clocks.mjs";

/** A letter is at least this share of the distance that it is read from. */
const LEAST = 0.003;
/** How large a CSS pixel is, from common screens: a phone 65 mm wide, a tablet 158 mm on its short side. */
const SCREENS = [
  { name: "a phone", width: 390, height: 844, mm: 65 / 390, metres: 2 },
  { name: "a small phone", width: 360, height: 640, mm: 65 / 360, metres: 2 },
  { name: "a phone lying", width: 844, height: 390, mm: 65 / 390, metres: 2 },
  { name: "a tablet", width: 820, height: 1180, mm: 158 / 820, metres: 3 },
  { name: "a tablet lying", width: 1180, height: 820, mm: 158 / 820, metres: 3 },
];
/** What has to be read: digits, movement, setting and change, how much, which round, one cue, what is next. */
const READ = ["clock-digits", "clock-now", "clock-more", "clock-dose", "clock-count", "clock-cue", "clock-next"];
let browser, hall;

before(async () => ({ hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** Opens today in the cycle's third week and starts the class's clock. */
async function started(screen, prepare = async () => {}, more = {}) {
  const context = await browser.newContext({ serviceWorkers: "block", viewport: { width: screen.width, height: screen.height }, ...more });
  const page = await context.newPage();
  await page.clock.install({ time: new Date("2027-01-19T18:30:00") });
  await prepare(page);
  await page.goto(`${hall.address}today.html`);
  await page.waitForSelector(".today.ready .hour.picked");
  await page.click(".go");
  await page.waitForSelector("dialog[open] .clock-digits:not(:empty)");
  await page.clock.runFor(6_000);
  return page;
}

/** The height of a capital in px, as the browser draws it, of each part that says something. */
const letters = (page) => page.evaluate((names) => names.flatMap((name) => {
  const place = document.querySelector(`dialog .${name}`);
  if (!place || place.hidden || !place.textContent || !place.checkVisibility()) return [];
  const style = getComputedStyle(place);
  const pen = document.createElement("canvas").getContext("2d");
  pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
  const box = place.getBoundingClientRect();
  return [{ name, px: pen.measureText("H").actualBoundingBoxAscent, right: box.right, left: box.left, top: box.top, bottom: box.bottom }];
}), READ);

/** On to the next moment at which something is done. */
async function nextWork(page) {
  for (let tries = 0; tries < 6; tries += 1) {
    await page.click("dialog button:text-is('Next')");
    await page.clock.runFor(300);
    if (await page.locator("dialog.at-work").count()) return;
  }
}

for (const screen of SCREENS) {
  test(`every word that is needed is read from ${screen.metres} m on ${screen.name}`, async (t) => {
    const page = await started(screen);
    const seen = new Set();
    let smallest = Infinity;
    for (let look = 0; look < 24; look += 1) {
      for (const { name, px, left, right, top, bottom } of await letters(page)) {
        const mm = px * screen.mm;
        smallest = Math.min(smallest, mm);
        seen.add(name);
        const words = await page.textContent(`dialog .${name}`);
        assert.ok(mm >= LEAST * screen.metres * 1000, `${name} "${words}": ${mm.toFixed(1)} mm at ${screen.metres} m`);
        assert.ok(left >= -1 && right <= screen.width + 1 && top >= -1 && bottom <= screen.height + 1, `${name} "${words}" is cut off: ${top} to ${bottom}`);
      }
      await nextWork(page);
    }
    t.diagnostic(`${screen.name}: ${smallest.toFixed(1)} mm at the least, ${(LEAST * screen.metres * 1000).toFixed(1)} asked for`);
    for (const name of READ.filter((one) => one !== "clock-more")) assert.ok(seen.has(name), name);
    assert.equal(await page.evaluate(() => document.querySelector("dialog").scrollHeight <= innerHeight + 1), true);
    await page.context().close();
  });
}

test("the figure of what is done stands beside the words where there is room", async () => {
  for (const screen of [SCREENS[0], SCREENS[3], SCREENS[4]]) {
    const page = await started(screen);
    while (!/Row/.test(await page.textContent(".clock-now"))) await nextWork(page);
    const image = page.locator(".clock-figure img");
    assert.match(await image.getAttribute("src"), /figures\/movements\/strap-row\.svg$/);
    assert.ok(await image.evaluate((one) => one.decode().then(() => one.naturalWidth > 0)));
    const box = await image.boundingBox();
    assert.ok(box.height > 60 && box.width > 60, `${screen.name}: ${JSON.stringify(box)}`);
    await page.context().close();
  }
});

for (const screen of [SCREENS[0], SCREENS[2], SCREENS[3], SCREENS[4]]) {
  test(`between two blocks the face of ${screen.name} shows what comes: name, cue and figure`, async () => {
    const page = await started(screen);
    while (!/^Next block: Row/.test(await page.textContent(".clock-name"))) {
      await page.click("dialog button:text-is('Next')");
      await page.clock.runFor(300);
    }
    assert.match(await page.textContent(".clock-next"), /^Next: Row/);
    assert.equal(await page.textContent(".clock-cue"), "“Elbows to back pockets”");
    assert.ok(await page.isVisible(".clock-cue"), "no cue");
    const image = page.locator(".clock-figure img");
    assert.match(await image.getAttribute("src"), /strap-row\.svg$/);
    assert.ok(await image.isVisible(), "no figure");
    // None lies on another.
    const boxes = await page.$$eval(".clock-digits, .clock-now, .clock-cue, .clock-next, .clock-figure", (all) => all.map((one) => {
      const { left, right, top, bottom } = one.getBoundingClientRect();
      return { left, right, top, bottom };
    }));
    for (const [at, one] of boxes.entries()) for (const other of boxes.slice(at + 1)) {
      const over = Math.min(one.right, other.right) - Math.max(one.left, other.left) > 2 && Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > 2;
      assert.ok(!over, JSON.stringify([one, other]));
    }
    await page.context().close();
  });
}

test("a letter that is too small is seen", async () => {
  const page = await started(SCREENS[4]);
  await page.evaluate(() => document.querySelector(".clock-now").style.setProperty("font-size", "40px"));
  const [{ px }] = (await letters(page)).filter(({ name }) => name === "clock-now");
  assert.ok(px * SCREENS[4].mm < LEAST * 3000);
  await page.context().close();
});

test("as a wall display nothing but the face stands, and a touch brings the controls back", async () => {
  const page = await started(SCREENS[4]);
  await page.click("dialog summary:text-is('More')");
  await page.click("dialog button:text-is('Full screen')");
  await page.waitForSelector("dialog.wall");
  assert.equal(await page.locator("dialog button:visible").count(), 0);
  await page.click(".clock-digits");
  await page.waitForSelector("dialog:not(.wall) .clock-main-controls button:visible");
  await page.context().close();
});

/** A device with a voice of its own, one that a host would speak, or none; what is spoken is kept. */
const voices = (list) => (page) => page.addInitScript((all) => {
  window.spoken = [];
  window.shaken = [];
  const synthesis = Object.assign(new EventTarget(), { getVoices: () => all, cancel() {}, speak: (one) => window.spoken.push([one.text, one.voice?.name]) });
  Object.defineProperty(window, "speechSynthesis", { value: synthesis });
  window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
  Object.defineProperty(navigator, "vibrate", { value: (ms) => window.shaken.push(ms), configurable: true });
}, list);
const LOCAL = { name: "Ours", lang: "en-GB", localService: true, default: false };
const HOSTED = { name: "Theirs", lang: "en-GB", localService: false, default: true };

test("a spoken word only on request, only by a voice of this device, remembered, and never what is not ordered", async () => {
  const page = await started(SCREENS[0], voices([HOSTED, LOCAL]));
  await nextWork(page);
  assert.deepEqual(await page.evaluate(() => [window.spoken, window.shaken]), [[], []]);
  await page.click("dialog summary:text-is('More')");
  await page.click("dialog button:text-is('Voice')");
  await page.click("dialog button:text-is('Vibration')");
  await page.click("dialog summary:text-is('More')");
  await nextWork(page);
  await page.clock.runFor(1_000);
  const spoken = await page.evaluate(() => window.spoken);
  assert.ok(spoken.some(([words]) => /Round 1 of 3/.test(words)), JSON.stringify(spoken));
  assert.deepEqual([...new Set(spoken.map(([, voice]) => voice))], ["Ours"]);
  await page.reload();
  await page.waitForSelector("dialog[open] .clock-digits:not(:empty)");
  assert.equal(await page.getAttribute("dialog button:text-is('Voice')", "aria-pressed"), "true");
  assert.equal(await page.getAttribute("dialog button:text-is('Sound')", "aria-pressed"), "false");
  // Somebody who leaves out everything: what is not theirs is not spoken either.
  await page.evaluate(() => {
    window.spoken.length = 0;
    rungbookPerson.keepLimits([], Object.keys(window.rungbookWords.traits), false);
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  await page.waitForFunction(() => /own version/.test(document.querySelector(".clock-whose")?.textContent || ""));
  for (let look = 0; look < 10; look += 1) await nextWork(page);
  const words = (await page.evaluate(() => window.spoken)).map(([said]) => said).join("\n");
  assert.ok(!/Push-up, 10|Row, 10/.test(words), words);
  await page.clock.runFor(100);
  await endByHold(page, (ms) => page.clock.runFor(ms));
  assert.match((await page.evaluate(() => window.spoken)).at(-1)[0], /Session done/);
  await page.context().close();
});

test("where only a host could speak there is no voice to ask for, though one was remembered", async () => {
  const page = await started(SCREENS[0], async (one) => {
    await voices([HOSTED])(one);
    await one.addInitScript(() => localStorage.setItem("rungbook-signals", JSON.stringify({ voice: true })));
  });
  await page.click("dialog summary:text-is('More')");
  assert.equal(await page.isVisible("dialog button:text-is('Voice')"), false);
  assert.equal(await page.isVisible("dialog button:text-is('Sound')"), true);
  await nextWork(page);
  assert.deepEqual(await page.evaluate(() => window.spoken), []);
  await page.context().close();
});

/** A member who has nothing to leave out. */
const member = () => {
  localStorage.setItem("rungbook-kit", JSON.stringify({ mode: "picked", kit: ["chair", "towel", "band", "counter"], noise: "loud" }));
  localStorage.setItem("rungbook-limits", JSON.stringify({ cautions: [], traits: [], asks: {} }));
};

for (const screen of SCREENS.filter(({ width, height }) => width < height)) {
  test(`upright on ${screen.name} the figure stands, however long what is next is`, async () => {
    const page = await started(screen, (page) => page.addInitScript(member));
    const seen = new Set();
    for (let tries = 0; tries < 90 && !(await page.locator("dialog.over").count()); tries += 1) {
      const face = await page.evaluate(() => {
        const part = (name) => document.querySelector(`dialog .clock-${name}`);
        const box = part("figure").getBoundingClientRect();
        return { wanted: !part("figure").hidden, height: box.height, width: box.width, now: part("now").textContent, next: part("next").textContent, bottom: box.bottom, words: part("words").getBoundingClientRect().top };
      });
      if (face.wanted) {
        seen.add(face.now);
        assert.ok(face.height >= 56 && face.width >= 56, JSON.stringify(face));
      }
      await page.click("dialog button:text-is('Next')");
      await page.clock.runFor(300);
    }
    assert.ok(seen.size > 8, [...seen].join());
    await page.context().close();
  });
}

test("between two turns of one's own pace the face is that of what waits for the rest to end", async () => {
  const page = await started(SCREENS[0], (page) => page.addInitScript(member));
  const face = (name) => page.textContent(`dialog .${name}`);
  for (let tries = 0; tries < 120; tries += 1) {
    if ((await face("clock-name")) === "Six to two" && (await page.locator("dialog.at-work").count())) break;
    await page.click("dialog button:text-is('Next')");
    await page.clock.runFor(300);
  }
  const row = await face("clock-now");
  assert.match(row, /row/i);
  const rows = await face("clock-cue");
  await page.click("dialog button:text-is('Next')");
  await page.clock.runFor(300);
  assert.match(await face("clock-now"), /^Rest 0:\d\d, then .*push-up, .*6$/i);
  const waiting = await face("clock-cue");
  assert.notEqual(waiting, rows);
  assert.match(await face("clock-next"), /^After that: .*row/i);
  await page.clock.runFor(20_000);
  assert.match(await face("clock-now"), /push-up/i);
  assert.equal(await face("clock-cue"), waiting);
  await page.context().close();
});
