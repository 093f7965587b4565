// Everything that matters works without a pointer.

import assert from "node:assert/strict";
import { becomes, story } from "../harness/story.mjs";

/** Presses Tab until `test` holds for what has the focus; fails when the focus cannot be seen. */
async function tabTo(page, test, argument, most = 200) {
  for (let presses = 0; presses < most; presses++) {
    await page.keyboard.press("Tab");
    const seen = await page.evaluate(() => {
      const at = document.activeElement;
      if (!at || at === document.body) return "nothing";
      const style = getComputedStyle(at);
      const inDrawing = at.ownerSVGElement !== null && at.ownerSVGElement !== undefined;
      const ring = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) > 0;
      return ring || style.boxShadow !== "none" || inDrawing ? "" : at.outerHTML.slice(0, 100);
    });
    assert.equal(seen, "", "what has the focus can be seen");
    if (await page.evaluate(test, argument)) return presses + 1;
  }
  assert.fail(`not reached in ${most} presses of Tab: ${test}`);
}

story("from the first key to a fixed finding and back", {}, async ({ app, page }) => {
  const original = await app.read();
  await page.goto("/");
  await page.locator("#findings form[data-fix]").first().waitFor({ timeout: 60_000 });

  await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement.className), "skip", "the first stop skips the frame");
  await page.keyboard.press("Enter");
  await becomes(page, () => document.activeElement?.id === "main" || location.hash === "#main", undefined, "the focus is on the page itself");

  await tabTo(page, () => !!document.activeElement.closest("form[data-fix]") && document.activeElement.matches("button"));
  const key = await page.evaluate(() => document.activeElement.closest("form[data-fix]").dataset.fix.replace(/#\d+$/, ""));
  await page.keyboard.press("Enter");
  await becomes(page, (key) => !document.querySelector(`article[data-finding="${CSS.escape(key)}"]`), key, `${key} is gone`);
  await app.fileBecomes((text) => text !== original);

  await page.locator("#undo").focus();
  await page.keyboard.press("Enter");
  assert.equal(await app.fileBecomes((text) => text === original), original);
});

story("every place is reached with Tab and Enter", {}, async ({ page }) => {
  await page.goto("/");
  for (const [word, address] of [["Layout", "/layout"], ["Wiring", "/wiring"], ["Circuits", "/circuits"], ["Lists", "/lists"], ["Rules", "/rules"], ["Bench", "/bench"], ["File", "/file"], ["Overview", "/"]]) {
    await tabTo(page, (word) => document.activeElement.matches("#top nav a") && document.activeElement.textContent.trim() === word, word, 20);
    await page.keyboard.press("Enter");
    await page.waitForURL((url) => url.pathname === address);
    assert.equal(await page.locator("#top nav a[aria-current=page]").innerText(), word);
  }
});

story("a wire in the drawing is reached and chosen", {}, async ({ page }) => {
  await page.goto("/wiring");
  await page.locator("#frame").focus();
  await tabTo(page, () => !!document.activeElement.closest("#drawing"), undefined, 10);
  await page.keyboard.press("Enter");
  await page.waitForURL((url) => url.searchParams.has("select"));
  await page.locator("#panel").waitFor();
});
