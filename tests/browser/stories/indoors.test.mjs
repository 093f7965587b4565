// What the lined box is like to live in; a device is moved on the face of its cabinet; the face comes on paper in true size.

import assert from "node:assert/strict";
import { inflateSync } from "node:zlib";
import { violations } from "../harness/access.mjs";
import { DESKTOP, PHONE, THEMES, overflow } from "../harness/browser.mjs";
import { becomes, changedLines, press, story } from "../harness/story.mjs";

const BOX = `[project]
name = "Small one"
units = "metric"

[trailer]
inside_length = "3 m"
inside_width = "1.8 m"
inside_height = "1.9 m"
`;

/** A round and a square hole in a face of 600 mm by 400 mm inside. */
const CABINET = `${BOX}
[item.meter]
kind = "load"
label = "Battery meter"
power = "1 W"
size = "70 mm x 30 mm x 70 mm"
spot = "400 mm, 270 mm, 500 mm"
mounted_on = "face"
hole_width = "52.3 mm"
hole_round = true

[item.panel]
kind = "load"
label = "Switch panel"
power = "1 W"
size = "150 mm x 30 mm x 90 mm"
spot = "600 mm, 270 mm, 450 mm"
mounted_on = "face"
hole_width = "120 mm"
hole_height = "60 mm"

[cabinet.electrics]
label = "Electrics"
holds = ["meter", "panel"]
spot = "300 mm, 0 mm, 300 mm"
size = "600 mm x 300 mm x 400 mm"
faces = "right"
board = "12 mm"
`;

const spotOf = (text, item) => text.split(`[item.${item}]`)[1].match(/spot = "(.*)"/)[1].match(/-?[\d.]+/g).map(Number);
const body = (page, id) => page.locator(`#face-plan .for-wide g[data-id="${id}"] .body`);

story("from nothing to the air of a night", { project: { text: BOX } }, async ({ app, page }) => {
  await page.goto("/lining/air");
  await page.getByRole("link", { name: "Say who sleeps in it, and how cold it gets" }).click();
  await page.waitForURL((url) => url.pathname === "/edit/living");
  await page.locator("#input-people").fill("2");
  await page.locator("#input-winter_air, #input-winter-air").first().fill("-10 °C");
  await page.locator("main form").getByRole("button", { name: "Save", exact: true }).click();
  await page.waitForURL((url) => url.pathname === "/lining/air");
  await page.locator("#verdicts").waitFor();
  assert.match(await page.locator("#warm").innerText(), /no heater[\s\S]*W leave on the coldest night: -?−?10/);
  assert.match(await page.locator("#sleep-air").innerText(), /ppm of carbon dioxide/);
  assert.match(await app.read(), /\[living\]\npeople = 2/);
});

story("a side is chosen, cut through, and what leaves adds up", {}, async ({ page }) => {
  await page.goto("/lining/air");
  await page.getByRole("group", { name: "Side" }).getByRole("link", { name: "Ceiling" }).click();
  await becomes(page, () => document.querySelector("#wall-heading")?.textContent.startsWith("Ceiling"), undefined, "the ceiling");
  const plies = await page.locator("#wall .for-wide .ply").count();
  assert.equal(await page.locator(".layer-list tbody tr").count(), plies);
  const watts = (text) => Number(text.replace(/[^\d.]/g, "")) * (/kW/.test(text) ? 1000 : 1);
  const bars = (await page.locator("#leaving .energy-value").allInnerTexts()).map(watts);
  const total = watts(await page.locator("#leaving p b").first().innerText());
  const sum = bars.reduce((one, other) => one + other, 0);
  // Each figure is rounded to three digits.
  assert.ok(Math.abs(sum - total) < 0.01 * total + bars.length * 0.5, `${sum} of ${total}`);
  assert.deepEqual([...bars].sort((one, other) => other - one), bars, "largest first");
  for (const heading of ["Air through the night", "Where heat comes from on a sunny day"]) await page.getByRole("heading", { name: heading }).waitFor();
});

