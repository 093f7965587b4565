// The pages of the app that are looked at, in every size and both themes.

import { join } from "node:path";
import { ROOT } from "./app.mjs";

export const PAGES = {
  overview: "/",
  wiring: "/wiring",
  circuits: "/circuits",
  rules: "/rules",
  bench: "/bench",
  file: "/file",
};

/** Where the picture of a page goes. */
export function picture(name) {
  return join(ROOT, "target", "screens", `${name}.png`);
}
