// One wire or one joint without a project. The expected figures are worked out by hand here.

import assert from "node:assert/strict";
import { story } from "../harness/story.mjs";

story("the bench answers with figures a table confirms", {}, async ({ page }) => {
  await page.goto("/bench");
  await page.getByLabel(/^Size/).first().fill("10 AWG");
  await page.getByLabel(/^Length/).first().fill("10 ft");
  await page.getByLabel(/^Current/).first().fill("20 A");
  await page.locator("main form").first().getByRole("button").first().click();
  await page.waitForURL((url) => url.searchParams.get("current") === "20 A");
  const text = await page.locator("main").innerText();
  // ASTM B258: 5.261 mm²; copper of 0.017241 Ω·mm²/m at 20 °C: 3.277 mΩ/m at least, warm wire at most
  // a fifth more; 20 ft there and back, 20 A: 0.40 V to 0.48 V.
  const volts = [...text.matchAll(/(\d+\.\d+) (m?)V\b/g)].map(([, value, milli]) => Number(value) / (milli ? 1000 : 1));
  assert.ok(volts.some((drop) => drop >= 0.39 && drop <= 0.5), `drop in: ${text}`);
});
