// The board from disk, without a network: what changes in class is answered by the file alone, nobody
// else changes, it prints on one A4, and what others see says no reason.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { changed, dealtIn, doingOn, pressOn, who } from "./board-room.mjs";
import { HOUSE, openBrowser, ownFolder } from "./hall.mjs";

const folder = ownFolder();
let browser, page, asked, faults;

const dealt = (name, ...more) => dealtIn(folder, name, ...more);

async function open(file) {
  const context = await browser.newContext({ viewport: { width: 1180, height: 820 }, offline: true });
  page = await context.newPage();
  asked = [];
  faults = [];
  page.on("request", (one) => asked.push(one.url()));
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("console", (said) => said.type() === "error" && faults.push(said.text()));
  await page.goto(pathToFileURL(file).href);
}

before(async () => {
  browser = await openBrowser();
});
after(() => browser.close());

const doing = () => doingOn(page);
const press = (name, words) => pressOn(page, name, words);

test("everybody has something for every line, and nothing is asked of anybody", async () => {
  await open(dealt("board.html"));
  const now = await doing();
  const lines = await page.$$eval(".doing", (all) => all.length);
  assert.equal(Object.keys(now).length, 14 * lines);
  assert.deepEqual(asked.length, 1, asked.join("\n"));
  assert.deepEqual(faults, []);
});

test("a sore shoulder changes one person, in two touches, and nobody reads why", async () => {
  await open(dealt("coach.html", "--why"));
  const was = await doing();
  await press("goldcrest", "Painful shoulder");
  const keys = changed(was, await doing());
  assert.ok(keys.length > 0);
  assert.deepEqual(who(keys), ["goldcrest"]);
  const said = await page.textContent("#said");
  assert.match(said, /goldcrest/);
  assert.match(said, /table made before class/);
  assert.doesNotMatch(said, /shoulder/i);
  await page.click("#undo");
  assert.deepEqual(await doing(), was);
  assert.deepEqual(faults, []);
});

test("on the wall whom something hurts asks the coach, whatever it is and whoever they are", async () => {
  await open(dealt("board.html"));
  const was = await doing();
  const menus = new Set();
  for (const name of ["goldcrest", "linnet", "wren", "lapwing"]) {
    await page.click(`#strip button:has-text("${name}")`);
    menus.add((await page.$$eval("#choices button", (all) => all.map((one) => one.textContent).join("|"))).replaceAll(name, ""));
    await page.click(`#strip button:has-text("${name}")`);
  }
  assert.deepEqual([...menus], ["Something hurts| has gone"]);
  await press("wren", "Something hurts");
  const now = await doing();
  assert.deepEqual(who(changed(was, now)), ["wren"]);
  for (const [key, words] of Object.entries(now)) if (key.startsWith("wren ")) assert.equal(words, "Ask your coach: ");
  await page.click("#undo");
  assert.deepEqual(await doing(), was);
  assert.deepEqual(faults, []);
});

test("who has two situations does only what is left with both", async () => {
  await open(dealt("coach.html", "--why"));
  const names = await page.evaluate(() => JSON.parse(document.getElementById("table").textContent).situations.map(([name]) => name));
  let lines = 0;
  for (const first of names) {
    for (const second of names.filter((name) => name !== first)) {
      await page.evaluate(() => sessionStorage.clear());
      await page.reload();
      await press("goldcrest", first);
      await press("goldcrest", second);
      const wrong = await page.evaluate(([first, second]) => {
        const table = JSON.parse(document.getElementById("table").textContent);
        const left = (name, place) => table.situations.find(([one]) => one === name)[1][place] || table.sets[place].offers;
        const who = table.people.findIndex(([name]) => name === "goldcrest");
        return table.sets.flatMap((set, place) => {
          const li = set.who === who && document.querySelector(`[data-line="${set.block}-${set.line}"] [data-who="${who}"]`);
          if (!li) return [];
          const card = li.closest(".card");
          const words = [card.querySelector(".what"), card.querySelector(".cue"), li.closest(".much").querySelector(".dose")];
          const text = words.map((one) => one?.textContent || "").join("|");
          const is = (name) => left(name, place).some(([at]) => at !== null && table.texts[at].join("|") === text);
          return [text.startsWith("Ask your coach") || (is(first) && is(second)) ? "" : `${first}, ${second}: ${text}`];
        });
      }, [first, second]);
      lines += wrong.length;
      assert.deepEqual(wrong.filter(Boolean), []);
    }
  }
  assert.ok(lines > 300, `${lines} lines`);
  assert.deepEqual(faults, []);
});

