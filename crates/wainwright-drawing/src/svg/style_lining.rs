//! The style rules of lined surfaces and cutting plans. Tints are mixed from the colours of the schematic, so that a page
//! overrides one set only.

pub(super) const LINING: &str = "\
.drawing .piece .body{fill:color-mix(in oklab,var(--watch) 9%,var(--panel));stroke:color-mix(in oklab,var(--ink) 55%,var(--edge));stroke-width:1}
.drawing .piece.done .body{fill:color-mix(in oklab,var(--calm) 20%,var(--panel));stroke-dasharray:3 2}
.drawing .piece.selected .body{stroke:var(--focus,var(--ink));stroke-width:3.4}
.drawing .piece .notch{fill:var(--paper);stroke:var(--bad);stroke-width:1.6}
.drawing .in-piece{paint-order:stroke;stroke:var(--paper);stroke-opacity:.75;stroke-width:3px;stroke-linejoin:round}
.drawing .gap-in-it{fill:var(--paper);stroke:var(--ink);stroke-width:1.4}
.drawing .left-out{fill:color-mix(in oklab,var(--bad) 26%,var(--paper));stroke:var(--bad);stroke-width:1}
.drawing .joint{fill:none;stroke:var(--ink);stroke-width:3}
.drawing .ripped{fill:none;stroke:var(--watch);stroke-width:3;stroke-dasharray:7 3}
.drawing .cut-piece{fill:color-mix(in oklab,var(--watch) 9%,var(--panel));stroke:var(--ink);stroke-width:1}
.drawing .offcut{fill:var(--paper);stroke:var(--edge);stroke-width:1}
.drawing .offcut.keep{fill:color-mix(in oklab,var(--calm) 16%,var(--paper));stroke:var(--calm)}
.drawing .hatch{fill:none;stroke:var(--edge);stroke-opacity:.55;stroke-width:.8}
.drawing .saw-dust{fill:var(--ink);fill-opacity:.75}
.drawing .bar-frame{fill:none;stroke:var(--ink);stroke-width:1.4}
.drawing .saw-cut{fill:none;stroke:var(--ink);stroke-width:1.8}
.drawing .cut-number{fill:var(--ink);stroke:var(--paper);stroke-width:1}
.drawing .in-cut{fill:var(--paper)}
.drawing .tick{fill:var(--paper);stroke:var(--ink);stroke-width:1.3}
";
