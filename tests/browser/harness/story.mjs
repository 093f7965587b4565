// One story: a program of its own, a page that watches itself, and a picture when it fails.
// Not here: what happens in a story.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { App } from "./app.mjs";
import { openBrowser, openPage } from "./browser.mjs";
import { picture } from "./pages.mjs";

let browser;
before(async () => {
  browser = await openBrowser();
});
after(() => browser?.close());

/**
 * Runs `tell({ app, page, another, faults })` as a test. `project` goes to App.start, the rest of
 * the options to openPage; `another()` opens a second page on the same program.
 */
export function story(name, { project, expected = [], ...options }, tell) {
  test(name, async () => {
    const app = await App.start(project);
    const opened = [];
    const another = async (more = {}) => {
      const one = await openPage(browser, app, { ...options, ...more });
      opened.push(one);
      return one.page;
    };
    try {
      const page = await another();
      try {
        await tell({ app, page, another });
      } catch (error) {
        await page.screenshot({ path: picture(`failed-${name.replaceAll(/[^a-z0-9]+/gi, "-")}`), fullPage: true }).catch(() => {});
        throw error;
      }
      const faults = opened.flatMap((one) => one.faults);
      assert.deepEqual(faults.filter((fault) => !expected.some((known) => known.test(fault))), []);
    } finally {
      for (const one of opened) await one.close();
      await app.stop();
    }
  });
}

/** Waits until `check()` holds on the page without loading it again. */
export async function becomes(page, check, argument, what) {
  await page.waitForFunction(check, argument, { timeout: 15_000 }).catch(() => {
    throw new Error(`the page never came to this: ${what}`);
  });
}

/** Presses undo or redo and waits until the page shows the project after it. */
export async function press(page, button) {
  const revision = await page.evaluate(() => document.body.dataset.revision);
  await page.locator(button).click();
  await becomes(page, (before) => document.body.dataset.revision !== before, revision, `the page after ${button}`);
}

/** The keys of all findings on the page. */
export function findings(page) {
  return page.locator("article[data-finding]").evaluateAll((all) => all.map((one) => one.dataset.finding));
}

/** Lines that differ, as [number, before, after]; the number of lines must be the same. */
export function changedLines(before, after) {
  const [old, now] = [before.split("\n"), after.split("\n")];
  assert.equal(now.length, old.length, "number of lines");
  return old.flatMap((line, index) => (line === now[index] ? [] : [[index + 1, line, now[index]]]));
}