/** Kit in use at each moment, as the table of the file has it and as the page shows it. */
const overused = (broken) =>
  page.evaluate((broken) => {
    const table = JSON.parse(document.getElementById("table").textContent);
    const use = new Map();
    for (const set of table.sets) {
      const list = document.querySelector(`[data-line="${set.block}-${set.line}"]`);
      const li = list.querySelector(`[data-who="${set.who}"]`);
      if (!li) continue;
      const card = li.closest(".card");
      const words = [card.querySelector(".what"), card.querySelector(".cue"), li.closest(".much").querySelector(".dose")];
      const text = words.map((one) => one?.textContent || "").join("|");
      // Of several offers in the same words the one that uses least is in doubt for the person.
      const offers = set.offers.filter(([at]) => at !== null && table.texts[at].join("|") === text);
      if (offers.length !== 1) continue;
      for (const [resource, n] of offers[0][2]) {
        const held = table.moments[resource][1];
        const of = use.get(resource) || new Map();
        of.set(set.who, held ? Math.max(of.get(set.who) || 0, n) : (of.get(set.who) || 0) + n);
        use.set(resource, of);
      }
    }
    const over = [];
    for (const [resource, of] of use) {
      const [name, count] = table.kit[table.moments[resource][0]];
      const sum = [...of.values()].reduce((a, b) => a + b, 0);
      if (sum > count - (broken[name] || 0)) over.push(`${name}: ${sum}`);
    }
    return over;
  }, broken);

test("what was touched stands after the page is read again, and can still be taken back", async () => {
  const file = dealt("coach.html", "--why");
  await open(file);
  const was = await doing();
  await press("siskin", "has gone");
  const between = await doing();
  await press("goldcrest", "Painful shoulder");
  await press("Something broke", "straps:");
  const now = await doing();
  await page.reload();
  assert.deepEqual(await doing(), now);
  assert.match(await page.textContent("#said"), /read again: 3 touches before it still count/);
  assert.match(await page.textContent("#hall"), /3 × straps/);
  await page.click("#undo");
  await page.click("#undo");
  assert.deepEqual(await doing(), between);
  await page.reload();
  assert.deepEqual(await doing(), between);
  await page.click("#undo");
  assert.deepEqual(await doing(), was);
  await page.reload();
  assert.deepEqual(await doing(), was);
  assert.equal(await page.textContent("#said"), "");
  assert.deepEqual(faults, []);
});

test("a person's own strip says what the cards say, also once the coach is asked", async () => {
  await open(dealt("board.html"));
  const strip = async () => {
    await page.click('#strip button:has-text("wren")');
    const words = await page.textContent("#choices .own");
    await page.click('#strip button:has-text("wren")');
    return words;
  };
  const said = async () => {
    const all = Object.entries(await doing()).filter(([key]) => key.startsWith("wren "));
    return all.map(([, words]) => words.split(": ")[0]);
  };
  const words = await strip();
  for (const what of await said()) assert.ok(words.includes(what), `${what} in ${words}`);
  await press("wren", "Something hurts");
  const asks = await strip();
  assert.equal(asks.split("Ask your coach").length - 1, (await said()).length);
  for (const what of new Set(["Strap row", "Step jack"])) assert.ok(!asks.includes(what), asks);
  assert.deepEqual(faults, []);
});

test("touches of another board of the same name say nothing here", async () => {
  const file = dealt("board.html");
  await open(file);
  await press("siskin", "has gone");
  execFileSync("cp", [dealt("away.html", "--away", "siskin"), file]);
  const kept = await page.evaluate(() => Object.keys(sessionStorage).filter((key) => key.startsWith("rungbook-board ")).length);
  assert.equal(kept, 1);
  await page.reload();
  assert.equal(await page.textContent("#said"), "");
  assert.deepEqual(faults, []);
});

