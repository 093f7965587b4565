// Things are moved on the floor by mouse, finger, keys and fields; figures follow at once.

import assert from "node:assert/strict";
import { violations } from "../harness/access.mjs";
import { DESKTOP, PHONE, THEMES, overflow } from "../harness/browser.mjs";
import { becomes, changedLines, press, story } from "../harness/story.mjs";

const BOX = `wainwright = 1

[project]
name = "Box"
units = "metric"
region = "EU"

[trailer]
inside_length = "3.6 m"
inside_width = "1.8 m"
inside_height = "1.9 m"
ball_to_front = "1.2 m"
ball_to_axle = "3.3 m"
axles = 1
track = "2.0 m"
floor_height = "500 mm"
wheel_radius = "320 mm"
coupling_height = "430 mm"
empty_mass = "600 kg"
empty_tongue = "40 kg"
empty_centre_height = "900 mm"

[item.chest]
label = "Tool chest"
kind = "cargo"
mass = "100 kg"
size = "400 mm x 500 mm x 300 mm"
spot = "1700 mm, 600 mm, 0 mm" # where it stands

[item.crate]
label = "Crate"
kind = "cargo"
mass = "20 kg"
size = "400 mm x 400 mm x 400 mm"
`;
const project = { text: BOX };

const thing = (page, id) => page.locator(`#floor-plan g[data-id="${id}"][data-kind=thing]:visible`);
const share = (page) => page.locator("#tongue dd b").first().innerText();
const spot = (text, id = "chest") => text.split(`[item.${id}]`)[1].match(/spot = "([^"]+)"/)?.[1];
const numbers = (text) => text.match(/-?[\d.]+/g).map(Number);

