// What a coach is offered for the person in front, on the floor and on a session's page: a way down, a
// lowest rung, a swap, a tile. Everything that leads somewhere leads to what fits; where a change takes
// a weight or a height away, it stands in no bold words; page and command start somebody at the same rung.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { HOUSE, closeHall, openHall } from "./hall.mjs";

const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true };
let site, hall, browser;

before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** A page at `name`, with somebody in front. */
async function pageFor(name, situations, act) {
  const context = await browser.newContext(PHONE);
  const page = await context.newPage();
  await page.goto(`${hall.address}floor.html`);
  if (situations.length) await page.evaluate((situations) => rungbookPerson.setFront({ situations, traits: [], lacks: [] }), situations);
  await page.goto("about:blank");
  await page.goto(hall.address + name);
  try {
    return await act(page);
  } finally {
    await context.close();
  }
}

/** The card at an address, drawn. */
async function cardAt(page, address, name) {
  await page.evaluate((to) => { location.hash = to; }, address);
  await page.waitForFunction((name) => document.querySelector(".card h1")?.textContent === name, name);
}

test("a rung that is left out is offered neither below, nor as the lowest, nor as another setting", () => pageFor("floor.html#marching-bridge", ["pregnancy"], async (page) => {
  await page.waitForSelector(".card h1");
  const { links, text } = await page.evaluate(() => ({
    links: [...document.querySelectorAll(".card a")].map((one) => one.getAttribute("href") || ""),
    text: document.querySelector(".card").textContent,
  }));
  assert.match(text, /Leave it out: has lying on the back/);
  assert.match(text, /rung 1 of this ladder, and Bridge there is left out too/);
  assert.deepEqual(links.filter((to) => /^movements\/bridge\.html/.test(to) && !/Its whole page/.test(to)), []);
}));

