// Every way into the site: with and without a signal, from disk, below a path, without scripts.
// Never needs another host: any request that leaves the site fails the test.
import assert from "node:assert/strict";
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { build, closeHall, filesBelow, HOUSE, kindsOf, openHall, ownFolder, pagesOf, serve } from "./hall.mjs";

let site, browser, hall;

before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** Opens pages and collects what the browser complains of and what it asks from elsewhere. */
async function watched(context, home) {
  const page = await context.newPage();
  const troubles = [];
  page.on("console", (line) => {
    if (["error", "warning"].includes(line.type())) troubles.push(`${page.url()}: ${line.text()}`);
  });
  page.on("pageerror", (error) => troubles.push(`${page.url()}: ${error.message}`));
  page.on("requestfailed", (request) => {
    // A page that is left takes its unanswered requests along; that is no failure of the site. A
    // file that is not there answers 404, which the console reports.
    const why = request.failure()?.errorText;
    if (why !== "net::ERR_ABORTED") troubles.push(`failed: ${request.url()}: ${why}`);
  });
  page.on("request", (request) => {
    const url = request.url();
    if (!url.startsWith(home) && !url.startsWith("blob:") && !url.startsWith("data:")) {
      troubles.push(`asked elsewhere: ${url}`);
    }
  });
  return { page, troubles };
}

/** The page of a missing address has links from the root of the club's own host. */
const kinds = () => kindsOf(site).filter((name) => name !== "404.html");

test("under a sub-path every kind of page opens without a complaint", async () => {
  const context = await browser.newContext();
  const { page, troubles } = await watched(context, hall.address);
  for (const name of kinds()) {
    const response = await page.goto(hall.address + name);
    assert.ok(response.ok(), name);
    const styled = await page.evaluate(() => getComputedStyle(document.querySelector(".top")).backgroundColor);
    assert.notEqual(styled, "rgba(0, 0, 0, 0)", `${name} has its style`);
    assert.ok(await page.isVisible("[data-person]"), `${name} runs its scripts`);
  }
  assert.deepEqual(troubles, []);
  await context.close();
});

test("an address that does not exist leads home", async () => {
  const root = await serve(site, "/");
  const context = await browser.newContext();
  const page = await context.newPage();
  const response = await page.goto(root.address + "movements/no/such/page.html");
  assert.equal(response.status(), 404);
  assert.equal(await page.textContent("h1"), "Not here");
  await page.click("main >> text=Front page");
  assert.equal(page.url(), root.address + "index.html");
  await context.close();
  await root.stop();
});

test("the watch sees a script that the policy forbids", async () => {
  const context = await browser.newContext();
  const { page, troubles } = await watched(context, hall.address);
  await page.goto(hall.address);
  await page.evaluate(() => document.body.append(Object.assign(document.createElement("script"), { textContent: "1" })));
  assert.match(troubles.join("\n"), /Content Security Policy/i);
  await context.close();
});

test("opened straight from disk, styles, scripts and picker work", async () => {
  const context = await browser.newContext();
  const folder = pathToFileURL(site).href + "/";
  const { page, troubles } = await watched(context, folder);
  for (const name of kinds()) {
    await page.goto(folder + name);
    assert.ok(await page.isVisible("[data-person]"), `${name} runs its scripts`);
  }
  await page.goto(folder + "kit-and-limits.html");
  await page.check('input[name="trait"][value="impact"]');
  await page.click("nav >> text=Movements");
  // The page that comes has its scripts, and they know who is here.
  await page.waitForURL(/movements\/index\.html$/);
  await page.waitForFunction(() => /no jumping/i.test(document.querySelector("[data-person]")?.textContent || ""));
  const left = await page.$$eval("[data-filtered] > li", (items) =>
    items.filter((item) => !item.hidden && item.dataset.traits.includes("impact") && !item.querySelector(".change-how")).length);
  assert.equal(left, 0);
  await page.goto(folder + "floor.html");
  await page.click(".floor-ladder:has(.rail) summary >> nth=0");
  await page.click(".floor-ladder[open] .rail a >> nth=0");
  await page.waitForSelector("[data-card] h1");
  assert.deepEqual(troubles, []);
  await context.close();
});