/** Middle of a thing on the screen. */
async function middle(page, id) {
  const box = await thing(page, id).locator(".body").boundingBox();
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

/** Screen pixels of a metre. */
const pixels = (page) => page.evaluate(() => {
  const svg = [...document.querySelectorAll("#floor-plan svg.drawing")].find((one) => one.getBoundingClientRect().width > 0);
  return 1000 / Number(svg.dataset.mmPerUnit) * svg.getScreenCTM().a;
});

story("a thing is dragged with the mouse; figures follow before it is let go", { project }, async ({ app, page }) => {
  await page.goto("/layout");
  const [before, first] = [await share(page), await app.read()];
  const at = await middle(page, "chest"), metre = await pixels(page);
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  await page.mouse.move(at.x - 0.4 * metre, at.y, { steps: 8 });
  await becomes(page, (before) => document.querySelector("#tongue dd b").textContent !== before, before, "another share while it is dragged");
  assert.equal(await app.read(), first, "nothing is changed before it is let go");
  await page.mouse.move(at.x - 0.8 * metre, at.y, { steps: 8 });
  await page.mouse.up();
  const after = await app.fileBecomes((text) => text !== first);
  const lines = changedLines(first, after);
  assert.equal(lines.length, 1, JSON.stringify(lines));
  assert.match(lines[0][2], /^spot = ".*" # where it stands$/);
  const [front, left, up] = numbers(spot(after));
  assert.ok(Math.abs(front - 900) < 30, `${front} mm from the front`);
  assert.ok(Math.abs(left - 600) <= 20 && up === 0, `${left}, ${up}`);
  await becomes(page, () => document.querySelector("#chosen-name")?.textContent === "Tool chest", undefined, "what was moved is chosen");
  const moved = await share(page);
  assert.ok(parseFloat(moved) > parseFloat(before), `${before} to ${moved}: further forwards, more on the ball`);
  await press(page, "#undo");
  assert.equal(await app.fileBecomes((text) => text === first), first);
  assert.equal(await share(page), before);
});

story("it snaps to a wall, and with Alt it does not", { project }, async ({ app, page }) => {
  await page.goto("/layout");
  const first = await app.read(), metre = await pixels(page);
  const drag = async (metres, key) => {
    const at = await middle(page, "chest");
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    if (key) await page.keyboard.down(key);
    await page.mouse.move(at.x, at.y + metres * metre, { steps: 6 });
    await page.mouse.up();
    if (key) await page.keyboard.up(key);
  };
  await drag(0.588); // left is down on this drawing; 600 mm to 12 mm
  const snapped = await app.fileBecomes((text) => text !== first);
  assert.equal(numbers(spot(snapped))[1], 0);
  await press(page, "#undo");
  // What other windows are told reaches this one too, a moment later, and draws the floor again.
  await page.waitForTimeout(500);
  await drag(0.588, "Alt");
  const free = await app.fileBecomes((text) => spot(text) !== spot(first) && spot(text) !== spot(snapped));
  assert.notEqual(numbers(spot(free))[1], 0);
});

story("keys move, Enter keeps, Escape puts back", { project }, async ({ app, page }) => {
  await page.goto("/layout");
  const [first, before] = [await app.read(), await share(page)];
  await thing(page, "chest").focus();
  for (let presses = 0; presses < 3; presses++) await page.keyboard.press("Shift+ArrowLeft");
  await page.keyboard.press("ArrowUp");
  await becomes(page, (before) => document.querySelector("#tongue dd b").textContent !== before, before, "another share while it is moved");
  await becomes(page, () => /1.4 m from the front wall/.test(document.querySelector("#announce").textContent), undefined, "its place is said aloud");
  await page.keyboard.press("Escape");
  assert.equal(await share(page), before);
  assert.equal(await thing(page, "chest").getAttribute("transform"), null);
  assert.equal(await app.read(), first);
  await page.keyboard.press("Shift+ArrowLeft");
  await page.keyboard.press("ArrowUp");
  await page.keyboard.press("Enter");
  const after = await app.fileBecomes((text) => text !== first);
  assert.equal(spot(after), "1600 mm, 610 mm, 0 mm");
  await becomes(page, () => document.activeElement?.dataset?.id === "chest", undefined, "the focus stays on it");
});

story("a thing is lifted in the drawing from the side", { project }, async ({ app, page }) => {
  await page.goto("/layout?side=right");
  const first = await app.read();
  await page.locator('#side-plan g[data-id="chest"]:visible').focus();
  await page.keyboard.press("Shift+ArrowUp");
  await page.keyboard.press("Shift+ArrowRight");
  await page.keyboard.press("Enter");
  // Seen from the right the front is on the right.
  assert.equal(spot(await app.fileBecomes((text) => text !== first)), "1600 mm, 600 mm, 100 mm");
  await page.locator("#chosen-name").waitFor();
  assert.match(page.url(), /side=right/);
});

story("a pick shows where it may stand", { project }, async ({ page }) => {
  await page.goto("/layout");
  await thing(page, "chest").locator(".body").click();
  await page.locator("#floor-plan g[data-kind=zone]:visible").waitFor();
  assert.match(await page.locator(".zone-words").innerText(), /may be .+ to .+ behind the front wall/);
  await page.getByRole("link", { name: "Close Tool chest" }).click();
  await page.locator("#chosen-name").waitFor({ state: "detached" });
});

story("a finger drags on a phone, and the tongue stays in sight", { project, size: PHONE }, async ({ app, page }) => {
  await page.goto("/layout");
  const first = await app.read(), at = await middle(page, "chest"), metre = await pixels(page);
  const client = await page.context().newCDPSession(page);
  const touch = (type, x, y) => client.send("Input.dispatchTouchEvent", { type, touchPoints: type === "touchEnd" ? [] : [{ x, y }] });
  await touch("touchStart", at.x, at.y);
  for (let step = 1; step <= 8; step++) await touch("touchMove", at.x, at.y - (step / 8) * 0.5 * metre);
  await becomes(page, () => {
    const box = document.querySelector("#tongue").getBoundingClientRect();
    return document.body.classList.contains("holding") && box.top >= 0 && box.bottom <= innerHeight;
  }, undefined, "the tongue is in sight while a finger drags");
  await touch("touchEnd");
  const after = await app.fileBecomes((text) => text !== first);
  // On a phone the front is at the top.
  assert.ok(Math.abs(numbers(spot(after))[0] - 1200) < 40, spot(after));
});

story("without a script, fields and buttons do the same", { project, javaScriptEnabled: false }, async ({ app, page }) => {
  const first = await app.read();
  const pressed = (button) => Promise.all([page.waitForEvent("load"), button.click()]);
  await page.goto("/layout?item=chest");
  await page.getByLabel("From front wall").fill("2 m");
  await pressed(page.getByRole("button", { name: "Save" }));
  assert.match(await app.read(), /spot = "2 m, 600 mm, 0 mm" # where it stands/);
  assert.equal(await page.getByLabel("From front wall").inputValue(), "2000 mm");
  await pressed(page.getByRole("button", { name: /Put it on the floor.*Crate/ }));
  assert.ok(spot(await app.read(), "crate"));
  await pressed(page.getByRole("button", { name: /^Undo/ }));
  await pressed(page.getByRole("button", { name: /^Undo/ }));
  assert.equal(await app.read(), first);
});

story("from an empty file to a trailer in two presses", { project: { text: "wainwright = 1\n" } }, async ({ app, page }) => {
  await page.goto("/layout");
  await page.getByRole("button", { name: /^Start from a typical/ }).first().click();
  await page.locator("#floor-plan svg.drawing:visible").waitFor();
  await app.fileBecomes((text) => /empty_mass/.test(text));
  await page.locator("#tongue").waitFor();
});

story("a better layout is found, made and taken back", {}, async ({ app, page }) => {
  await page.goto("/layout");
  const first = await app.read(), before = await share(page);
  await page.getByRole("link", { name: "Find a better layout" }).click();
  await page.getByRole("button", { name: "Make these moves" }).click({ timeout: 60_000 });
  await page.waitForURL((url) => url.pathname === "/layout");
  assert.notEqual(await share(page), before);
  await app.fileBecomes((text) => text !== first);
  await press(page, "#undo");
  assert.equal(await app.fileBecomes((text) => text === first), first);
});

const PLACES = ["/layout", "/layout?item=tools&small=shown", "/layout/road", "/layout/hold", "/layout/weigh"];
for (const theme of THEMES) {
  for (const size of [DESKTOP, PHONE]) {
    story(`the pages of the layout are sound, ${theme}, ${size.width} wide`, { size, theme }, async ({ page }) => {
      for (const place of PLACES) {
        await page.goto(place);
        await page.locator("details").evaluateAll((all) => all.forEach((one) => (one.open = true)));
        assert.deepEqual(await violations(page), [], place);
        assert.deepEqual(await overflow(page), { over: 0, wide: [] }, place);
      }
    });
  }
}
