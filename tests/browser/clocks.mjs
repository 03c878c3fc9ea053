// What the tests of clocks share: reading the face, ending by a hold, a site that has no answers.

/** The face of the clock in words: whose, what, how much, what next, and what is said aloud. */
export const FACE = ["clock-whose", "clock-now", "clock-more", "clock-dose", "clock-count", "clock-cue", "clock-next", "unseen"];

/** Everything that the face shows or says, one part after the other. */
export const faceWords = (page) => page.evaluate((names) => {
  const dialog = document.querySelector("dialog");
  return dialog ? names.map((name) => dialog.querySelector(`.${name}`)?.textContent || "").join(" | ") : "";
}, FACE);

/** Ends the clock: held for longer than it asks. With made time, `page.clock` is told to pass it. */
export async function endByHold(page, pass = (ms) => page.waitForTimeout(ms)) {
  const box = await page.locator("dialog .clock-main-controls button:has(.hold)").boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await pass(1300);
  await page.mouse.up();
  await page.waitForSelector("dialog.over");
}

/** A site on which nothing is changed and nothing stands for anything: what does not fit is asked about. */
export async function withoutAnswers(page) {
  await page.route("**/cards/*.js", async (route) => {
    const text = await (await route.fetch()).text();
    const body = text.replace(/^rungbookCard\((.*)\);\s*$/s, (_, json) => `rungbookCard(${JSON.stringify({ ...JSON.parse(json), swaps: [] })});`);
    await route.fulfill({ body, contentType: "text/javascript" });
  });
  await page.route("**/data/words.js", async (route) => {
    const text = await (await route.fetch()).text();
    const words = JSON.parse(text.replace(/^window\.rungbookWords=|;\s*$/g, ""));
    await route.fulfill({ body: `window.rungbookWords=${JSON.stringify({ ...words, changes: {} })};`, contentType: "text/javascript" });
  });
}
