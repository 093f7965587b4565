// A trip is judged from nothing; what helps is put in; sizes are compared; weather files are read.

import assert from "node:assert/strict";
import { violations } from "../harness/access.mjs";
import { DESKTOP, PHONE, THEMES, overflow } from "../harness/browser.mjs";
import { becomes, press, story } from "../harness/story.mjs";

const TEXT = `[project]
name = "Small one"

[item.house]
kind = "battery"
label = "House battery"
chemistry = "lfp"
capacity = "100 Ah"

[item.sun]
kind = "solar-module"
label = "Roof module"
power = "100 W"

[item.controller]
kind = "solar-controller"
label = "Controller"

[item.galley-light]
kind = "load"
label = "Galley light"
power = "12 W"
`;

/** Days of a year without a place of their own. */
const days = (months) => {
  const rows = ["date,ghi_kwh_m2,tmin_c,tmax_c"];
  for (let month = 1; month <= months; month += 1)
    for (let day = 1; day <= 28; day += 1) rows.push(`2025-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")},3.1,2,12`);
  return rows.join("\n");
};

const odds = (page) => page.locator("#verdict-heading").innerText();
/** The finer answer has come, so that figures stay as they are. */
const settled = (page) => becomes(page, () => document.querySelector("#verdict, #size-verdict") && !document.querySelector(".waiting"), undefined, "the finer odds");

story("from nothing to the odds of a trip", { project: { text: TEXT } }, async ({ app, page }) => {
  await page.goto("/energy");
  await page.getByLabel("A place with such weather").selectOption("denver-co");
  await page.getByRole("button", { name: "Use this place" }).click();
  await page.getByRole("link", { name: "Add a trip" }).click();
  await page.waitForURL((url) => url.pathname === "/add/trip");
  await page.locator("#input-begins").fill("2027-07-02");
  await page.getByRole("button", { name: "Add", exact: true }).click();
  await page.waitForURL((url) => url.pathname === "/energy");
  await page.locator("#verdict-heading").waitFor();
  assert.match(await odds(page), /trips? like this|Nothing can run out/);
  assert.match(await app.read(), /\[climate\.denver-co\]\nlabel = "Denver"\nlisted = "denver-co"/);
  await page.getByRole("button", { name: /Add typical hours/ }).click();
  const after = await app.fileBecomes((text) => text.includes("[use.galley-light]"));
  assert.match(after, /\[use\.galley-light\]\nof = "galley-light"\nper_day = "4 h"\nhours = \[18, 19, 20, 21\]/);
  await becomes(page, () => !document.querySelector("#unused"), undefined, "nothing is left out any more");
});

story("the demo trip says what runs out, when, and what helps", {}, async ({ app, page }) => {
  await page.goto("/energy?trip=new-moon");
  assert.match(await odds(page), /^In .* trips like this the battery runs empty\.$|^In every trip/);
  for (const heading of ["How full the battery is", "What helps most", "Where energy comes from and goes", "The same trip in other months", "What this rests on"])
    await page.getByRole("heading", { name: heading }).waitFor();
  await page.locator("#how-energy > summary").click();
  assert.match(await page.locator("#how-energy .working").innerText(), /Wilson/);
  assert.match(await page.locator("#year-words").innerText(), /your trip is in October/);
  await settled(page);
  assert.ok(Number(await page.locator("#verdict-heading").getAttribute("data-runs")) >= 5000, "the finer odds are from many trips");
  const first = await app.read();
  const button = page.getByRole("button", { name: /^Put it in the project/ }).first();
  await page.locator("#no-difference").evaluateAll((all) => all.forEach((one) => (one.open = true)));
  await button.click();
  const after = await app.fileBecomes((text) => text !== first);
  assert.match(after, /shore_days|tap_days|tilt|inverter-on/);
  await becomes(page, () => !document.querySelector("#undo").disabled, undefined, "the change can be taken back");
  await press(page, "#undo");
  assert.equal(await app.fileBecomes((text) => text === first), first);
});

story("an edit elsewhere leaves the odds as they were worked out", {}, async ({ app, page }) => {
  await page.goto("/energy");
  await settled(page);
  const before = await page.locator("#verdict").innerHTML();
  await app.editOutside((text) => text.replace('label = "High plain"', 'label = "High plains"'));
  await becomes(page, () => [...document.querySelectorAll("#rests a")].some((one) => one.textContent === "High plains"), undefined, "the new name");
  assert.equal(await page.locator("#verdict").innerHTML(), before);
});