test("after the first visit everything opens without a signal", async () => {
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(hall.address);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await page.reload();
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await context.setOffline(true);
  hall.requests.length = 0;
  for (const name of kinds()) {
    const response = await page.goto(hall.address + name);
    assert.ok(response.ok() && response.fromServiceWorker(), name);
    assert.ok(await page.isVisible("h1"), name);
  }
  await page.goto(hall.address);
  assert.ok(await page.isVisible("h1"), "the folder's own address");
  await page.goto(hall.address + "floor.html#pull-up");
  await page.waitForSelector("[data-card] h1");
  // The browser's own look for a newer worker goes past what a page is told of the network.
  const asked = hall.requests.filter((one) => !one.endsWith("/offline-worker.js"));
  assert.deepEqual(asked, [], "nothing was asked from the server");
  await context.close();
});

test("without a first visit there is nothing, so the test above can fail", async () => {
  const context = await browser.newContext({ offline: true });
  const page = await context.newPage();
  await assert.rejects(page.goto(hall.address));
  await context.close();
});

test("what is published later replaces what was kept", async () => {
  const library = join(ownFolder(), "content");
  cpSync(join(HOUSE, "content"), library, { recursive: true });
  const own = join(ownFolder(), "site");
  build(library, own);
  const second = await serve(own);
  const context = await browser.newContext();
  const page = await context.newPage();
  const settled = () => page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await page.goto(second.address);
  await settled();
  await page.reload();
  assert.equal(await page.textContent("h1"), "Thornmere Hall");
  assert.equal(await page.locator("[data-newer]").count(), 0, "nothing newer than what is open");

  const club = join(library, "club.yaml");
  writeFileSync(club, readFileSync(club, "utf8").replace("name: Thornmere Hall", "name: Thornmere Barn"));
  build(library, own);
  // Looked at again, as a tab that comes back to the front does: the page says that it is an older one.
  await page.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));
  await page.waitForSelector("[data-newer]");
  assert.equal(await page.textContent("h1"), "Thornmere Hall", "nothing moves under the thumb");
  await page.click("[data-newer] button");
  await page.waitForFunction(() => document.querySelector("h1")?.textContent === "Thornmere Barn");
  assert.equal(await page.locator("[data-newer]").count(), 0);
  const caches = await page.evaluate(() => window.caches.keys());
  assert.equal(caches.length, 1, "the old copy is gone");
  await context.close();
  await second.stop();
});

test("the worker keeps every page", () => {
  const { always, more } = JSON.parse(readFileSync(join(site, "offline-files.json"), "utf8"));
  assert.deepEqual(filesBelow(site).filter((name) => !always[name] && !/^offline-|^\.|^sitemap/.test(name)), []);
  assert.deepEqual(more, {}, "a library of this size is kept whole");
});

test("without scripts every page reads whole, and what needs scripts says so", async () => {
  const context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  for (const name of kinds()) {
    await page.goto(hall.address + name);
    const hidden = await page.locator("main [data-filtered] > li[hidden], main section[hidden]:not([data-card])").count();
    assert.equal(hidden, 0, `${name} hides nothing`);
    assert.ok((await page.innerText("main")).length > 40, name);
    assert.equal(await page.isVisible("[data-search]"), false, "no box that cannot search");
    assert.equal(await page.isVisible("[data-person]"), false);
  }
  await page.goto(hall.address + "kit-and-limits.html");
  assert.equal(await page.isVisible("form"), false);
  assert.match(await page.innerText("main"), /needs scripts/);
  await page.goto(hall.address + "movements/pull-up.html");
  assert.ok(await page.locator("[data-swaps] li").count() >= 3, "all swaps stand there");
  await page.goto(hall.address + "floor.html");
  assert.equal(await page.isVisible("[data-quick]"), false, "no quick limits that do nothing");
  await page.click(".floor-ladder:has(.rail) summary >> nth=0");
  await page.click(".floor-ladder[open] .rail a >> nth=0");
  assert.match(page.url(), /movements\/[a-z-]+\.html$/, "a rung leads to its page");
  await context.close();
});
