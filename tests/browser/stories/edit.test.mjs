// Forms change the file: one line, its comment kept; what is typed wrong is said at the field.

import assert from "node:assert/strict";
import { PHONE } from "../harness/browser.mjs";
import { changedLines, findings, story } from "../harness/story.mjs";

const WIRE = "/edit/wire/bat-plus";
const save = (page) => page.locator("main form").first().getByRole("button", { name: /^(Save|Change|Keep)/ });

for (const size of [undefined, PHONE]) {
  story(`a wire is edited in its form${size ? " on a phone" : ""}`, size ? { size } : {}, async ({ app, page }) => {
    const original = await app.read();
    await page.goto(WIRE);
    const length = page.getByLabel("Length", { exact: true });
    assert.equal(await length.inputValue(), "30 in");
    await length.fill("5-1/2\"");
    await save(page).click();
    const changed = await app.fileBecomes((text) => text !== original);
    const lines = changedLines(original, changed);
    assert.equal(lines.length, 1, JSON.stringify(lines));
    const [, before, after] = lines[0];
    assert.match(before, /^length = "30 in" +# the fuse/);
    assert.match(after, /^length = ("5-1\/2\\""|'5-1\/2"') +# the fuse ended up on the far side of the box$/);
    await page.locator("#undo").click();
    assert.equal(await app.fileBecomes((text) => text === original), original);
  });
}

story("what is typed wrong is said at the field, and nothing is changed", { expected: [/^422 /, /^console: .*422/] }, async ({ app, page }) => {
  const original = await app.read();
  await page.goto(WIRE);
  await page.getByLabel("Length", { exact: true }).fill("30 amps");
  await save(page).click();
  await page.locator("#field-length .error").waitFor();
  assert.equal(await page.getByLabel("Length", { exact: true }).inputValue(), "30 amps", "what was typed is still there");
  assert.equal(await page.getByLabel("Length", { exact: true }).getAttribute("aria-invalid"), "");
  assert.equal(await app.read(), original);
});

story("a shorter wire takes its finding away", {}, async ({ page }) => {
  await page.goto("/");
  const about = (keys) => keys.filter((key) => key === "unfused-source-stretch:item.house");
  assert.equal(about(await findings(page)).length, 1);
  await page.goto(WIRE);
  await page.getByLabel("Length", { exact: true }).fill("5 in");
  await save(page).click();
  await page.waitForURL((url) => url.pathname !== WIRE);
  await page.goto("/");
  assert.deepEqual(about(await findings(page)), []);
});