story("sizes are compared, the smallest and the present one marked", {}, async ({ page }) => {
  await page.goto("/energy");
  await page.getByRole("link", { name: "How much" }).click();
  await page.waitForURL((url) => url.pathname === "/energy/size");
  await page.locator("#size-verdict").waitFor();
  assert.equal(await page.locator("#size-chart .for-wide g.cell.now").count(), 1);
  const cells = await page.locator("#size-chart .for-wide g.cell").count();
  assert.equal(await page.locator("#size-table tbody tr").count(), cells);
  const marks = await page.locator("#size-table > table .mark").allInnerTexts();
  assert.ok(marks.includes("now") && marks.includes("smallest that holds"), marks.join(", "));
});

story("a weather file without a place is read, placed and put in", { project: { text: TEXT } }, async ({ app, page }) => {
  await page.goto("/energy/climate");
  await page.locator("#weather-choose").setInputFiles({ name: "days.csv", mimeType: "text/csv", buffer: Buffer.from(days(12)) });
  await becomes(page, () => document.querySelector("#weather-text").value.startsWith("date,"), undefined, "the text of the file");
  await page.getByRole("button", { name: "Read it" }).click();
  await page.waitForURL((url) => url.searchParams.has("read"));
  await page.getByLabel("Latitude, north positive").fill("39.7 deg");
  await page.getByLabel("Longitude, east positive").fill("-105.2 deg");
  await page.locator("#weather-read").getByRole("button", { name: "Use this place" }).click();
  await page.getByRole("button", { name: "Put it in the project" }).click();
  const after = await app.fileBecomes((text) => text.includes("[climate."));
  assert.match(after, /latitude = "39\.700 deg"/);
  assert.equal(after.match(/clearness = \[(.*)\]|sun = \[(.*)\]/)[0].split(",").length, 12);
  await page.getByRole("heading", { name: "From a weather file" }).waitFor();
});

story("a file that is none is refused with its line", { project: { text: TEXT } }, async ({ app, page }) => {
  await page.goto("/energy/climate");
  await page.locator("#weather-text").fill("something else");
  await page.getByRole("button", { name: "Read it" }).click();
  await page.getByRole("heading", { name: "This file cannot be used" }).waitFor();
  assert.match(await page.locator(".weather-faults").innerText(), /Line 1: found 'something else'/);
  assert.equal(await app.read(), TEXT);
  await page.locator("#weather-text").fill(days(11));
  await page.getByRole("button", { name: "Read it" }).click();
  await page.waitForURL((url) => url.searchParams.get("read") === "2");
  await page.getByLabel("Latitude, north positive").fill("200 deg");
  await page.locator("#weather-read").getByRole("button", { name: "Use this place" }).click();
  await page.getByText("latitude is −90° to 90°").waitFor();
});

story("the row of pages shows where one is on a phone", { size: PHONE }, async ({ page }) => {
  await page.goto("/file");
  const seen = await page.locator('#top nav [aria-current="page"]').evaluate((one) => {
    const box = one.getBoundingClientRect();
    return box.left >= 0 && box.right <= innerWidth && box.width >= 40;
  });
  assert.ok(seen);
});

const PLACES = ["/energy", "/energy/size", "/energy/climate"];
for (const theme of THEMES) {
  for (const size of [DESKTOP, PHONE]) {
    story(`trip, sizes and weather are sound, ${theme}, ${size.width} wide`, { size, theme }, async ({ page }) => {
      for (const place of PLACES) {
        await page.goto(place);
        await page.locator("details").evaluateAll((all) => all.forEach((one) => (one.open = true)));
        assert.deepEqual(await violations(page), [], place);
        assert.deepEqual(await overflow(page), { over: 0, wide: [] }, place);
      }
    });
  }
}
for (const [name, text] of [["nothing", ""], ["a battery alone", TEXT]]) {
  story(`the first steps are sound with ${name}`, { project: { text }, size: PHONE }, async ({ page }) => {
    for (const place of PLACES) {
      await page.goto(place);
      assert.deepEqual(await violations(page), [], place);
      assert.deepEqual(await overflow(page), { over: 0, wide: [] }, place);
    }
  });
}
