// Every page, in every size and both themes: no sideways scrolling, nothing that breaks the
// accessibility rules, no request to anywhere else, one heading. Pictures go to target/screens.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { App } from "../harness/app.mjs";
import { violations } from "../harness/access.mjs";
import { DESKTOP, PHONE, SIZES, THEMES, openBrowser, openPage, overflow } from "../harness/browser.mjs";
import { INNER_PAGES, PAGES, picture } from "../harness/pages.mjs";

let app, browser;
before(async () => {
  app = await App.start();
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await app?.stop();
});

for (const [name, address] of Object.entries(PAGES)) check(name, address, SIZES);
for (const [name, address] of Object.entries(INNER_PAGES)) check(name, address, { phone: PHONE, desktop: DESKTOP });

function check(name, address, sizes) {
  for (const [place, size] of Object.entries(sizes)) {
    for (const theme of THEMES) {
      test(`${name} on a ${place}, ${theme}`, async () => {
        const { page, faults, close } = await openPage(browser, app, { size, theme });
        try {
          await page.goto(address);
          await page.screenshot({ path: picture(`${name}-${place}-${theme}`), fullPage: true });
          assert.equal(await page.locator("h1").count(), 1, "one main heading");
          assert.deepEqual(await violations(page), []);
          assert.deepEqual(await overflow(page), { over: 0, wide: [] });
          assert.deepEqual(faults, []);
        } finally {
          await close();
        }
      });
    }
  }
}

test("the two themes are two", async () => {
  const background = async (theme) => {
    const { page, close } = await openPage(browser, app, { theme });
    await page.goto("/");
    const colours = await page.evaluate(() => [document.body, document.documentElement].map((one) => getComputedStyle(one).backgroundColor));
    await close();
    const colour = colours.find((one) => !/^rgba\(.*, 0\)$/.test(one)) ?? "none at all";
    return (colour.match(/\d+/g)?? []).slice(0, 3).reduce((sum, part) => sum + Number(part), 0);
  };
  const light = await background("light");
  const dark = await background("dark");
  assert.ok(light > 600 && dark < 200, `background of the light theme ${light}, of the dark one ${dark} (0 black, 765 white)`);
});
