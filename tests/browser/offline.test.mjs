// The copy on the device: a newer site is fetched beside it by what changed alone, shown when it is whole and
// no clock runs, and one file that a host refuses does not hold it up. Of a large site the lists and cards come
// unasked and the rest by one touch. Every site here is changed on disk, as a host is.
import assert from "node:assert/strict";
import { readFileSync, renameSync, writeFileSync } from "node:fs";
import { createHash } from "node:crypto";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { endByHold } from "./clocks.mjs";
import { builtSite, openBrowser, serve, SUB_PATH } from "./hall.mjs";

let browser;
before(async () => {
  browser = await openBrowser();
});
after(() => browser?.close());

/** Changes files of a site and says so in its list and worker, as a build does. */
function publish(site, change) {
  const list = JSON.parse(readFileSync(join(site, "offline-files.json"), "utf8"));
  const was = list.version;
  const put = (name, text) => {
    writeFileSync(join(site, name), text);
    const print = createHash("sha256").update(text).digest("hex").slice(0, 16);
    (list.more[name] ? list.more : list.always)[name] = print;
    list.version = createHash("sha256").update(list.version + name + print).digest("hex").slice(0, 16);
  };
  change(put, (name) => readFileSync(join(site, name), "utf8"), list);
  if (list.version === was) list.version = createHash("sha256").update(JSON.stringify(list)).digest("hex").slice(0, 16);
  const worker = readFileSync(join(site, "offline-worker.js"), "utf8").replace(was, list.version);
  writeFileSync(join(site, "offline-files.json"), JSON.stringify(list));
  writeFileSync(join(site, "offline-worker.js"), worker);
}

/** A device that has kept the site once; it goes with its test. */
async function kept(t, site, open = "index.html") {
  const hall = await serve(site);
  const context = await browser.newContext();
  // However slow the machine is: what is waited for either comes or never does.
  context.setDefaultTimeout(180_000);
  t.after(async () => {
    await context.close();
    await hall.stop();
  });
  const page = await context.newPage();
  await page.goto(hall.address + open);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  return { hall, context, page };
}

/** Asks for a newer site, as a page that comes to the front does. */
const look = (page) => page.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));
/** What is kept, in the worker's words. */
const told = (page, asked = "told") => page.evaluate((what) => new Promise((tell) => {
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = ({ data }) => tell(data);
  navigator.serviceWorker.controller.postMessage(what, [port2]);
}), asked);
/** Until the worker has asked for its newest list a second time, which it does when it has everything. */
const isWhole = (hall, times) => async () => hall.requests.filter((one) => one.includes("offline-files.json")).length >= times;
async function until(holds) {
  for (let tries = 0; !(await holds()); tries += 1) {
    assert.ok(tries < 3000, "it did not come");
    await new Promise((go) => setTimeout(go, 50));
  }
}
const asked = (hall) => hall.requests.map((one) => one.slice(SUB_PATH.length)).filter((one) => !/^offline-|^favicon/.test(one));

test("of a newer site only what changed is fetched, and what is shown then is all of it", async (t) => {
  const site = builtSite();
  const { hall, context, page } = await kept(t, site);
  hall.requests.length = 0;
  publish(site, (put, text) => {
    put("index.html", text("index.html").replace("<h1>", "<h1>New "));
    put("cards/pull-up.js", `${text("cards/pull-up.js")}// newer\n`);
  });
  await look(page);
  await page.waitForSelector("[data-newer]");
  assert.deepEqual(asked(hall).sort(), ["cards/pull-up.js", "index.html"]);
  await context.setOffline(true);
  await page.reload();
  assert.match(await page.textContent("h1"), /^New /);
  assert.match(await page.evaluate(() => fetch("cards/pull-up.js").then((one) => one.text())), /newer/);
  const keys = await page.evaluate(async () => (await (await caches.open((await caches.keys())[0])).keys()).map(({ url }) => url));
  assert.equal(keys.filter((url) => url.includes("/cards/pull-up.js?")).length, 1, "the older one is gone");
});