story("a device is dragged on the face, undone, moved by keys, buttons and fields", { project: { text: CABINET } }, async ({ app, page }) => {
  await page.goto("/lining/cabinet");
  const first = await app.read();
  const mm = await page.locator("#face-plan .for-wide svg").evaluate((svg) => Number(svg.dataset.mmPerUnit) / svg.getScreenCTM().a);
  const box = await body(page, "meter").boundingBox();
  const at = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  await page.mouse.move(at.x + 100 / mm, at.y - 50 / mm, { steps: 6 });
  assert.equal(await app.read(), first, "nothing is changed before it is let go");
  await page.mouse.up();
  const dragged = await app.fileBecomes((text) => text !== first);
  assert.equal(changedLines(first, dragged).length, 1);
  // Who looks at a face that looks right has the front at the right hand.
  const [along, across, up] = spotOf(dragged, "meter");
  assert.ok(Math.abs(along - 300) <= 6 && across === 270 && Math.abs(up - 550) <= 6, `${along}, ${across}, ${up}`);
  await page.locator("#chosen-name").waitFor();
  await press(page, "#undo");
  assert.equal(await app.fileBecomes((text) => text === first), first);
  const panel = page.locator('#face-plan .for-wide g[data-id="panel"]');
  await panel.focus();
  await page.keyboard.press("ArrowUp");
  await page.keyboard.press("Escape");
  assert.equal(await panel.getAttribute("transform"), null);
  await page.keyboard.press("Shift+ArrowUp");
  await page.keyboard.press("Enter");
  const lifted = await app.fileBecomes((text) => text !== first);
  assert.deepEqual(spotOf(lifted, "panel"), [600, 270, 500]);
  await page.getByRole("heading", { name: "Switch panel" }).waitFor();
  await page.locator('.face-steps button[value="left"]').click();
  const left = await app.fileBecomes((text) => text !== lifted);
  assert.deepEqual(spotOf(left, "panel"), [605, 270, 500]);
  await becomes(page, () => document.querySelector("#face-x").value === "145 mm", undefined, "the place after the step");
  await page.locator("#face-x").fill("20 mm");
  await page.locator("#face-y").fill("30 mm");
  await page.getByRole("button", { name: "Put it there" }).click();
  const typed = await app.fileBecomes((text) => text !== left);
  assert.deepEqual(spotOf(typed, "panel"), [730, 270, 330]);
});

story("without the script a device is moved by its fields, and nonsense is refused", { project: { text: CABINET }, javaScriptEnabled: false, expected: [/422/] }, async ({ app, page }) => {
  await page.goto("/lining/cabinet?item=meter");
  const first = await app.read();
  await page.locator("#face-x").fill("somewhere");
  await page.getByRole("button", { name: "Put it there" }).click();
  await page.getByRole("heading", { name: "Not moved" }).waitFor();
  assert.equal(await app.read(), first);
  await page.getByRole("link", { name: "Back" }).click();
  await page.locator("#face-x").fill("265 mm");
  await page.getByRole("button", { name: "Put it there" }).click();
  const after = await app.fileBecomes((text) => text !== first);
  assert.deepEqual(spotOf(after, "meter"), [565, 270, 500]);
});

story("two devices in the same place are marked with words", { project: { text: CABINET.replace("600 mm, 270 mm, 450 mm", "420 mm, 270 mm, 480 mm") } }, async ({ page }) => {
  await page.goto("/lining/cabinet");
  assert.equal(await page.locator("#face-plan .for-wide .face-overlap").count(), 1);
  assert.match(await page.locator("#face-plan .for-wide").textContent(), /same place/);
  assert.match(await page.locator("#checks").innerText(), /Battery meter and Switch panel are in the same place/);
});

/** Straight lines of the pages of a paper: length and direction [pt], with every transformation applied. */
function lines(paper) {
  const all = [];
  for (let at = paper.indexOf("stream"); at >= 0; at = paper.indexOf("stream", at + 6)) {
    if (paper.toString("latin1", at - 3, at) === "end") continue;
    const start = at + (paper[at + 6] === 13 ? 8 : 7);
    let text;
    try {
      text = inflateSync(paper.subarray(start, paper.indexOf("endstream", start))).toString("latin1");
    } catch {
      continue;
    }
    let now = [1, 0, 0, 1, 0, 0], from = null;
    const kept = [], numbers = [];
    const put = (x, y) => [now[0] * x + now[2] * y + now[4], now[1] * x + now[3] * y + now[5]];
    for (const word of text.split(/\s+/)) {
      if (/^[-+]?[\d.]+$/.test(word)) { numbers.push(Number(word)); continue; }
      if (word === "q") kept.push(now);
      else if (word === "Q") now = kept.pop() ?? now;
      else if (word === "cm") {
        const [a, b, c, d, e, f] = numbers.slice(-6), n = now;
        now = [n[0] * a + n[2] * b, n[1] * a + n[3] * b, n[0] * c + n[2] * d, n[1] * c + n[3] * d, n[0] * e + n[2] * f + n[4], n[1] * e + n[3] * f + n[5]];
      } else if (word === "m") from = put(...numbers.slice(-2));
      else if (word === "l" && from) {
        const to = put(...numbers.slice(-2));
        all.push([to[0] - from[0], to[1] - from[1]]);
        from = to;
      }
      numbers.length = 0;
    }
  }
  return all;
}