test("who does not use the usual thing reads which one it is", async () => {
  await open(dealt("board.html"));
  const other = await page.evaluate(() => {
    const table = JSON.parse(document.getElementById("table").textContent);
    return table.texts.filter(([, , dose]) => dose.includes("with rings")).length;
  });
  assert.ok(other > 0, "no offer says its rings");
  const wrong = await page.$$eval(".card", (all) => all.map((one) => one.textContent).filter((text) => /with straps/.test(text)));
  assert.deepEqual(wrong, []);
});

test("on a tablet whoever in the hall is on stands in sight once the clock runs", async () => {
  for (const [width, height] of [[1280, 800], [820, 1180]]) {
    await open(dealt("board.html"));
    await page.setViewportSize({ width, height });
    await page.click('#clock button:has-text("Start the clock")');
    for (let block = 0; block < 3; block += 1) {
      if (block) await page.click('#clock button:has-text("Skip block")');
      // Past the change between two blocks, and past getting ready.
      for (let press = 0; block && press < 3 && !(await page.$(".block.on .who li.now")); press += 1) {
        await page.click('#clock button:has-text("Next")');
        await page.waitForTimeout(300);
      }
      // The block comes into sight as the clock draws next.
      await page.waitForFunction(() => document.querySelector(".block.on .who li.now"));
      await page.waitForTimeout(600);
      const seen = await page.evaluate(() => {
        const homes = JSON.parse(document.getElementById("table").textContent).people.map(([, home]) => home);
        const top = document.getElementById("top").getBoundingClientRect().bottom;
        const on = [...document.querySelectorAll(".who li.now")].filter((li) => !homes[Number(li.dataset.who)]);
        const inSight = (li) => li.getBoundingClientRect().top >= top && li.getBoundingClientRect().bottom <= innerHeight;
        return { on: on.length, inSight: on.filter(inSight).length, top };
      });
      assert.ok(seen.on > 0, `${width}: nobody is on in block ${block + 1}`);
      assert.ok(seen.inSight >= seen.on * 0.7, `${width}, block ${block + 1}: ${JSON.stringify(seen)}`);
      assert.ok(seen.top < height * 0.3, JSON.stringify(seen));
    }
  }
});

test("a thing that breaks changes only those who must, and is used no more", async () => {
  await open(dealt("board.html"));
  const was = await doing();
  assert.deepEqual(await overused({}), []);
  await press("Something broke", "straps:");
  await press("Something broke", "straps:");
  await press("Something broke", "straps:");
  const keys = changed(was, await doing());
  assert.ok(keys.length > 0, "three pairs of straps less and nobody changes");
  // Only those who rowed in straps, in lines that use them.
  for (const key of keys) if (was[key] && key in was) assert.match(was[key], /Strap row|Suspended/, `${key}: ${was[key]}`);
  assert.deepEqual(await overused({ straps: 3 }), []);
  assert.deepEqual(faults, []);
});

test("who has gone is gone, and who was away comes with what is free", async () => {
  await open(dealt("away.html", "--away", "siskin"));
  const was = await doing();
  assert.ok(!who(Object.keys(was)).includes("siskin"));
  const groups = () => page.$$eval(".groups li", (all) => all.map((li) => `${li.closest("ul").dataset.block} ${li.textContent}`));
  const before = await groups();
  assert.ok(before.length >= 2 && !before.some((one) => one.includes("siskin")), before.join("\n"));
  await press("siskin", "is here");
  const now = await doing();
  // Named in one group of every block that has groups: the one that was smaller.
  const after = await groups();
  const its = after.filter((one) => one.includes("siskin"));
  assert.equal(its.length, new Set(before.map((one) => one.split(" ")[0])).size);
  for (const one of its) {
    const size = (text) => text.split(", ").length;
    const others = before.filter((other) => other.split(" ")[0] === one.split(" ")[0]).map(size);
    assert.equal(size(one) - 1, Math.min(...others), one);
  }
  assert.deepEqual(who(changed(was, now)), ["siskin"]);
  const lines = await page.$$eval(".doing", (all) => all.length);
  assert.equal(changed(was, now).length, lines);
  assert.deepEqual(await overused({}), []);
  await press("dunnock", "has gone");
  assert.deepEqual(who(changed(now, await doing())), ["dunnock"]);
  assert.ok(!(await groups()).some((one) => one.includes("dunnock")));
  assert.deepEqual(faults, []);
});

