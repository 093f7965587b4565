// Accessibility rules, checked on the page as it is drawn. Not here: which pages.

import axe from "axe-core";

/** Every violation of the accessibility rules on this page, one line each. */
export async function violations(page) {
  // Evaluated rather than loaded, because the pages allow no foreign script.
  await page.evaluate(axe.source);
  const result = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ["violations"] }));
  return result.violations.flatMap((rule) =>
    rule.nodes.map((node) => `${rule.impact} ${rule.id}: ${node.target.join(" ")}: ${node.failureSummary?.split("\n")[1]?.trim() ?? ""}`),
  );
}
