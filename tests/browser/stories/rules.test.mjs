// From a finding to its rule and its working, and back.

import assert from "node:assert/strict";
import { story } from "../harness/story.mjs";

/** Opens what is folded away in a finding. */
const open = (card) => card.locator("summary").first().click();

story("a finding leads to its rule with reason, example, remedy and source", {}, async ({ page }) => {
  await page.goto("/");
  const card = page.locator("article[data-finding]").first();
  const rule = (await card.getAttribute("data-finding")).split(/[^a-z-]/)[0];
  await open(card);
  await card.getByRole("link", { name: /^Rule/ }).click();
  await page.waitForURL((url) => url.pathname === `/rules/${rule}`);
  for (const heading of ["What it finds", "Why it matters", "Example", "What to do", "Sources"]) {
    const section = page.locator("section", { has: page.getByRole("heading", { name: heading, exact: true }) });
    assert.ok((await section.innerText()).length > heading.length + 20, heading);
  }
});

story("a finding leads to the formula with its figures", {}, async ({ page }) => {
  await page.goto("/");
  const card = page.locator('article[data-finding="voltage-drop:item.fridge"]');
  await open(card);
  await card.getByRole("link", { name: /^Working/ }).click();
  await page.waitForURL((url) => url.pathname === "/finding");
  const section = page.locator("section", { has: page.getByRole("heading", { name: "How the number came about" }) });
  assert.match(await section.innerText(), /=.*\d.*V/s);
});

story("all rules are listed", {}, async ({ page }) => {
  await page.goto("/rules");
  assert.ok((await page.locator("[data-rule]").count()) >= 25);
});
