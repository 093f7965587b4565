//! The style rules of walls cut through, curves, faces of cabinets and sheets in true size. Tints are mixed from the
//! colours of the schematic, so that a page overrides one set only.

pub(super) const INDOORS: &str = "\
.drawing .ply{stroke:var(--edge);stroke-width:.8;fill:var(--panel)}
.drawing .ply.skin{fill:var(--soft);stroke:var(--soft)}
.drawing .ply.foam{fill:color-mix(in oklab,var(--watch) 24%,var(--paper))}
.drawing .ply.battens,.drawing .ply.planks,.drawing .ply.sheets{fill:color-mix(in oklab,var(--fuse-tan) 48%,var(--paper))}
.drawing .ply.film{fill:var(--scale-0);stroke:var(--scale-0)}
.drawing .ply.air{fill:var(--paper);stroke-dasharray:3 3}
.drawing .through-halo{fill:none;stroke:var(--paper);stroke-width:6;stroke-linejoin:round}
.drawing .through{fill:none;stroke:var(--bad);stroke-width:2.6;stroke-linejoin:round}
.drawing .wet-line{fill:none;stroke:var(--scale-0);stroke-width:2;stroke-dasharray:4 3}
.drawing .drop{fill:var(--scale-0);stroke:var(--paper);stroke-width:1.2}
.drawing .one-of{fill:none;stroke-width:2.6;stroke-linejoin:round;stroke:var(--bad)}
.drawing .one-of.c1{stroke:var(--watch);stroke-dasharray:10 4}
.drawing .one-of.c2{stroke:var(--calm);stroke-dasharray:2 3}
.drawing .one-of.c3{stroke:var(--scale-0)}
.drawing .on-field text{paint-order:stroke;stroke:var(--paper);stroke-width:3px;stroke-linejoin:round}
.drawing .on-field.bad text{fill:var(--bad)}
.drawing .face-board{fill:color-mix(in oklab,var(--fuse-tan) 26%,var(--paper));stroke:var(--ink);stroke-width:1.6}
.drawing .face-inside{fill:none;stroke:var(--soft);stroke-width:1;stroke-dasharray:8 3 2 3}
.drawing .face-device .handle{fill:var(--paper);fill-opacity:0;stroke:none}
.drawing .face-device .body{fill:var(--panel);stroke:var(--ink);stroke-width:1.4}
.drawing .face-device.behind .body{fill-opacity:.62;stroke-dasharray:6 3}
.drawing .face-device.watch .body,.drawing .face-device.bad .body{stroke:var(--tone);stroke-width:2.4}
.drawing .face-device.selected .body{stroke:var(--focus,var(--scale-0));stroke-width:3.4}
.drawing .face-device:hover .body,.drawing .face-device:focus-visible .body{stroke-width:3}
.drawing .face-device.held .body{fill:color-mix(in oklab,var(--scale-0) 24%,var(--paper))}
.drawing .cut-out{fill:none;stroke:var(--scale-0);stroke-width:1.8;stroke-dasharray:5 3}
.drawing .face-overlap{fill:color-mix(in oklab,var(--bad) 40%,transparent);stroke:var(--bad);stroke-width:1.4;pointer-events:none}
.true-size-sheet text{fill:var(--ink);font-family:system-ui,sans-serif}
.true-size-sheet .edge-line{fill:none;stroke:var(--ink);stroke-width:3}
.true-size-sheet .inside-line{fill:none;stroke:var(--soft);stroke-width:2;stroke-dasharray:60 20 10 20}
.true-size-sheet .behind-line{fill:none;stroke:var(--edge);stroke-width:1.5;stroke-dasharray:12 12}
.true-size-sheet .cut-line{fill:none;stroke:var(--ink);stroke-width:2}
.true-size-sheet .waste{fill:var(--ink);fill-opacity:.07;stroke:none}
.true-size-sheet .centre-line{fill:none;stroke:var(--ink);stroke-width:1;stroke-dasharray:40 12 6 12}
.true-size-sheet .drill-line{fill:none;stroke:var(--ink);stroke-width:1.5}
.true-size-sheet .crosshair{fill:none;stroke:var(--ink);stroke-width:1.5}
.true-size-sheet .tile-edge{fill:none;stroke:var(--edge);stroke-width:1.5;stroke-dasharray:20 15}
.true-size-sheet .check-bar{fill:none;stroke:var(--ink);stroke-width:4}
.true-size-sheet .check-end{fill:none;stroke:var(--ink);stroke-width:2}
.true-size-sheet .middle{text-anchor:middle}
.true-size-sheet .end{text-anchor:end}
";
