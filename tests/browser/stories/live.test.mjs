// The file is edited in another program, or in another window: open pages follow by themselves.

import assert from "node:assert/strict";
import { becomes, findings, press, story } from "../harness/story.mjs";

const says = (words) => document.body.innerText.includes(words);

story("an edit in another program shows up in the open page", {}, async ({ app, page }) => {
  await page.goto("/");
  await page.evaluate(() => (globalThis.sameDocument = true));
  const before = await findings(page);
  await app.editOutside((text) => text.replace('name = "Dark-sky trailer"', 'name = "Renamed elsewhere"'));
  await becomes(page, says, "Renamed elsewhere", "the new name");

  await app.editOutside((text) => text + '\n[wire.thin-lead]\nfrom = "plus-bus.8"\nto = "nowhere.+"\nsize = "18 AWG"\nlength = "3 ft"\n');
  await becomes(page, says, "nowhere", "the problem in the new lines");
  assert.deepEqual(await findings(page).then((now) => before.filter((key) => !now.includes(key))), [], "what was found stays found");
});

story("a broken file is named by line, and mending it clears that", {}, async ({ app, page }) => {
  await page.goto("/");
  const whole = await app.read();
  const line = whole.split("\n").length;
  await app.editOutside((text) => `${text}[wire.`);
  await page.locator(`.problem[data-line="${line}"]`).waitFor();
  assert.ok((await findings(page)).length > 0, "the rest is still judged");
  await app.editOutside(() => whole);
  await becomes(page, () => !document.querySelector(".problem"), undefined, "no problem is left");
});

story("a second window follows the first", {}, async ({ page, another }) => {
  await page.goto("/");
  const second = await another();
  await second.goto("/");
  const fix = page.locator("#findings form[data-fix]").first();
  await fix.waitFor({ timeout: 60_000 });
  const key = (await fix.getAttribute("data-fix")).replace(/#\d+$/, "");
  await fix.getByRole("button", { name: "Apply" }).click();
  await becomes(second, (key) => !document.querySelector(`article[data-finding="${CSS.escape(key)}"]`), key, `${key} is gone in the second window`);
});

story("an edit from outside is a step of its own, named so, and comes back", {}, async ({ app, page }) => {
  await page.goto("/");
  const fix = page.locator("#findings form[data-fix]").first();
  await fix.waitFor({ timeout: 60_000 });
  const original = await app.read();
  await fix.getByRole("button", { name: "Apply" }).click();
  const fixed = await app.fileBecomes((text) => text !== original);
  const edited = await app.editOutside((text) => `# written in an editor meanwhile\n${text}`);
  await becomes(page, () => document.querySelector("#undo").innerText.includes("outside"), undefined, "undo says what it takes back");
  await press(page, "#undo");
  await app.fileBecomes((text) => text === fixed);
  await press(page, "#undo");
  await app.fileBecomes((text) => text === original);
  await press(page, "#redo");
  await app.fileBecomes((text) => text === fixed);
  await press(page, "#redo");
  await app.fileBecomes((text) => text === edited);
});

story("a stale page does not overwrite what was edited meanwhile", { expected: [/^409 /, /^console: .*409/], javaScriptEnabled: false }, async ({ app, page }) => {
  await page.goto("/edit/wire/bat-plus");
  const edited = await app.editOutside((text) => text.replace('length = "30 in"', 'length = "31 in"'));
  await page.waitForTimeout(1000);
  await page.getByLabel("Length", { exact: true }).fill("29 in");
  await page.locator("form[data-form]").getByRole("button", { name: "Save" }).click();
  await page.locator("[role=alert]").first().waitFor();
  assert.equal(await app.read(), edited, "the line edited meanwhile is as it was edited");
});
