// One browser for a test file, and pages that watch themselves: no request may leave this
// computer, no script may fail, no answer may be an error. Not here: the program under test.

import { chromium } from "playwright-core";

export const PHONE = { width: 390, height: 844 };
export const SMALL_PHONE = { width: 360, height: 740 };
export const DESKTOP = { width: 1280, height: 900 };
export const SIZES = { phone: PHONE, "small-phone": SMALL_PHONE, desktop: DESKTOP };
export const THEMES = ["light", "dark"];

const PROGRAM = process.env.CHROMIUM || "/usr/bin/chromium";
const AS_ROOT = process.getuid?.() === 0;

export function openBrowser() {
  return chromium.launch({
    executablePath: PROGRAM,
    chromiumSandbox: !AS_ROOT,
    args: [
      // Names are not looked up at all, so that nothing could leave even unseen.
      "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
      "--disable-dev-shm-usage",
      "--disable-gpu",
      "--font-render-hinting=none",
    ],
  });
}

/** A page of `app` with a list `faults` of everything that must not happen. */
export async function openPage(browser, app, { size = DESKTOP, theme = "light", touch = size !== DESKTOP, javaScriptEnabled = true } = {}) {
  const context = await browser.newContext({
    baseURL: app.origin,
    viewport: size,
    colorScheme: theme,
    hasTouch: touch,
    reducedMotion: "reduce",
    locale: "en-US",
    javaScriptEnabled,
  });
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  const faults = [];
  watch(page, app, faults);
  return { page, faults, close: () => context.close() };
}

function watch(page, app, faults) {
  const stays = (address) => address.startsWith(`${app.origin}/`) || /^(data|blob|about):/.test(address);
  page.on("request", (request) => {
    if (!stays(request.url())) faults.push(`request to ${request.url()}`);
  });
  page.on("websocket", (socket) => {
    if (!socket.url().startsWith(app.origin.replace("http", "ws"))) faults.push(`socket to ${socket.url()}`);
  });
  page.on("response", (response) => {
    if (response.status() >= 400) faults.push(`${response.status()} for ${response.url()}`);
  });
  page.on("pageerror", (error) => faults.push(`script failed: ${error.message}`));
  page.on("console", (message) => {
    if (message.type() === "error") faults.push(`console: ${message.text()}`);
  });
}

/** How much wider the page is than the screen, and what sticks out [CSS pixels]. */
export function overflow(page) {
  return page.evaluate(() => {
    const width = document.documentElement.clientWidth;
    const over = document.documentElement.scrollWidth - width;
    const inScroller = (element) => {
      for (let up = element.parentElement; up && up !== document.body; up = up.parentElement) {
        if (getComputedStyle(up).overflowX !== "visible") return true;
      }
      return false;
    };
    const wide = over <= 0 ? [] : [...document.querySelectorAll("body *")]
      .filter((element) => element.getBoundingClientRect().right > width + 0.5 && !inScroller(element))
      .slice(0, 5)
      .map((element) => element.outerHTML.slice(0, 120));
    return { over, wide };
  });
}
