// A new project from nothing, in the browser alone, to the first answer.

import assert from "node:assert/strict";
import { PHONE } from "../harness/browser.mjs";
import { story } from "../harness/story.mjs";

const EMPTY = { text: "wainwright = 1\n" };
const save = (page) => page.locator("main form").first().getByRole("button", { name: /^(Save|Add|Change|Keep)/ });

async function add(page, address, fields) {
  await page.goto(address);
  for (const more of await page.locator("details.more-fields > summary").all()) await more.click();
  for (const [label, value] of Object.entries(fields)) {
    // Whole words: an Id is not a Width.
    const field = page.getByLabel(new RegExp(`^${label}\\b`)).first();
    const list = (await field.evaluate((one) => one.tagName)) === "SELECT";
    if (list) await field.selectOption(value);
    else await field.fill(value);
  }
  await save(page).click();
  await page.waitForURL((url) => !url.pathname.startsWith("/add/"));
}

for (const size of [undefined, PHONE]) {
  story(`an empty project grows to a first answer${size ? " on a phone" : ""}`, { project: EMPTY, ...(size && { size }) }, async ({ app, page }) => {
    await page.goto("/");
    await page.getByRole("link", { name: "Add the battery" }).click();
    await page.waitForURL((url) => url.pathname.startsWith("/add/item"));

    await add(page, "/add/item?kind=battery", { Id: "house", Chemistry: "lfp", Cells: "4", Capacity: "100 Ah" });
    await add(page, "/add/item?kind=load", { Id: "lamp", Power: "24 W" });
    await add(page, "/add/wire", { From: "house.+", To: "lamp.+", Size: "18 AWG", "Length": "12 ft" });
    await add(page, "/add/wire", { From: "lamp.-", To: "house.-", Size: "18 AWG", "Length": "12 ft" });

    await page.goto("/");
    const text = await app.read();
    for (const line of ["[item.house]", "[item.lamp]", 'power = "24 W"', 'from = "house.+"', 'size = "18 AWG"']) {
      assert.ok(text.includes(line), `${line} in:\n${text}`);
    }
    // A lamp on a battery without any fuse: that is the first answer.
    const found = await page.locator("article[data-finding^=unfused-source-stretch]").count();
    assert.ok(found >= 1, await page.locator("main").innerText());
    assert.equal(await page.locator("#verdict").getAttribute("data-worst"), "danger");
  });
}
