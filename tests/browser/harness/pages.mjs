// The pages of the app that are looked at, in every size and both themes.

import { join } from "node:path";
import { ROOT } from "./app.mjs";

/** The main places. */
export const PAGES = {
  overview: "/",
  layout: "/layout",
  wiring: "/wiring",
  circuits: "/circuits",
  rules: "/rules",
  bench: "/bench",
  file: "/file",
};

/** Pages behind them, in the demo. */
export const INNER_PAGES = {
  finding: "/finding?key=unfused-source-stretch:item.house",
  rule: "/rules/oversized-fuse",
  "wire-chosen": "/wiring?select=wire.bat-plus",
  "gear-chosen": "/wiring?select=item.block",
  "wire-form": "/edit/wire/bat-plus",
  "gear-form": "/edit/item/block",
  "state-form": "/edit/state/cooking",
  "trailer-form": "/edit/trailer",
  "new-gear": "/add/item",
  "new-wire": "/add/wire",
  "thing-chosen": "/layout?item=tools&side=right",
  road: "/layout/road",
  held: "/layout/hold",
  weighing: "/layout/weigh",
  better: "/layout/better",
  delete: "/delete/item/usb",
  "wire-tried": "/bench?size=10+AWG&length=10+ft&current=20+A&insulation=gxl&bundle=1&volts=12.8+V&air=",
};

/** Where the picture of a page goes. */
export function picture(name) {
  return join(ROOT, "target", "screens", `${name}.png`);
}