for (const choice of ["letter", "a4"]) {
  story(`the template is true to a hundredth on ${choice}`, { project: { text: CABINET } }, async ({ page }) => {
    await page.goto(`/print/cabinet?id=electrics&paper=${choice}`);
    const sheets = await page.locator("figure.paper").count();
    assert.ok(sheets >= 4, `${sheets}`);
    const paper = await page.pdf({ preferCSSPageSize: true, printBackground: true });
    assert.equal(paper.toString("latin1").match(/\/Type\s*\/Page\b/g).length, sheets);
    // 100 mm are 283.465 points; one bar each way on each page.
    const bars = lines(paper).filter(([x, y]) => Math.abs(Math.hypot(x, y) - 283.465) < 0.03);
    assert.equal(bars.filter(([, y]) => Math.abs(y) < 0.01).length, sheets, "level bars");
    assert.equal(bars.filter(([x]) => Math.abs(x) < 0.01).length, sheets, "upright bars");
  });
}

story("holes are on the template where the project has them", { project: { text: CABINET } }, async ({ page }) => {
  await page.goto("/print/cabinet?paper=a4");
  // On the first page the board's upper left corner is 4 mm inside of the window, which begins at 18 mm and 10 mm.
  const found = await page.locator("figure.paper svg.drawing").evaluateAll((all) => all.map((svg) => {
    const edge = svg.querySelector(".edge-line"), at = (one, name) => Number(one.getAttribute(name)) / 10;
    const circle = svg.querySelector('[data-cut="meter"] .cut-line'), rect = svg.querySelector('[data-cut="panel"] .cut-line');
    const foot = at(edge, "y") + at(edge, "height");
    return [at(circle, "cx") - at(edge, "x"), foot - at(circle, "cy"), at(circle, "r"),
      at(rect, "x") - at(edge, "x"), foot - at(rect, "y") - at(rect, "height"), at(rect, "width"), at(rect, "height")];
  }));
  // Seen from the right: the cabinet's right edge is at 300 mm from the front wall; the board is 12 mm thick.
  const meter = [900 - (400 + 35) + 12, 500 + 35 - 300 + 12, 52.3 / 2];
  const panel = [900 - (600 + 75) - 60 + 12, 450 + 45 - 30 - 300 + 12, 120, 60];
  for (const one of found) one.forEach((value, index) => assert.ok(Math.abs(value - [...meter, ...panel][index]) < 0.1, `${one}`));
});

const PLACES = ["/lining/air", "/lining/air?side=roof", "/lining/cabinet", "/lining/cabinet?item=inverter", "/print/cabinet"];
for (const theme of THEMES) {
  for (const size of [DESKTOP, PHONE]) {
    story(`air, damp and cabinet are sound, ${theme}, ${size.width} wide`, { size, theme }, async ({ page }) => {
      for (const place of PLACES) {
        await page.goto(place);
        await page.locator("details").evaluateAll((all) => all.forEach((one) => (one.open = true)));
        assert.deepEqual(await violations(page), [], place);
        assert.deepEqual(await overflow(page), { over: 0, wide: [] }, place);
      }
    });
  }
}
for (const [name, text] of [["nothing", ""], ["a box alone", BOX], ["a cabinet with holes", CABINET]]) {
  story(`air and cabinet are sound with ${name}`, { project: { text }, size: PHONE }, async ({ page }) => {
    for (const place of ["/lining/air", "/lining/cabinet", "/print/cabinet"]) {
      await page.goto(place);
      assert.deepEqual(await violations(page), [], place);
      assert.deepEqual(await overflow(page), { over: 0, wide: [] }, place);
    }
  });
}
