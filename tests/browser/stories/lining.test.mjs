// Sides are looked at layer by layer, a layer is ticked off, plans are read and printed, an empty project gets a layer.

import assert from "node:assert/strict";
import { violations } from "../harness/access.mjs";
import { DESKTOP, PHONE, THEMES, overflow } from "../harness/browser.mjs";
import { becomes, press, story } from "../harness/story.mjs";

const BOX = { text: 'wainwright = 1\n\n[trailer]\ninside_length = "12 ft"\ninside_width = "6 ft"\ninside_height = "6 ft 3 in"\nrib_spacing = "16 in"\n' };
const PANELS = { text: `${BOX.text}
[layer.panels]
on = ["left", "right"]
of = "sheets"
material = "plywood"
thickness = "1/4 in"
width = "48 in"
length = "96 in"
gap = "1/8 in"

[stock.ply]
of = "sheet"
material = "plywood"
width = "48 in"
length = "96 in"
thickness = "1/4 in"
price = 30
count = 1
` };
const pieces = (page) => page.locator("#surface .for-wide g.piece");

story("a side shows every piece of a layer, and a number in the list finds it", {}, async ({ page }) => {
  await page.goto("/lining?side=right&layer=wall-planks");
  const rows = page.locator(".piece-list tbody tr");
  assert.equal(await pieces(page).count(), await rows.count());
  assert.ok(await rows.count() > 20);
  await page.getByRole("link", { name: "R3-12", exact: true }).click();
  await page.waitForURL(/piece=12/);
  await page.locator('#surface .for-wide g.piece.selected[data-id="R3-12"]').waitFor();
  assert.equal(await page.locator("#surface .for-wide g.piece.selected").count(), 1);
  // True to scale: the drawn length of that plank is the one in the list.
  const [drawn, listed] = await page.evaluate(() => {
    const svg = document.querySelector("#surface .for-wide svg.drawing");
    const body = svg.querySelector("g.piece.selected .body");
    const text = document.querySelector('tr[data-piece="R3-12"] td[data-label="Length"]').textContent;
    return [Number(body.getAttribute("width")) * Number(svg.dataset.mmPerUnit) / 25.4, text];
  });
  const [, feet, inches, over, under] = listed.match(/^(?:(\d+)')? ?(?:(\d+))?(?:-(\d+)\/(\d+))?"?$/);
  const length = 12 * Number(feet ?? 0) + Number(inches ?? 0) + (over ? over / under : 0);
  assert.ok(Math.abs(drawn - length) < 0.3, `${drawn} in drawn, ${listed} listed`);
  await page.getByRole("link", { name: "Ceiling" }).click();
  await page.waitForURL(/side=roof/);
  await becomes(page, () => document.querySelector("#surface .for-wide g.piece")?.dataset.id.startsWith("C"), undefined, "pieces of the ceiling");
});

story("a layer that is in now is not cut again, and undone it is", {}, async ({ app, page }) => {
  const first = await app.read();
  await page.goto("/lining?side=right&layer=wall-planks");
  assert.equal(await page.locator("#surface .for-wide g.piece.done").count(), 0);
  await page.locator("#in-already").click();
  await app.fileBecomes((text) => /\[layer\.wall-planks\][^[]*\[[^[]*done = \["left", "front", "right"\]/.test(text));
  await becomes(page, () => document.querySelectorAll("#surface .for-wide g.piece.done").length > 20, undefined, "the planks are shaded");
  await page.goto("/lining/cut");
  assert.equal(await page.locator("main").innerText().then((text) => /R3-\d/.test(text)), false);
  await press(page, "#undo");
  assert.equal(await app.fileBecomes((text) => text === first), first);
  await page.goto("/lining/cut");
  assert.match(await page.locator(".cutting-job").first().locator(".cut-order").textContent(), /R3-\d/);
});

story("the plan of boards cuts every piece once", {}, async ({ page }) => {
  await page.goto("/lining/cut");
  const job = page.locator(".cutting-job").first();
  const marks = (await job.locator(".cut-order").first().textContent()).match(/[LRFBCD]\d+-\d+/g);
  assert.equal(new Set(marks).size, marks.length, "each once");
  const wanted = [];
  for (const place of ["/lining?side=right&layer=wall-planks", "/lining?side=roof&layer=ceiling"]) {
    await page.goto(place);
    wanted.push(...(await page.locator("tr[data-piece]").evaluateAll((all) => all.map((one) => one.dataset.piece))));
  }
  assert.deepEqual([...marks].sort(), wanted.sort());
});

story("sheets are cut in order, from the shed first", { project: PANELS }, async ({ page }) => {
  await page.goto("/lining/cut");
  await page.locator(".get-list").getByText("From the shed:").waitFor();
  await page.locator(".cut-sheets details summary").first().click();
  assert.match(await page.locator(".cut-sheets .cut-order li").first().innerText(), /^Cut the whole sheet .* from its (left|lower) edge/);
  const cuts = await page.locator(".cut-sheets .cut-order").first().locator("li").count();
  const numbers = await page.locator(".cut-drawing").first().locator(".for-wide .in-cut").count();
  assert.equal(numbers, cuts, "every cut has its number on the drawing");
});

story("cut sheets are pages with every mark and a box to tick", {}, async ({ page }) => {
  await page.goto("/print/cut?paper=a4");
  const sheets = await page.locator("figure.paper").count();
  assert.ok(sheets >= 2);
  const marks = (await page.locator("figure.paper text").allTextContents()).filter((text) => /^[LRFBCD]\d+-\d+$/.test(text));
  assert.ok(marks.length > 60);
  assert.ok(await page.locator("figure.paper .tick").count() > new Set(marks).size);
  const paper = await page.pdf({ preferCSSPageSize: true, printBackground: true });
  const text = paper.toString("latin1");
  assert.equal(text.match(/\/Type\s*\/Page\b/g).length, sheets);
  // In points: 210 mm by 297 mm.
  assert.match(text.match(/\/MediaBox\s*\[[^\]]*\]/)[0], /59[45].* 84[12]/);
});

story("from the box to the first layer at a press", { project: BOX }, async ({ app, page }) => {
  await page.goto("/lining");
  await page.getByRole("button", { name: "Planks on walls and ceiling" }).click();
  await page.locator("#surface .for-wide g.piece").first().waitFor();
  const text = await app.fileBecomes((text) => text.includes("[layer.planks]"));
  assert.match(text, /thickness = "1\/2 in"/);
  await press(page, "#undo");
  await page.getByRole("button", { name: "Planks on walls and ceiling" }).waitFor();
});

story("nothing typed: one clear step", { project: { text: "wainwright = 1\n" } }, async ({ page }) => {
  await page.goto("/lining");
  await page.getByRole("link", { name: "Type the inside of the box" }).click();
  await page.waitForURL(/\/edit\/trailer/);
  await page.goto("/lining/cut");
  await page.getByRole("link", { name: "To the sides" }).click();
  await page.waitForURL((url) => url.pathname === "/lining");
});

const PLACES = ["/lining", "/lining?side=left&layer=foam", "/lining?side=front", "/lining?side=floor", "/lining?side=roof", "/lining/cut", "/print/cut"];
for (const theme of THEMES) {
  for (const size of [DESKTOP, PHONE]) {
    for (const [name, project, places] of [["of the example", {}, PLACES], ["of sheets", PANELS, ["/lining?side=left", "/lining/cut", "/print/cut"]], ["before the first layer", BOX, ["/lining", "/lining/cut"]]]) {
      story(`lining pages ${name} are sound, ${theme}, ${size.width} wide`, { project, size, theme }, async ({ page }) => {
        for (const place of places) {
          await page.goto(place);
          await page.locator("details").evaluateAll((all) => all.forEach((one) => (one.open = true)));
          assert.deepEqual(await violations(page), [], place);
          assert.deepEqual(await overflow(page), { over: 0, wide: [] }, place);
        }
      });
    }
  }
}