test("while a clock runs nothing changes over, in no tab; when it has ended, all at once", async (t) => {
  const site = builtSite();
  const { hall, context, page } = await kept(t, site, "sessions/push-and-pull.html");
  await page.evaluate(() => rungbookPerson.keepLimits([], [], true));
  await page.reload();
  await page.click(".clock-start");
  await page.waitForSelector("dialog.clock[open]");
  publish(site, (put, text) => put("index.html", text("index.html").replace("<h1>", "<h1>New ")));
  hall.requests.length = 0;
  await look(page);
  await until(isWhole(hall, 2));
  const other = await context.newPage();
  for (const times of [1, 2]) {
    await other.goto(hall.address);
    assert.doesNotMatch(await other.textContent("h1"), /New/, `${times}`);
    await look(other);
    await told(other);
  }
  assert.equal(await other.locator("[data-newer]").count(), 0);
  await page.bringToFront();
  await endByHold(page);
  await page.click('dialog.over form button[type="submit"]');
  await other.waitForSelector("[data-newer]");
  await page.waitForSelector("[data-newer]", { state: "attached" });
  await other.reload();
  assert.match(await other.textContent("h1"), /^New /);
});

test("a file that the host refuses holds nothing up, and comes when it is there again", async (t) => {
  const site = builtSite();
  const [picture, away] = [join(site, "figures/movements/pull-up.svg"), join(site, "figures/away")];
  renameSync(picture, away);
  const { context, page } = await kept(t, site);
  assert.equal((await told(page)).lacking, 1);
  renameSync(away, picture);
  assert.equal((await told(page, "look")).lacking, 0);
  await context.setOffline(true);
  assert.ok(await page.evaluate(() => fetch("figures/movements/pull-up.svg").then((one) => one.ok)));
});

test("a site without its shell, or one that changes while it is fetched, leaves the older one whole", async (t) => {
  const site = builtSite();
  const { hall, context, page } = await kept(t, site);
  hall.requests.length = 0;
  publish(site, (put, text) => {
    put("index.html", text("index.html").replace("<h1>", "<h1>New "));
    put("scripts/fits.js", `${text("scripts/fits.js")}// newer\n`);
  });
  renameSync(join(site, "scripts/fits.js"), join(site, "scripts/away"));
  const failed = (file) => async () => hall.requests.some((one) => one.includes(file));
  await look(page);
  await until(failed("scripts/fits.js"));
  await told(page);
  await context.setOffline(true);
  await page.reload();
  assert.doesNotMatch(await page.textContent("h1"), /New/);
  await context.setOffline(false);
  renameSync(join(site, "scripts/away"), join(site, "scripts/fits.js"));
  await page.reload();
  await look(page);
  await page.waitForSelector("[data-newer]");
});

test("of a large site lists and cards are kept, the rest by one touch, and a page that is not says so", async (t) => {
  const site = builtSite();
  publish(site, (put, text, list) => {
    for (const name of Object.keys(list.always)) {
      if (!/^(movements|ladders)\/(?!index)|^(figures|motion)\//.test(name)) continue;
      list.more[name] = list.always[name];
      delete list.always[name];
    }
    list.bytes = { always: 7_000_000, more: 41_000_000 };
  });
  const { context, page } = await kept(t, site, "kit-and-limits.html");
  await page.waitForSelector("[data-kept-site] button:visible");
  assert.match(await page.textContent("[data-kept-words]"), /^Lists, cards and sessions are kept on this device, 7 MB/);
  assert.equal(await page.textContent("[data-kept-site] button"), "Keep everything, 41 MB more");
  const here = page.url();
  await context.setOffline(true);
  await page.goto(here.replace("kit-and-limits", "movements/pull-up"));
  assert.match(await page.textContent("main"), /not kept on this device/);
  await page.click("main >> text=Kit and limits");
  await page.goto(here.replace("kit-and-limits.html", "floor.html#pull-up"));
  await page.waitForSelector("[data-card] h1");
  await context.setOffline(false);
  await page.goto(here);
  await page.click("[data-kept-site] button");
  await page.waitForFunction(() => /^All of this site/.test(document.querySelector("[data-kept-words]").textContent));
  await context.setOffline(true);
  await page.goto(here.replace("kit-and-limits", "movements/pull-up"));
  assert.match(await page.textContent("h1"), /Pull-up/);
});