test("everything that a card offers somebody passes the filter for them", async (t) => {
  const people = [["pregnancy"], ["high-blood-pressure"], ["sore-knee", "sore-shoulder"], ["pregnancy", "sore-wrist"]];
  const seen = { offered: 0, leadsNowhere: 0, lower: 0, faults: 0 };
  for (const situations of people) {
    const found = await pageFor("floor.html", situations, (page) => page.evaluate(async (situations) => {
      const who = rungbookPerson.who();
      const bad = [];
      const count = { offered: 0, leadsNowhere: 0, lower: 0, faults: 0 };
      const rungs = [...document.querySelectorAll(".rail a[data-rung]")].map((one) => `${/movements\/([a-z0-9-]+)\.html/.exec(one.getAttribute("href"))[1]}/${one.dataset.rung}`);
      const place = document.querySelector("[data-card]");
      // Each card is waited for by its own drawing.
      const drawn = (to) => new Promise((done) => {
        const look = new MutationObserver(() => {
          if (!place.querySelector("h1")) return;
          look.disconnect();
          done();
        });
        look.observe(place, { childList: true });
        location.hash = to;
      });
      const faults = new Set(rungs.map((rung) => rung.split("/")[0]));
      const all = situations.length > 1 ? [] : [...faults].flatMap((id) => [1, 2, 3, 4].map((at) => `${id}/fault/${at}`));
      for (const rung of [...rungs, ...all]) {
        await drawn(rung);
        count.leadsNowhere += place.querySelectorAll("p.way-to .misfit-why").length;
        count.lower += /Next rung down that fits/.test(place.textContent) ? 1 : 0;
        for (const link of place.querySelectorAll(".ways a, .flag a, .swap-to, .settings a:not([aria-current]), .fault-facts a")) {
          const id = /movements\/([a-z0-9-]+)\.html/.exec(link.getAttribute("href"))?.[1];
          if (!id) continue;
          // Of the target's own card, never of what this one says about it.
          const card = await rungbookBring.card(id);
          if (link.closest(".fault-facts")) count.faults += 1;
          const at = link.dataset.rung || (/#rung-(.+)-(\d+)$/.exec(link.getAttribute("href")) || []).slice(1).join("/");
          const own = card.rungs.find((one) => `${one.ladder}/${one.number}` === at);
          const asks = own ? rungbookFits.asksAt(card.needs, own) : card.needs;
          count.offered += 1;
          if (!rungbookFits.isIn(who, asks)) bad.push(`${rung}: ${id} ${at} ${link.className}`);
        }
      }
      return { bad, count };
    }, situations));
    assert.deepEqual(found.bad, [], situations.join(" "));
    for (const key of Object.keys(seen)) seen[key] += found.count[key];
  }
  t.diagnostic(JSON.stringify(seen));
  assert.ok(seen.offered > 2000 && seen.leadsNowhere > 20 && seen.lower > 3 && seen.faults > 100, JSON.stringify(seen));
});

test("what a change takes away stands in bold on no tile of a session, on its page or on the floor", async (t) => {
  let seen = 0;
  for (const situation of ["pregnancy", "high-blood-pressure"]) {
    for (const id of ["legs-and-trunk", "test-day"]) {
      const wrong = await pageFor(`sessions/${id}.html`, [situation], (page) => page.evaluate(() =>
        [...document.querySelectorAll(".three > li, .what")].filter((one) => /without a weight|with less weight/.test(one.querySelector(":scope > .change-how")?.textContent || ""))
          .map((one) => [...one.querySelectorAll(".object, .setting")].filter((part) => part.checkVisibility()).map((part) => part.textContent).join(" "))));
      seen += wrong.length;
      assert.deepEqual(wrong.filter((words) => /kg/.test(words)), [], `${situation}: ${id}`);
      const onFloor = await pageFor(`floor.html#session/${id}/1`, [situation], (page) => page.evaluate(async () => {
        const session = await rungbookBring.session(location.hash.split("/")[1]);
        const all = [];
        for (const at of session.blocks.keys()) {
          location.hash = `session/${session.id}/${at + 1}`;
          for (let wait = 0; wait < 100 && !document.querySelector(".card .over")?.textContent.includes(`block ${at + 1} of`); wait += 1) await new Promise((done) => { setTimeout(done, 20); });
          all.push(...[...document.querySelectorAll(".step-to")].filter((one) => /without a weight|with less weight/.test(one.querySelector(".change-how")?.textContent || "")).map((one) => one.querySelector(".object")?.textContent || ""));
        }
        return all;
      }));
      seen += onFloor.length;
      assert.deepEqual(onFloor.filter((words) => /kg/.test(words)), [], `${situation}: ${id} on the floor`);
    }
  }
  t.diagnostic(`${seen} tiles are done without their weight`);
  assert.ok(seen > 10, `${seen}`);
});

test("the sheet on paper says the weight that the class has, whoever is in front", () => pageFor("sessions/legs-and-trunk.html", ["pregnancy"], async (page) => {
  await page.waitForSelector(".object[data-cut]", { state: "attached" });
  const cut = "[...document.querySelectorAll('.object[data-cut]')]";
  assert.deepEqual(await page.evaluate(`${cut}.filter((one) => one.checkVisibility() && /kg/.test(one.textContent)).length`), 0);
  await page.emulateMedia({ media: "print" });
  const paper = await page.evaluate(`${cut}.map((one) => [one.checkVisibility(), getComputedStyle(one, "::before").content])`);
  assert.ok(paper.length > 0);
  for (const [there, words] of paper) assert.ok(there && / kg/.test(words), String(words));
}));

test("a tile leads to its own rung, on the movement's page and on the floor", async () => {
  await pageFor("sessions/push-and-pull.html", [], async (page) => {
    const tile = page.locator(".three a", { hasText: "Raised plank" }).first();
    assert.match(await tile.getAttribute("href"), /movements\/raised-plank\.html#rung-plank-3$/);
    await tile.tap();
    await page.waitForURL(/raised-plank\.html#rung-plank-3$/);
    const here = await page.$$eval(".rail > :target", (all) => all.filter((one) => one.checkVisibility()).map((one) => one.textContent));
    assert.equal(here.length, 1);
    assert.match(here[0], /hands 60 cm/);
    // Its own neighbours, not what the movement's first and last rung have below and above them.
    await page.waitForSelector(".standing .neighbours[data-at]");
    const [above, between, below] = await page.$$eval(".standing:has(:target) .neighbours > *", (all) => all.map((one) => one.textContent.replace(/\s+/g, " ")));
    assert.match(above, /^Rung above Raised plank, hands 30 cm/);
    assert.match(between, /^Here, rung 3 of \d+ Raised plank, hands 60 cm/);
    assert.match(below, /^Rung below Knee plank/);
  });
  await pageFor("floor.html#session/push-and-pull/1", [], async (page) => {
    await page.waitForSelector(".step-items");
    const block = await page.evaluate(async () => (await rungbookBring.session("push-and-pull")).blocks.findIndex(({ items }) => items.some(({ options }) => options.some((one) => one.movement_id === "raised-plank"))));
    await page.evaluate((to) => { location.hash = to; }, `session/push-and-pull/${block + 1}`);
    await page.tap(".step-to:has-text('Raised plank')");
    await page.waitForSelector(".card .settings");
    assert.equal(await page.textContent(".card .settings [aria-current]"), "hands 60 cm");
    assert.doesNotMatch(await page.textContent(".card .ways"), /Lowest rung/);
    // How much the block asks of it stands on the card that was opened from it.
    assert.equal(await page.textContent(".card > .dose"), "30 s");
  });
  await pageFor("floor.html#raised-plank/plank/3", [], async (page) => {
    await page.waitForSelector(".card h1");
    assert.equal(await page.locator(".card > .dose").count(), 0);
  });
});

/** What the command says of a session for a person of whom nothing else is known. */
const commandFor = (session, situation) => execFileSync(process.env.RUNGBOOK || join(HOUSE, "target/debug/rungbook"),
  ["own", session, "--avoid", situation, "--library", join(HOUSE, "content")], { encoding: "utf8" });

test("of whom nobody starts in the middle starts at one rung: page, command, card and floor", async () => {
  assert.match(commandFor("push-and-pull", "pregnancy"), /Raised plank, hands 90 cm/);
  assert.doesNotMatch(commandFor("push-and-pull", "pregnancy"), /Raised plank, hands 60 cm/);
  await pageFor("sessions/push-and-pull.html", ["pregnancy"], async (page) => {
    await page.waitForSelector(".own");
    const own = await page.$$eval(".own-name", (all) => all.map((one) => one.textContent));
    assert.ok(own.includes("Raised plank, hands 90 cm"), own.join("; "));
    assert.ok(!own.includes("Raised plank, hands 60 cm"));
    // Which tile is theirs is marked: the lowest rung of its ladder.
    const marked = await page.$$eval(".three > li:has(.this-one) > a", (all) => all.map((one) => one.getAttribute("href")));
    assert.ok(marked.length > 1);
    assert.deepEqual(marked.filter((to) => !/#rung-[a-z-]+-1$/.test(to)), []);
  });
  await pageFor("floor.html#raised-plank/plank/3", ["pregnancy"], async (page) => {
    await page.waitForSelector(".card .flag.change a");
    assert.match(await page.textContent(".card"), /start at rung 1 of this ladder, Raised plank, hands 90 cm/);
  });
  await pageFor("floor.html#session/push-and-pull/4", ["pregnancy"], async (page) => {
    await page.waitForSelector(".step-to");
    assert.match(await page.textContent(".step-to:has-text('Raised plank')"), /No result yet: start at Raised plank, hands 90 cm/);
    assert.equal(await page.locator(".step-to .start").count(), 1);
  });
  await pageFor("floor.html#session/push-and-pull/2", ["pregnancy"], async (page) => {
    await page.waitForSelector(".step-to");
    const starts = await page.$$eval(".three", (all) => all.map((one) => [...one.children].map((tile) => /start here/.test(tile.textContent))));
    assert.deepEqual(starts, [[true, false, false], [true, false, false]]);
  });
});

test("the member's own tile says that it is theirs, in sight, and no other tile of its line does", () => pageFor("sessions/push-and-pull.html", [], async (page) => {
  await page.evaluate(() => rungbookPerson.keepLimits([], [], true));
  await page.reload();
  if (!await page.locator(".own").count()) await page.tap("[data-your-version] button");
  await page.waitForSelector(".own");
  const rows = await page.$$eval("[data-item]:has(.three)", (all) => all.map((row) => ({
    own: row.querySelector(".own-name")?.getAttribute("href"),
    tiles: [...row.querySelectorAll(".three > li a")].map((tile) => tile.getAttribute("href")),
    seen: [...row.querySelectorAll(".three > li")].filter((tile) => tile.checkVisibility()).length,
    marked: [...row.querySelectorAll(".three > li:has(.this-one)")].map((tile) => [tile.querySelector("a").getAttribute("href"), tile.querySelector(".this-one").textContent, tile.querySelector(".this-one").checkVisibility()]),
  })));
  // A line below the own rung may ask one that stands in no tile: then none is marked, and none in sight.
  const isOwn = (own) => (to) => (own.includes("#") ? to === own : to.split("#")[0] === own);
  assert.ok(rows.filter(({ own, tiles }) => tiles.some(isOwn(own))).length > 4);
  for (const { own, tiles, seen, marked } of rows) {
    assert.equal(seen, tiles.some(isOwn(own)) ? 1 : 0, own);
    if (seen === 0) {
      assert.deepEqual(marked, [], own);
      continue;
    }
    assert.deepEqual(marked.map(([to, words, seen]) => [to.split("#")[0], words, seen]), [[own.split("#")[0], "You do this one", true]], own);
    // One form of address: where both name a rung, it is letter for letter the same.
    if (own.includes("#")) assert.equal(marked[0][0], own);
  }
  // A tile speaks of the movement as it is written: under a change it is out of sight.
  await page.evaluate(() => rungbookPerson.keepLimits(["sore-wrist"], [], true));
  await page.reload();
  await page.waitForSelector(".own.changed");
  assert.equal(await page.locator("[data-item]:has(> .own.changed) .three:visible").count(), 0);
  assert.ok(await page.locator("[data-item]:has(> .own.fine) .this-one:visible").count() > 0);
}));

test("where the first tile is left out nothing says to start there", () => pageFor("floor.html#session/legs-and-trunk/5", ["pregnancy"], async (page) => {
  await page.waitForSelector(".step-to");
  const bridge = await page.textContent(".step-to:has(.name:text-is('Bridge'))");
  assert.match(bridge, /Not now|Pregnancy|pregnancy/i);
  assert.doesNotMatch(bridge, /start/);
}));

test("a tile says what goes on the thing", () => pageFor("sessions/push-and-pull.html", [], async (page) => {
  const objects = await page.$$eval(".object", (all) => all.map((one) => one.textContent));
  for (const words of ["hands on box 45 cm", "feet on box 60 cm", "hands on box 60 cm", "wall 10 deg"]) assert.ok(objects.includes(words), words);
  assert.deepEqual(objects.filter((words) => /^box/.test(words)), []);
}));

test("a card says of a movement without a ladder nothing that sends the coach away from it", () => pageFor("floor.html#one-arm-row", [], async (page) => {
  await page.waitForSelector(".card h1");
  const { rungs } = await page.evaluate(() => rungbookBring.card("one-arm-row"));
  assert.deepEqual(rungs, []);
  assert.doesNotMatch(await page.textContent(".card"), /ladder:|take a swap/i);
}));

test("no hold is told of an effort or of repetitions", () => pageFor("floor.html", [], async (page) => {
  const { seen, wrong } = await page.evaluate(async () => {
    const ids = new Set([...document.querySelectorAll(".rail a")].map((one) => /movements\/([a-z0-9-]+)/.exec(one.getAttribute("href"))[1]));
    const all = await Promise.all([...ids].map((id) => rungbookBring.card(id)));
    const holds = all.filter(({ work }) => work.counts === "seconds");
    const said = holds.flatMap(({ id, needs }) => needs.changes.split(" ").filter(Boolean).map((one) => {
      const change = rungbookWords.changes[one.split(";")[0]];
      return `${id}: ${change.name}: ${needs.how?.[change.id] || change.how}`;
    }));
    return { seen: said.filter((words) => /keep breathing/.test(words)).length, wrong: said.filter((words) => /effort|repetition/.test(words)) };
  });
  assert.ok(seen > 5, `${seen} holds are done breathing`);
  assert.deepEqual(wrong, []);
}));
