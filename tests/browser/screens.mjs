// Pictures of all pages, phone and desktop, light and dark, to target/screens.

import { App } from "./harness/app.mjs";
import { DESKTOP, PHONE, THEMES, openBrowser, openPage } from "./harness/browser.mjs";
import { INNER_PAGES, PAGES, picture } from "./harness/pages.mjs";

const app = await App.start();
const browser = await openBrowser();
try {
  for (const theme of THEMES) {
    for (const [place, size] of Object.entries({ phone: PHONE, desktop: DESKTOP })) {
      const { page, close } = await openPage(browser, app, { size, theme });
      for (const [name, address] of Object.entries({ ...PAGES, ...INNER_PAGES })) {
        await page.goto(address);
        await page.screenshot({ path: picture(`${name}-${place}-${theme}`), fullPage: true });
      }
      await close();
    }
  }
} finally {
  await browser.close();
  await app.stop();
}
