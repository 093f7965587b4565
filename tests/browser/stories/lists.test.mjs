// Routes are picked and bent, a plan is put in and taken back, lists come on paper.

import assert from "node:assert/strict";
import { join } from "node:path";
import { violations } from "../harness/access.mjs";
import { ROOT } from "../harness/app.mjs";
import { DESKTOP, PHONE, THEMES, overflow } from "../harness/browser.mjs";
import { becomes, changedLines, press, story } from "../harness/story.mjs";

const GEAR = { source: join(ROOT, "examples", "gear-list.toml") };
const corner = (page, number) => page.locator(`#route-plan g[data-id="corner-${number}"]:visible`);

/** Screen pixels of a metre. */
const pixels = (page) => page.evaluate(() => {
  const svg = [...document.querySelectorAll("#route-plan svg.drawing")].find((one) => one.getBoundingClientRect().width > 0);
  return 1000 / Number(svg.dataset.mmPerUnit) * svg.getScreenCTM().a;
});
const path = (text, id) => text.split(`[trunk.${id}]`)[1].match(/path = \[(.*)\]/)[1].split('", "').map((one) => one.match(/-?\d+(?= mm)/g).map(Number));

story("a corner of a trunk is dragged, undone, and moved by keys", { project: GEAR }, async ({ app, page }) => {
  await page.goto("/wiring/routes?face=left&select=trunk.left-low");
  const first = await app.read(), metre = await pixels(page), [low, far] = path(first, "left-low");
  const box = await corner(page, 1).locator(".body").boundingBox();
  const at = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  // Seen from inside, the front is on the right: to the right is forwards.
  await page.mouse.move(at.x + 0.4 * metre, at.y, { steps: 6 });
  assert.equal(await app.read(), first, "nothing is changed before it is let go");
  await page.mouse.up();
  const after = await app.fileBecomes((text) => text !== first);
  assert.equal(changedLines(first, after).length, 1);
  const [front, left, up] = path(after, "left-low")[1];
  assert.ok(Math.abs(front - (far[0] - 400)) < 40 && left === far[1] && Math.abs(up - far[2]) <= 10, `${front}, ${left}, ${up}`);
  assert.deepEqual(path(after, "left-low")[0], low);
  await press(page, "#undo");
  assert.equal(await app.fileBecomes((text) => text === first), first);
  await corner(page, 0).focus();
  await page.keyboard.press("ArrowUp");
  await page.keyboard.press("Escape");
  assert.equal(await corner(page, 0).getAttribute("transform"), null);
  await page.keyboard.press("Shift+ArrowUp");
  await page.keyboard.press("Enter");
  const lifted = await app.fileBecomes((text) => text !== first);
  assert.deepEqual(path(lifted, "left-low")[0], [low[0], low[1], low[2] + 100]);
});

story("a wire is picked in the drawing and its length is worked out", {}, async ({ page }) => {
  await page.goto("/wiring/routes?face=right");
  await page.locator('#route-plan .for-wide g[data-kind="trunk"]').first().focus();
  await page.keyboard.press("Enter");
  await page.locator(".corners").waitFor();
  await page.goto("/wiring/routes");
  await page.locator('#route-plan .for-wide g[data-kind="wire"][data-id="fan-plus"]').focus();
  await page.keyboard.press("Enter");
  await becomes(page, () => /fan-plus/.test(document.querySelector("#chosen-name")?.textContent), undefined, "the wire is chosen");
  await page.getByText("Working of its length").click();
  await page.locator("#how-length .result").first().waitFor();
  assert.match(await page.locator("#chosen-route").innerText(), /Fuse block, terminal 6 → Roof fan/);
});

story("the plan is put in with one press and taken back with another", { project: GEAR }, async ({ app, page }) => {
  const first = await app.read();
  await page.goto("/wiring/plan");
  await page.getByRole("button", { name: "Put this plan in the project" }).click();
  await page.waitForURL((url) => url.pathname === "/wiring/line");
  const after = await app.fileBecomes((text) => text !== first);
  assert.ok(after.split("\n[wire.").length > 20);
  await page.goto("/wiring/plan");
  await page.getByRole("heading", { name: "There is nothing to add" }).waitFor();
  await press(page, "#undo");
  assert.equal(await app.fileBecomes((text) => text === first), first);
  await page.getByRole("button", { name: "Put this plan in the project" }).waitFor();
});

story("each sheet is a page of its own", {}, async ({ page }) => {
  const pages = async (place, sheets) => {
    await page.goto(place);
    assert.equal(await page.locator("figure.paper").count(), sheets);
    const paper = await page.pdf({ preferCSSPageSize: true, printBackground: true });
    const text = paper.toString("latin1");
    assert.equal(text.match(/\/Type\s*\/Page\b/g).length, sheets, place);
    return text.match(/\/MediaBox\s*\[[^\]]*\]/)[0];
  };
  // In points: 279.4 mm by 215.9 mm, 210 mm by 297 mm.
  assert.match(await pages("/print/routes?paper=letter", 7), /79[12].* 61[12]/);
  assert.match(await pages("/lists/labels?paper=a4&columns=4&rows=10", 3), /59[45].* 84[12]/);
});

story("a list is taken along", {}, async ({ page }) => {
  await page.goto("/lists/buy");
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("link", { name: "Download for a spreadsheet" }).click()]);
  assert.equal(download.suggestedFilename(), "project-buy.csv");
});

const PLACES = ["/wiring/line", "/wiring/routes", "/wiring/routes?face=left&select=trunk.ceiling-left", "/wiring/routes?select=wire.fan-plus", "/wiring/plan",
  "/lists", "/lists/terminals", "/lists/fuses", "/lists/labels", "/lists/buy", "/print/routes"];
for (const theme of THEMES) {
  for (const size of [DESKTOP, PHONE]) {
    story(`routes and lists are sound, ${theme}, ${size.width} wide`, { size, theme }, async ({ page }) => {
      for (const place of PLACES) {
        await page.goto(place);
        await page.locator("details").evaluateAll((all) => all.forEach((one) => (one.open = true)));
        assert.deepEqual(await violations(page), [], place);
        assert.deepEqual(await overflow(page), { over: 0, wide: [] }, place);
      }
    });
  }
}
