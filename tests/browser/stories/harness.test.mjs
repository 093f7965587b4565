// The harness itself sees what it must see: a request to elsewhere, a failing script, a page that
// is too wide, and a control without a name. Without this the other stories could pass on nothing.

import assert from "node:assert/strict";
import { createServer } from "node:http";
import { after, before, test } from "node:test";
import { violations } from "../harness/access.mjs";
import { PHONE, openBrowser, openPage, overflow } from "../harness/browser.mjs";

const BAD = `<!doctype html><html lang="en"><title>bad</title><h1>bad</h1>
<div style="width:900px">wide</div><input type="text"><img src="http://example.test/spy.png" alt="">
<script>throw new Error("broken on purpose")</script></html>`;

let server, browser, app;
before(async () => {
  server = createServer((_, answer) => answer.setHeader("content-type", "text/html").end(BAD));
  await new Promise((done) => server.listen(0, "127.0.0.1", done));
  app = { origin: `http://127.0.0.1:${server.address().port}` };
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  server?.close();
  server?.closeAllConnections?.();
});

test("a bad page is seen to be bad", async () => {
  const { page, faults, close } = await openPage(browser, app, { size: PHONE });
  await page.goto("/");
  assert.ok(faults.some((fault) => fault.includes("example.test")), `${faults}`);
  assert.ok(faults.some((fault) => fault.includes("broken on purpose")), `${faults}`);
  assert.ok((await overflow(page)).over > 0);
  assert.ok((await violations(page)).some((line) => line.includes("label")));
  await close();
});
