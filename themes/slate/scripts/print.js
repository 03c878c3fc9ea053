// The Print buttons of a page, and the ways to what hangs on the wall in the week that the page is for.
// Decides nothing of what is printed; the styles do.
"use strict";

for (const button of document.querySelectorAll("[data-print]")) {
  // Pictures below the screen come late; paper waits for no scrolling.
  button.addEventListener("click", async () => {
    const images = [...document.images];
    for (const image of images) image.loading = "eager";
    await Promise.all(images.map((image) => image.decode().catch(() => {})));
    window.print();
  });
}
const inWeek = typeof rungbookSessionPage === "undefined" ? null : rungbookSessionPage.week;
for (const way of document.querySelectorAll("[data-wall]")) {
  if (inWeek && way instanceof HTMLAnchorElement) way.hash = ["week", inWeek.cycle, inWeek.week, way.dataset.wall].filter(Boolean).join("/");
}
