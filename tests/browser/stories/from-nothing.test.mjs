// A tiny trailer from an empty file, by what the pages offer alone: no address is typed, every step
// is a link or a button that stands on the page, and the forms ask only for what is on name plates.

import assert from "node:assert/strict";
import { DESKTOP, PHONE } from "../harness/browser.mjs";
import { story } from "../harness/story.mjs";

const EMPTY = { text: "wainwright = 1\n" };

/** Presses what leads on, by its words, within the page itself. */
async function follow(page, words) {
  await page.locator("main").getByRole("link", { name: words }).first().click();
}

/** Fills the form that is shown, without opening anything, and sends it; back comes what was added. */
async function fill(page, fields) {
  await page.locator("form[data-form]").waitFor();
  for (const [label, value] of Object.entries(fields)) {
    const field = page.locator("form[data-form]").getByLabel(label).first();
    if ((await field.evaluate((one) => one.tagName)) === "SELECT") await field.selectOption(value);
    else await field.fill(value);
  }
  await page.getByRole("button", { name: "Add", exact: true }).click();
  await page.locator(".added").waitFor();
}

/** Joins a loose end that is offered with another terminal. */
async function join(page, end, to, size, length) {
  await follow(page, end);
  await page.waitForURL((url) => url.pathname === "/add/wire");
  assert.notEqual(await page.getByLabel(/^From/).inputValue(), "", "the wire starts where it was offered");
  await fill(page, { To: to, Size: size, Length: length });
}

for (const [place, size] of Object.entries({ phone: PHONE, desktop: DESKTOP })) {
  story(`a tiny trailer grows out of an empty file on a ${place}`, { project: EMPTY, size }, async ({ app, page }) => {
    await page.goto("/");
    await follow(page, "Add the battery");
    await fill(page, { Label: "House battery", Chemistry: "lfp", Cells: "4", Capacity: "100 Ah" });
    assert.match(await page.locator(".added").innerText(), /plus \(\+\)[\s\S]*minus/, "its terminals are offered");

    await follow(page, "See how it stands");
    await page.locator(".steps .done").first().waitFor();
    assert.equal(await page.locator(".steps .done").count(), 1, "one step is done");
    assert.equal(await page.locator("#verdict").getAttribute("data-worst"), "unknown", "nothing looks like a pass before a circuit is closed");
    await follow(page, "Add the main fuse");
    await fill(page, { Label: "Main fuse", Family: "class-t", Rating: "30 A" });
    await follow(page, "See how it stands");
    await follow(page, "Add something that uses power");
    await fill(page, { Label: "Lamp", Power: "24 W" });
    await follow(page, "Add more gear");
    await follow(page, "Load");
    await fill(page, { Label: "Fan", Power: "30 W" });
    await follow(page, "See how it stands");
    await follow(page, "Add a bus bar or fuse block");
    await follow(page, "Bus bar");
    await fill(page, { Label: "Minus bus", Ways: "4" });

    await follow(page, "See how it stands");
    await follow(page, "Join them with wires");
    await fill(page, { To: "main-fuse.in", Size: "10 AWG", Length: "4 in" });
    await join(page, /Lamp, plus/, "main-fuse.out", "14 AWG", "8 ft");
    await join(page, /Fan, plus/, "main-fuse.out", "14 AWG", "9 ft");
    await join(page, /Lamp, minus/, "minus-bus.1", "14 AWG", "8 ft");
    await join(page, /Fan, minus/, "minus-bus.2", "14 AWG", "9 ft");
    await join(page, /House battery, minus/, "minus-bus.3", "10 AWG", "2 ft");

    assert.equal(await page.locator(".added .loose").count(), 0, "no end is loose any more");
    await follow(page, "See how it stands");
    await page.locator("#verdict").waitFor();
    assert.equal(await page.locator(".steps").count(), 0, "the first steps are behind");
    assert.notEqual(await page.locator("#verdict").getAttribute("data-worst"), "unknown");
    const text = await app.read();
    assert.equal(text.match(/^\[wire\./gm).length, 6, text);
    assert.equal(text.match(/^\[item\./gm).length, 5, text);
    // The drawing has all of it, and the battery stands on the screen.
    await page.goto("/wiring");
    assert.equal(await page.locator("#drawing g[data-kind=wire]").count(), 6);
    const [frame, battery] = await Promise.all(["#frame", "#drawing g[data-kind=battery]"].map((one) => page.locator(one).boundingBox()));
    assert.ok(battery.x >= frame.x - 1 && battery.x < frame.x + frame.width, JSON.stringify({ frame, battery }));
  });
}

story("another kind brings its own fields, and what was typed stays", { project: EMPTY }, async ({ app, page }) => {
  await page.goto("/add/item?kind=load");
  await page.getByLabel("Label", { exact: true }).fill("Galley outlet");
  await page.locator("details.more-fields > summary").click();
  await page.getByLabel("Kind", { exact: true }).selectOption("outlet");
  await page.waitForURL((url) => url.searchParams.get("kind") === "outlet");
  assert.equal(await page.getByLabel("Label", { exact: true }).inputValue(), "Galley outlet");
  await page.getByLabel("Current", { exact: true }).fill("12 A");
  await page.getByRole("button", { name: "Add", exact: true }).click();
  await page.locator(".added").waitFor();
  assert.match(await app.read(), /\[item\.galley-outlet\][^[]*kind = "outlet"[^[]*current = "12 A"/);
});

story("a deleted file is said to be gone, and putting it back clears that", {}, async ({ app, page }) => {
  const { rename } = await import("node:fs/promises");
  await page.goto("/");
  await rename(app.file, `${app.file}.away`);
  await page.locator("#disk [role=alert]").waitFor();
  assert.match(await page.locator("#disk").innerText(), /deleted or moved/);
  await rename(`${app.file}.away`, app.file);
  await page.locator("#disk .saved").waitFor();
});
