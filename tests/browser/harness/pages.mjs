// The pages of the app that are looked at, in every size and both themes.

import { join } from "node:path";
import { ROOT } from "./app.mjs";

/** The main places. */
export const PAGES = {
  overview: "/",
  layout: "/layout",
  wiring: "/wiring",
  circuits: "/circuits",
  energy: "/energy",
  lining: "/lining",
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
  "energy-size": "/energy/size",
  "energy-weather": "/energy/climate",
  "trip-form": "/edit/trip/new-moon",
  "use-form": "/edit/use/laptop",
  settings: "/energy/settings",
  symptom: "/energy/symptom",
  "symptom-answered": "/energy/symptom?charger=shore&event=voltage-jumps&highest-cell=3.66+V&lowest-cell=3.38+V",
  "settings-paper": "/print/settings",
  "lining-piece": "/lining?side=right&layer=wall-planks&piece=12",
  "lining-ceiling": "/lining?side=roof",
  cutting: "/lining/cut",
  "layer-form": "/edit/layer/wall-planks",
  "tools-form": "/edit/tools",
  air: "/lining/air",
  "air-roof": "/lining/air?side=roof",
  cabinet: "/lining/cabinet",
  "cabinet-device": "/lining/cabinet?item=inverter",
  "cabinet-paper": "/print/cabinet",
  delete: "/delete/item/usb",
  "wire-tried": "/bench?size=10+AWG&length=10+ft&current=20+A&insulation=gxl&bundle=1&volts=12.8+V&air=",
};

/** Where the picture of a page goes. */
export function picture(name) {
  return join(ROOT, "target", "screens", `${name}.png`);
}
