// The coach in class, on a phone, without a signal: the rung below and a safe swap, counted in
// touches. The person in front is for now only: named on every page, in no address, gone with the tab,
// after an hour, and by one touch.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { HOUSE, builtSite, openBrowser, serve } from "./hall.mjs";

const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true };
let site, browser, hall, context;

before(async () => {
  site = builtSite();
  hall = await serve(site);
  browser = await openBrowser();
  context = await browser.newContext(PHONE);
  const first = await context.newPage();
  await first.goto(hall.address);
  await first.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await first.close();
  await context.setOffline(true);
});
after(async () => {
  await context?.close();
  await browser?.close();
  await hall?.stop();
});

/** The floor, cold, with a count of touches. */
async function coldFloor() {
  const page = await context.newPage();
  await page.goto(hall.address + "floor.html");
  let touches = 0;
  const touch = async (what) => {
    touches += 1;
    await page.tap(what);
  };
  return { page, touch, touches: () => touches };
}

/** The movement of the rung below a movement, as the ladder's own file says it. */
function rungBelow(ladder, movement) {
  const text = readFileSync(join(HOUSE, `content/ladders/${ladder}.yaml`), "utf8");
  const rungs = [...text.matchAll(/- \{movement: ([a-z-]+)/g)].map(([, id]) => id);
  return rungs[rungs.indexOf(movement) - 1];
}

/** Opens the pull-up's card by typing four letters. */
async function pullUp(touch, page) {
  await touch("#search-words");
  await page.keyboard.type("pull");
  const answer = "[data-search] .answers a[href$='movements/pull-up.html']";
  await page.waitForSelector(answer);
  await touch(answer);
  await page.waitForSelector(".card h1");
}

test("two touches and four letters lead to the rung below", async () => {
  const { page, touch, touches } = await coldFloor();
  await pullUp(touch, page);
  assert.equal(touches(), 2);
  assert.equal(await page.textContent(".card h1"), "Pull-up");
  const below = page.locator(".ways .way-to").first();
  assert.match(await below.textContent(), /Rung below/);
  assert.equal(await below.getAttribute("href"), `movements/${rungBelow("pull-up", "pull-up")}.html`);
  assert.ok(await below.isVisible());
  assert.ok((await below.boundingBox()).height >= 44);
  await page.close();
});

test("two more touches lead to a swap without a bar and without a bent wrist", async () => {
  const { page, touch, touches } = await coldFloor();
  await pullUp(touch, page);
  const before = touches();
  await touch("[data-quick] button:text-is('No bar')");
  await touch("[data-quick] button:text-is('Sore wrist')");
  assert.equal(touches() - before, 2);
  // In brief which limit rules a rung out; the whole reason stands at the movement itself.
  assert.match(await page.textContent(".ways .way-to .misfit-why"), /^no bar$/);
  assert.match(await page.textContent(".card .flag"), /needs pull-up bar or door-frame bar/);
  const swaps = await page.$$eval(".card-swaps .swap-to", (links) => links.map((link) =>
    ({ href: link.getAttribute("href"), change: link.querySelector(".change-how")?.textContent || "" })));
  assert.ok(swaps.length > 0, "nothing left");
  for (const { href, change } of swaps) {
    const other = await context.newPage();
    await other.goto(hall.address + href);
    const { kit, traits } = await other.$eval("[data-this]", (entry) => ({ ...entry.dataset }));
    const bars = ["pull-up-bar", "low-bar", "doorframe-bar"];
    assert.ok(!kit.split(" ").some((need) => need && need.split("|").every((one) => bars.includes(one))), `${href}: ${kit}`);
    assert.ok(!/loaded-wrist-extension/.test(traits) || change !== "", `${href}: ${traits}`);
    await other.close();
  }
  await page.close();
});

test("what was picked before the floor was opened is left out from the first look", async () => {
  const page = await context.newPage();
  await page.goto(`${hall.address}kit-and-limits.html`);
  await page.check('input[name="trait"][value="strong-grip"]');
  await page.goto(`${hall.address}floor.html#pull-up`);
  await page.waitForSelector(".card h1");
  assert.match(await page.textContent(".card .flag"), /strong grip/);
  await page.evaluate(() => sessionStorage.clear());
  await page.close();
});

test("the push-up of somebody with a sore wrist is changed before anything is swapped", async () => {
  const { page, touch } = await coldFloor();
  await touch("[data-quick] button:text-is('Sore wrist')");
  await page.goto(`${hall.address}floor.html#push-up`);
  await page.waitForSelector(".card .flag.change");
  assert.match(await page.textContent(".card .flag"), /^Change it: .*fists/);
  await page.close();
});

test("every situation is two touches away, and the person in front is named on every page", async () => {
  const { page, touch, touches } = await coldFloor();
  await touch(".more-quick summary");
  await touch("[data-quick] button:text-is('Pregnancy')");
  assert.equal(touches(), 2);
  const all = await page.evaluate(() => Object.values(rungbookWords.situations).map(({ name }) => name));
  const there = await page.$$eval("[data-quick] button", (buttons) => buttons.map((one) => one.textContent.trim()));
  assert.ok(all.length >= 15);
  assert.deepEqual(all.filter((name) => !there.includes(name)), []);
  for (const name of ["index.html", "ladders/push-up.html", "movements/push-up.html", "sessions/push-and-pull.html", "kit-and-limits.html"]) {
    await page.goto(hall.address + name);
    assert.match(await page.textContent("[data-person]"), /For this person: pregnancy/, name);
    assert.ok(!/pregnan/i.test(page.url()) && !/pregnan/i.test(await page.title()));
  }
  await page.tap("[data-person] button:text-is('Clear')");
  assert.doesNotMatch(await page.textContent("[data-person]"), /pregnancy/);
  await page.close();
});

test("the person in front is kept in no other tab and not beyond the hour, and suspends the member's own", async () => {
  const { page, touch } = await coldFloor();
  await page.evaluate(() => rungbookPerson.keepLimits([], ["impact"], true));
  await touch("[data-quick] button:text-is('Sore wrist')");
  const local = await page.evaluate(() => JSON.stringify([{ ...localStorage }, document.cookie]));
  assert.ok(!/wrist/i.test(local), local);
  const front = await page.evaluate(() => rungbookPerson.who());
  assert.deepEqual(Object.keys(front.limits), ["loaded-wrist-extension"], "never merged with the member's own");
  assert.match(await page.textContent("[data-person]"), /Mine waits/);
  const other = await context.newPage();
  await other.goto(hall.address + "floor.html");
  assert.doesNotMatch(await other.textContent("[data-person]"), /this person/);
  await other.close();
  await page.evaluate(() => {
    const kept = JSON.parse(sessionStorage.getItem("rungbook-front"));
    sessionStorage.setItem("rungbook-front", JSON.stringify({ ...kept, at: kept.at - 3600001 }));
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  assert.doesNotMatch(await page.textContent("[data-person]"), /this person/);
  assert.equal(await page.locator("[data-quick] [aria-pressed=true]").count(), 0);
  assert.deepEqual(Object.keys((await page.evaluate(() => rungbookPerson.who())).limits), ["impact"]);
  await page.evaluate(() => rungbookPerson.forgetMine());
  await page.close();
});

test("with a card open a limit behind More is named where the eye is", async () => {
  const { page, touch } = await coldFloor();
  await touch(".more-quick summary");
  await touch("[data-quick] button:text-is('Pregnancy')");
  await pullUp(touch, page);
  assert.equal(await page.textContent(".more-quick summary"), "Pregnancy; more limits");
  const named = await page.locator(".more-quick summary").boundingBox();
  assert.ok(named.x >= 0 && named.x + named.width <= PHONE.viewport.width, `out of sight: ${named.x} to ${named.x + named.width}`);
  await touch("[data-quick] [data-clear]");
  assert.equal(await page.textContent(".more-quick summary"), "More limits");
  await page.close();
});

test("however many limits are pressed, all are in sight with a card open, also where it is scrolled", async () => {
  const { page, touch } = await coldFloor();
  const pressed = ["Sore wrist", "No bar", "Can't get on the floor"];
  for (const name of pressed) await touch(`[data-quick] button:text-is("${name}")`);
  for (const name of ["Pregnancy", "High blood pressure"]) {
    await touch(".more-quick summary");
    await touch(`[data-quick] button:text-is("${name}")`);
  }
  await pullUp(touch, page);
  for (const scrolled of [0, 900]) {
    await page.evaluate((to) => scrollTo(0, to), scrolled);
    await page.waitForTimeout(100);
    for (const name of [...pressed.map((one) => `button:text-is("${one}")`), ".more-quick summary"]) {
      const box = await page.locator(`[data-quick] ${name}`).boundingBox();
      assert.ok(box.x >= 0 && box.x + box.width <= 390 && box.y >= 0 && box.y + box.height < 300, `${name} at ${scrolled}: ${JSON.stringify(box)}`);
    }
    assert.match(await page.textContent(".more-quick summary"), /Pregnancy.*High blood pressure|High blood pressure.*Pregnancy/);
  }
  await page.close();
});

test("of whom nobody starts in the middle the card says so, and leads to the lowest rung", async () => {
  const { page, touch } = await coldFloor();
  await touch(".more-quick summary");
  await touch("[data-quick] button:text-is('Pregnancy')");
  await page.goto(`${hall.address}floor.html#push-up`);
  await page.waitForSelector(".card .flag a");
  assert.match(await page.textContent(".card"), /With no result yet, and pregnancy: start at rung 1 of this ladder/);
  await touch(".card .flag a");
  const lowest = /- \{movement: ([a-z-]+)/.exec(readFileSync(join(HOUSE, "content/ladders/push-up.yaml"), "utf8"))[1];
  await page.waitForURL((url) => url.hash === `#${lowest}/push-up/1`);
  await page.waitForFunction(() => !/With no result yet/.test(document.querySelector(".card")?.textContent || "With no result yet"));
  await page.close();
  const nobody = await coldFloor();
  await nobody.page.goto(`${hall.address}floor.html#push-up`);
  await nobody.page.waitForSelector(".card h1");
  assert.doesNotMatch(await nobody.page.textContent(".card"), /With no result yet/);
  await nobody.page.close();
});

test("no rung of a ladder or of the floor says a setting beside the change that takes it away", async () => {
  const page = await context.newPage();
  let seen = 0;
  for (const name of ["floor.html", ...readdirSync(join(HOUSE, "content/ladders")).map((file) => `ladders/${file.replace(".yaml", ".html")}`)]) {
    await page.goto(hall.address + name);
    const found = await page.evaluate(() => Object.keys(rungbookWords.situations).flatMap((id) => {
      rungbookPerson.setFront({ situations: [id], traits: [], lacks: [] });
      document.dispatchEvent(new CustomEvent("rungbook-who"));
      return [...document.querySelectorAll(".rail > li")].filter((one) => /without a weight/.test(one.querySelector(".change-how")?.textContent || ""))
        .map((one) => `${id}: ${[...one.querySelectorAll(".setting")].map((place) => place.textContent).join("")}`);
    }));
    seen += found.length;
    assert.deepEqual(found.filter((one) => /kg/.test(one)), [], name);
    await page.evaluate(() => { rungbookPerson.setFront(null); document.dispatchEvent(new CustomEvent("rungbook-who")); });
  }
  assert.ok(seen > 0, "something is done without its weight");
  await page.close();
});

test("one touch clears the person in front", async () => {
  const { page, touch } = await coldFloor();
  await pullUp(touch, page);
  await touch("[data-quick] button:text-is('Sore wrist')");
  await touch("[data-quick] [data-clear]");
  assert.equal(await page.locator("[data-quick] [aria-pressed=true]").count(), 0);
  assert.ok(await page.isHidden("[data-quick] [data-clear]"));
  await page.close();
});

test("a card stands on one phone screen as far as the swaps, and the way back is one touch", async () => {
  const { page, touch } = await coldFloor();
  await pullUp(touch, page);
  const ways = await page.locator(".ways").boundingBox();
  assert.ok(ways.y + ways.height <= 844, `the rungs end at ${ways.y + ways.height}`);
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
  await touch(".card .close");
  await page.waitForSelector("[data-lists]", { state: "visible" });
  await page.close();
  const again = await coldFloor();
  assert.match(await again.page.textContent("[data-last]"), /pull up/);
  await again.page.close();
});

test("a session is stepped through block by block, and a card leads back to its block", async () => {
  const { page, touch } = await coldFloor();
  await touch(".floor-sessions summary");
  await touch("[data-session]");
  await page.waitForSelector(".step-items");
  assert.match(await page.textContent(".card .over"), /block 1 of/);
  await touch(".card .steps .button:last-child");
  await page.waitForFunction(() => /block 2 of/.test(document.querySelector(".card .over").textContent));
  await touch(".step-to");
  await page.waitForSelector(".big-cue");
  await touch(".card .close");
  await page.waitForFunction(() => /block 2 of/.test(document.querySelector(".card .over")?.textContent || ""));
  await page.close();
});

/** Each view of the floor that tells somebody what to do: a card, a fault on it, a fault by itself, a block. */
const VIEWS = ["#push-up", "#push-up/fault/1", "#fault/hips-sag", "#session/push-and-pull/2"];

/** Whom the view says it is for, if that can be read. */
const whose = async (page, hash) => {
  await page.goto("about:blank");
  await page.goto(`${hall.address}floor.html${hash}`);
  await page.waitForSelector("[data-card] h1");
  return (await page.isVisible("[data-whose]")) ? page.innerText("[data-whose]") : "";
};

test("the member's own kit and limits are named in every view in which they count, also where it is scrolled", async () => {
  const page = await context.newPage();
  for (const hash of VIEWS) {
    await page.goto(`${hall.address}floor.html`);
    await page.evaluate(() => rungbookPerson.forgetMine());
    assert.equal(await whose(page, hash), "", "nobody's are named as somebody's");
    await page.evaluate(() => {
      rungbookPerson.keepKit({ mode: "picked", kit: ["chair"], noise: "quiet" });
      rungbookPerson.keepLimits(["sore-wrist"], [], true);
    });
    assert.match(await whose(page, hash), /^Mine: Kit: chair\. Quiet only\. Limits: sore wrist\./, hash);
    await page.evaluate(() => scrollTo(0, 700));
    await page.waitForTimeout(100);
    const box = await page.locator("[data-whose]").boundingBox();
    assert.ok(box.y >= 0 && box.y + box.height < 150, `${hash}: ${JSON.stringify(box)}`);
  }
  await page.evaluate(() => rungbookPerson.forgetMine());
  await page.close();
});

test("the person in front is named in every view, with what no button stands for", async () => {
  const page = await context.newPage();
  await page.goto(`${hall.address}floor.html`);
  // One bar of several: the button `No bar` says more than that, and is not pressed.
  await page.evaluate(() => rungbookPerson.setFront({ situations: ["pregnancy"], traits: [], lacks: ["pull-up-bar"] }));
  for (const hash of VIEWS) assert.match(await whose(page, hash), /^For this person: pregnancy, no pull-up bar\./, hash);
  await page.tap("[data-quick] [data-clear]");
  assert.ok(await page.isHidden("[data-whose]"));
  // Where the buttons name all of it, those that are pressed say it, in sight.
  await page.evaluate(() => rungbookPerson.setFront({ situations: ["sore-wrist", "pregnancy"], traits: [], lacks: [] }));
  for (const hash of VIEWS) {
    assert.equal(await whose(page, hash), "", hash);
    assert.ok(await page.isVisible("[data-quick] [aria-pressed=true]:text-is('Sore wrist')"), hash);
    assert.equal(await page.innerText(".more-quick summary"), "Pregnancy; more limits");
  }
  await page.tap("[data-quick] [data-clear]");
  await page.close();
});

test("two touches set a limit behind More: it closes, says what is set, and the rest is one touch away", async () => {
  for (const hash of ["", "#push-up"]) {
    const page = await context.newPage();
    await page.goto(`${hall.address}floor.html${hash}`);
    await page.tap(".more-quick summary");
    await page.tap("[data-quick] button:text-is('Asthma')");
    assert.equal(await page.getAttribute(".more-quick", "open"), null);
    assert.equal(await page.textContent(".more-quick summary"), "Asthma; more limits");
    assert.ok(await page.evaluate(() => document.activeElement?.matches(".more-quick > summary")), "the focus is not lost with it");
    await page.tap(".more-quick summary");
    assert.ok(await page.isVisible("[data-quick] button:text-is('Pregnancy')"));
    await page.tap("[data-quick] button:text-is('Asthma')");
    assert.equal(await page.textContent(".more-quick summary"), "More limits");
    await page.close();
  }
});

test("no limit's button is cut off, with a card open or not", async () => {
  const page = await context.newPage();
  for (const width of [320, 390, 820]) {
    await page.setViewportSize({ width, height: 844 });
    for (const hash of ["", "#push-up"]) {
      await page.goto("about:blank");
      await page.goto(`${hall.address}floor.html${hash}`);
      await page.evaluate(() => rungbookPerson.setFront({ situations: ["pregnancy", "sore-wrist"], traits: [], lacks: [] }));
      await page.evaluate(() => document.dispatchEvent(new CustomEvent("rungbook-who")));
      for (const open of [false, true]) {
        await page.evaluate((is) => document.querySelector(".more-quick").toggleAttribute("open", is), open);
        const cut = await page.$$eval("[data-quick] :is(button, summary)", (all) => all.filter((one) => one.checkVisibility())
          .filter((one) => {
            const box = one.getBoundingClientRect();
            return box.left < 0 || box.right > innerWidth || one.scrollWidth > one.clientWidth + 1;
          }).map((one) => one.textContent));
        assert.deepEqual(cut, [], `${width} ${hash}`);
        // In rows, none below the edge of the box that holds them.
        const row = await page.$eval("[data-quick]", (one) => [one.scrollWidth - one.clientWidth, one.scrollHeight - one.clientHeight]);
        assert.deepEqual(row.map((over) => over > 1), [false, false], `${width} ${hash}`);
      }
      await page.evaluate(() => rungbookPerson.setFront(null));
    }
  }
  await page.close();
});

test("the figure of what is done is 120 px high at least on a phone, changed or not, and so is a fault's", async () => {
  const page = await context.newPage();
  const figures = [["#push-up", []], ["#strap-row/row/2", []], ["#push-up", ["sore-wrist"]], ["#push-up/fault/1", []], ["#fault/hips-sag", []]];
  for (const [hash, situations] of figures) {
    await page.goto(`${hall.address}floor.html`);
    await page.evaluate((all) => rungbookPerson.setFront(all.length ? { situations: all, traits: [], lacks: [] } : null), situations);
    await page.goto("about:blank");
    await page.goto(`${hall.address}floor.html${hash}`);
    const image = page.locator(".card-figure");
    await image.waitFor();
    assert.ok((await image.boundingBox()).height >= 120, hash);
    if (hash.includes("fault")) assert.match(await image.getAttribute("src"), /figures\/faults\/[a-z-]+\.[a-z-]+\.svg$/, hash);
    assert.ok((await image.getAttribute("alt")).length > 20);
    assert.ok(await image.evaluate((one) => one.decode().then(() => one.naturalWidth > 0)));
  }
  await page.close();
});
