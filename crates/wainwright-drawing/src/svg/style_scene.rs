//! The style rules of scenes, single lines, sheets and cards. Tints are mixed
//! from the colours of the schematic, so that a page overrides one set only.

pub(super) const SCENES: &str = "\
.drawing .t-name{font-size:12px;font-weight:600}
.drawing .t-note{font-size:11px;fill:var(--soft)}
.drawing .t-name,.drawing .t-note{paint-order:stroke;stroke:var(--paper);stroke-opacity:.7;stroke-width:2.4px;stroke-linejoin:round}
.drawing .t-key{font-size:11px;font-weight:700}
.drawing .floor{fill:color-mix(in oklab,var(--panel) 55%,var(--paper))}
.drawing .walls{fill:color-mix(in oklab,var(--ink) 30%,var(--panel));fill-rule:evenodd}
.drawing .rib{fill:var(--ink)}
.drawing .rib.facing{fill:color-mix(in oklab,var(--edge) 26%,var(--paper))}
.drawing .beam{fill:none;stroke:var(--edge);stroke-width:5;stroke-linecap:round}
.drawing .ball{fill:var(--paper);stroke:var(--ink);stroke-width:1.8}
.drawing .wheel{fill:color-mix(in oklab,var(--ink) 42%,var(--paper));stroke:none}
.drawing .rim{fill:var(--panel)}
.drawing .ground{fill:none;stroke:var(--edge);stroke-width:1.2}
.drawing .axle{fill:none;stroke:var(--edge);stroke-width:1.4;stroke-dasharray:9 3 2 3}
.drawing .gap{fill:var(--paper)}
.drawing .jamb,.drawing .leaf{fill:none;stroke:var(--ink);stroke-width:1.6}
.drawing .arc{fill:none;stroke:var(--edge);stroke-width:1;stroke-dasharray:5 3}
.drawing .pane{fill:none;stroke:var(--ink);stroke-width:1.4}
.drawing .hole{fill:var(--paper);fill-opacity:.7;stroke:var(--ink);stroke-width:1.3}
.drawing .pane.dashed,.drawing .hole.dashed{stroke-dasharray:6 3}
.drawing .hole.dashed{fill-opacity:0}
.drawing .thing .body{fill:var(--panel);fill-opacity:.86;stroke:color-mix(in oklab,var(--ink) 45%,var(--edge));stroke-width:1.3}
.drawing .thing.watch .body,.drawing .thing.bad .body{stroke:var(--tone);stroke-width:2.2;fill:color-mix(in oklab,var(--tone) 9%,var(--panel))}
.drawing .thing.scaled .body{fill:color-mix(in oklab,var(--tone) 20%,var(--panel))}
.drawing .thing.off .body{stroke-dasharray:2 3}
.drawing .thing.dashed .body{fill-opacity:0;stroke:var(--edge);stroke-dasharray:7 4}
.drawing .thing.selected .body{stroke:var(--focus,var(--ink));stroke-width:3}
.drawing .thing:focus-visible .body,.drawing .thing:hover .body{stroke:var(--ink);stroke-width:2.4}
.drawing .thing[data-drag]{cursor:grab;touch-action:none}
.drawing .touch{fill:var(--paper);fill-opacity:0}
.drawing .alert{fill:var(--tone)}
.drawing .alert + .t-key{fill:var(--paper)}
.drawing .leader{fill:none;stroke:var(--soft);stroke-width:.9}
.drawing .sign{fill:var(--paper);stroke:var(--soft);stroke-width:1}
.drawing .zone .area{fill:var(--tone);fill-opacity:.07;stroke:var(--tone);stroke-width:1.2;stroke-dasharray:4 3}
.drawing .zone .hatching{fill:none;stroke:var(--tone);stroke-opacity:.42;stroke-width:1}
.drawing .zone:focus-visible .area{stroke-width:2.6}
.drawing .point .ring{fill:var(--paper);stroke:var(--tone);stroke-width:1.8}
.drawing .point .quarters,.drawing .point .spot,.drawing .point .stop{fill:var(--tone)}
.drawing .point .travel{fill:none;stroke:var(--tone);stroke-width:1.4;stroke-dasharray:3 2}
.drawing .point .spread{fill:var(--tone);fill-opacity:.14;stroke:var(--tone);stroke-width:1}
.drawing .point:focus-visible .ring{stroke:var(--ink);stroke-width:2.6}
.drawing .trunk .duct{fill:none;stroke:color-mix(in oklab,var(--edge) 38%,var(--paper));stroke-width:19;stroke-linejoin:round;stroke-linecap:round;stroke-opacity:.6}
.drawing .trunk.dashed .duct{stroke-opacity:.4}
.drawing .behind{fill:none;stroke:var(--soft);stroke-width:1;stroke-dasharray:6 5}
.drawing .trunk.selected .duct,.drawing .trunk:focus-visible .duct{stroke:var(--focus,var(--ink));stroke-opacity:.35}
.drawing .touch-line{fill:none;stroke:var(--paper);stroke-opacity:0;stroke-width:24}
.drawing .route .hit{stroke-width:9}
.drawing .route .wire{stroke-width:calc(.9px + var(--width)*.28px)}
.drawing .route.minus .wire{stroke-width:calc(.9px + var(--width)*.28px)}
.drawing .route .core{stroke:none}
.drawing .route.minus .wire{stroke-dasharray:7 2}
.drawing .route.selected .wire{stroke-width:calc(1.6px + var(--width)*.5px)}
.drawing .route.selected .halo{stroke:var(--focus,var(--ink));stroke-opacity:.35;stroke-width:9}
.drawing .route.watch .halo,.drawing .route.bad .halo{stroke-width:7}
.drawing .route.watch .wire,.drawing .route.bad .wire{stroke:var(--tone)}
.drawing .route .rise{fill:var(--paper);stroke:var(--colour);stroke-width:1.4}
.drawing .count{fill:var(--paper);stroke:var(--edge);stroke-width:1}
.drawing .extension{fill:none;stroke:var(--edge);stroke-width:.7}
.drawing .measure{fill:none;stroke:var(--soft);stroke-width:1}
.drawing .bar{fill:var(--paper);stroke:var(--ink);stroke-width:1}
.drawing .bar-full{fill:var(--ink)}
.drawing .opening:focus-visible .leaf,.drawing .opening:focus-visible .hole,.drawing .opening.selected .hole,.drawing .opening.selected .leaf{stroke:var(--focus,var(--ink));stroke-width:3}
.drawing .t-head{font-size:16px;font-weight:700}
.drawing .t-bold{font-weight:700}
.drawing .sheet-frame{fill:none;stroke:var(--ink);stroke-width:1.2}
.drawing .cut{fill:none;stroke:var(--edge);stroke-width:.5}
.drawing .spine{fill:var(--ink);fill-opacity:.8}
.drawing .slot{fill:var(--paper);stroke:var(--edge);stroke-width:1}
.drawing .way.watch .slot,.drawing .way.bad .slot{stroke:var(--tone);stroke-width:2.2}
.drawing .way.selected .slot{stroke:var(--focus,var(--ink));stroke-width:3}
.drawing .way:focus-visible .slot,.drawing .way:hover .slot{stroke:var(--ink);stroke-width:2}
.drawing .swatch{fill:var(--paper);stroke:var(--ink);stroke-width:1.1}
.drawing .swatch.empty{fill:none;stroke:var(--edge);stroke-dasharray:3 2}
.drawing .blade{fill:color-mix(in oklab,var(--edge) 60%,var(--paper));stroke:var(--soft);stroke-width:.8}
.drawing .blank{fill:var(--paper);stroke:none}
.drawing .item .frame{fill:var(--paper);fill-opacity:0;stroke:none}
.drawing .item.selected .frame{fill-opacity:0;stroke:var(--focus,var(--ink));stroke-width:2}
.drawing .item:hover .frame,.drawing .item:focus-visible .frame{fill:var(--ink);fill-opacity:.06}
.drawing .item.watch .sym,.drawing .item.bad .sym{stroke:var(--tone);stroke-width:2.2}
.drawing .item.off .sym{stroke:var(--off);stroke-dasharray:3 2}
";