test("a broken thing is counted down in what is to be fetched and in what can break", async () => {
  await open(dealt("board.html"));
  assert.match(await page.textContent("#hall"), /4 × straps/);
  await press("Something broke", "straps: 3 left of 4");
  assert.match(await page.textContent("#hall"), /3 × straps/);
  await page.click("#things");
  assert.equal(await page.locator('#choices button:has-text("straps: 2 left of 3")').count(), 1);
  assert.deepEqual(faults, []);
});

test("on a phone an opened strip leaves room, and the answer is in sight wherever the page stands", async () => {
  await open(dealt("coach.html", "--why"));
  await page.setViewportSize({ width: 390, height: 844 });
  const height = () => page.$eval("#strip", (strip) => strip.getBoundingClientRect().height);
  assert.ok((await height()) < 844 / 6, `closed: ${await height()} px`);
  await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight / 2));
  await page.click('#strip button:has-text("goldcrest")');
  assert.ok((await height()) < (844 * 6) / 10 + 2, `open: ${await height()} px`);
  await page.click('#choices button:has-text("Painful shoulder")');
  const said = await page.$eval("#said", (said) => said.getBoundingClientRect().toJSON());
  assert.ok(said.height > 0 && said.top >= 0 && said.bottom <= 844, JSON.stringify(said));
  assert.ok((await height()) < 844 / 3, `answered: ${await height()} px`);
  assert.deepEqual(faults, []);
});

test("it prints on one A4, with everybody on it", async () => {
  await open(dealt("board.html"));
  const file = join(folder, "board.pdf");
  writeFileSync(file, await page.pdf({ preferCSSPageSize: true }));
  const info = execFileSync("pdfinfo", [file], { encoding: "utf8" });
  assert.match(info, /Pages:\s+1\b/);
  const words = execFileSync("pdftotext", ["-raw", file, "-"], { encoding: "utf8" });
  for (const name of ["dunnock", "wren", "teal", "Cool-down", "Stop and get help", "Monday 30 November 2026", "40 s work, 20 s rest", "everyone else", "whoever is not named asks the coach", "Row: 4 x 6-10"]) assert.match(words, new RegExp(name));
});

test("on paper what most ways of a line ask stands once, and nobody's own is lost", async () => {
  await open(dealt("board.html"));
  const was = await doing();
  await page.emulateMedia({ media: "print" });
  const seen = await page.$$eval(".doing .much", (all) =>
    all.filter((much) => much.querySelector("li")).map((much) => {
      const dose = much.querySelector(".dose");
      const heading = much.closest(".line").querySelector("h3").dataset.dose;
      const others = [...much.parentElement.querySelectorAll(".much")].filter((one) => one.querySelector("li"));
      return { dose: dose.textContent, heading, ways: others.length, isShown: parseFloat(getComputedStyle(dose).fontSize) > 0 };
    }),
  );
  for (const one of seen) assert.ok(one.isShown || (one.dose === one.heading && one.ways === 1), JSON.stringify(one));
  assert.ok(seen.filter((one) => !one.isShown).length > 30);
  // A touch that changes how much somebody does is on the paper too.
  await page.emulateMedia({ media: "screen" });
  await press("wren", "Something hurts");
  assert.notDeepEqual(await doing(), was);
  const asks = await page.$$eval(".doing .usual", (all) => all.filter((much) => /wren/.test(much.textContent)).length);
  assert.equal(asks, 0);
});

test("only the coach's copy says why, and it says so", async () => {
  const wall = dealt("board.html");
  const coach = dealt("coach.html", "--why");
  const seen = async (file) => {
    await open(file);
    return page.evaluate(() => document.body.innerText);
  };
  const reason = /which they leave out|Sore wrist|Their rung is/;
  assert.doesNotMatch(await seen(wall), reason);
  assert.match(await seen(coach), reason);
  assert.match(await seen(coach), /For your eyes alone/i);
  assert.doesNotMatch(await seen(coach), /As the session asks\./);
  // What the table holds is for changes; no reason is in it either.
  assert.doesNotMatch(readFileSync(wall, "utf8"), /which they leave out|Their rung is/);
});
