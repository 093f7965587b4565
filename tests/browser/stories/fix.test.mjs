// A finding is read, its proven fix is applied, the file changes, and undo brings the file back
// byte for byte.

import assert from "node:assert/strict";
import { DESKTOP, PHONE } from "../harness/browser.mjs";
import { becomes, findings, press, story } from "../harness/story.mjs";

const gone = (key) => !document.querySelector(`article[data-finding="${CSS.escape(key)}"]`);
const there = (key) => !!document.querySelector(`article[data-finding="${CSS.escape(key)}"]`);

async function firstFix(page) {
  const fix = page.locator("#findings form[data-fix]").first();
  await fix.waitFor({ timeout: 60_000 });
  const key = (await fix.getAttribute("data-fix")).replace(/#\d+$/, "");
  return { fix, key };
}

for (const [place, size] of Object.entries({ desktop: DESKTOP, phone: PHONE })) {
  story(`a fix is applied and taken back on a ${place}`, { size }, async ({ app, page }) => {
    const original = await app.read();
    await page.goto("/");
    const before = await findings(page);
    assert.ok(before.length >= 5, `the demo has faults to find; shown: ${before.length}`);
    assert.equal(await page.locator("#undo").isDisabled(), true, "nothing to take back yet");

    const { fix, key } = await firstFix(page);
    assert.ok(before.includes(key));
    await fix.getByRole("button", { name: "Apply" }).click();
    await becomes(page, gone, key, `${key} is gone`);
    const changed = await app.fileBecomes((text) => text !== original);
    const comments = (text) => text.split("\n").filter((line) => line.trim().startsWith("#"));
    assert.deepEqual(comments(changed), comments(original), "comments are kept");

    await press(page, "#undo");
    await becomes(page, there, key, `${key} is back`);
    assert.equal(await app.fileBecomes((text) => text === original), original);
    assert.deepEqual(await findings(page), before);

    await press(page, "#redo");
    await becomes(page, gone, key, `${key} is gone again`);
    assert.equal(await app.fileBecomes((text) => text === changed), changed);
  });
}

story("a fix is applied and taken back without any script", { javaScriptEnabled: false }, async ({ app, page }) => {
  const original = await app.read();
  await page.goto("/");
  // Fixes are proven in the background; without a script the page is loaded again by hand.
  for (let tries = 0; tries < 60 && !(await page.locator("#findings form[data-fix]").count()); tries++) {
    await page.waitForTimeout(500);
    await page.reload();
  }
  const { fix, key } = await firstFix(page);
  await Promise.all([page.waitForEvent("load"), fix.getByRole("button", { name: "Apply" }).click()]);
  assert.ok(!(await findings(page)).includes(key));
  assert.notEqual(await app.read(), original);
  await Promise.all([page.waitForEvent("load"), page.locator("#undo").click()]);
  assert.ok((await findings(page)).includes(key));
  assert.equal(await app.read(), original);
});
