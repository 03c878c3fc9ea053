// Temporary look at the board.
import { openBrowser } from "./hall.mjs";
const b = await openBrowser();
const only = process.argv[2];
for (const [w,h] of [[820,1180],[1280,800]]) for (const scheme of ["light","dark"]) {
  const c = await b.newContext({ viewport: {width:w,height:h}, colorScheme: scheme });
  const p = await c.newPage();
  await p.goto("file:///tmp/wt/board/target/wall.html");
  await p.screenshot({path:`/tmp/boardshots/${w}-${scheme}.png`});
  if (scheme==="light") {
    await p.click('#clock button:has-text("Start the clock")');
    for (let i=0;i<1;i++) await p.click('#clock button:has-text("Next")');
    await p.waitForTimeout(600);
    await p.screenshot({path:`/tmp/boardshots/${w}-clock.png`});
    await p.click('#strip button:has-text("wren")');
    await p.waitForTimeout(200);
    await p.screenshot({path:`/tmp/boardshots/${w}-touch.png`});
    await p.click('#strip button:has-text("Something broke")');
    await p.click('#choices button:has-text("straps")');
    await p.waitForTimeout(200);
    await p.screenshot({path:`/tmp/boardshots/${w}-broke.png`});
  }
  if (w===820 && scheme==="light") {
    const { writeFileSync } = await import("node:fs");
    writeFileSync("/tmp/boardshots/print.pdf", await p.pdf({preferCSSPageSize:true}));
  }
  await c.close();
}
await b.close();
