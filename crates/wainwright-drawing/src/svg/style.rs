//! The style rules: all colours are custom properties, here and nowhere else.

use super::style_chart::CHARTS;
use super::style_indoors::INDOORS;
use super::style_lining::LINING;
use super::style_scene::SCENES;
use crate::legend::SWATCHES;

/// Rules for every drawing of this crate, with default colours for light and
/// dark. A page that shows drawings includes this once, and may override the
/// custom properties on `.drawing`.
pub fn stylesheet() -> String {
    let mut rules = format!("{COLOURS}{SHAPES}{SCENES}{CHARTS}{LINING}{INDOORS}");
    for step in 0..=10 {
        let share = step * 10;
        rules.push_str(&format!(
            ".drawing .s{step}{{--tone:color-mix(in oklab,var(--scale-1) {share}%,var(--scale-0))}}\n"
        ));
    }
    for name in SWATCHES {
        let name = name.replace(' ', "-");
        rules.push_str(&format!(
            ".drawing .fuse-{name}{{fill:var(--fuse-{name})}}\n"
        ));
    }
    rules
}

const COLOURS: &str = "\
.drawing{--ink:#1d2530;--soft:#5b6675;--paper:#fff;--panel:#f5f7fa;--edge:#9aa5b3;--plus:#c03221;--minus:#2b3f63;\
--calm:#2c7a4b;--watch:#a86400;--bad:#c2002f;--off:#8a93a0;--scale-0:#2f6fb0;--scale-1:#c2002f;\
--fuse-black:#2b2b2b;--fuse-grey:#8d9196;--fuse-violet:#7d4fa8;--fuse-pink:#f0a3b8;--fuse-tan:#d2a86e;--fuse-brown:#7c4a26;\
--fuse-red:#d0342c;--fuse-light-blue:#4fa3dc;--fuse-blue:#2b6cc4;--fuse-yellow:#f2cf1d;--fuse-white:#f4f1e6;--fuse-clear:#f4f1e6;\
--fuse-natural:#f4f1e6;--fuse-light-green:#6cc069;--fuse-green:#2f9e57;--fuse-blue-green:#1f9c94;--fuse-orange:#ee8a1d;--fuse-amber:#ee8a1d}
@media (prefers-color-scheme:dark){.drawing{--ink:#e6ebf2;--soft:#a3afbf;--paper:#12161c;--panel:#1c222b;--edge:#556274;\
--plus:#ff7d6b;--minus:#9dbcf2;--calm:#5cc48a;--watch:#f0b24a;--bad:#ff5f7e;--off:#6c7684;--scale-0:#6aa9ee;--scale-1:#ff5f7e}}
";

const SHAPES: &str = "\
.drawing{background:var(--paper);color:var(--ink);font-family:system-ui,sans-serif;font-size:11px}
.drawing text{fill:var(--ink);stroke:none}
.drawing .title{font-size:13px;font-weight:600}
.drawing .fact,.drawing .terminal{fill:var(--soft)}
.drawing .caption{font-size:14px;fill:var(--soft)}
.drawing .end{text-anchor:end}
.drawing .middle{text-anchor:middle}
.drawing .box{fill:var(--panel);stroke:var(--edge);stroke-width:1.2}
.drawing .watch{--tone:var(--watch)}
.drawing .bad{--tone:var(--bad)}
.drawing .off{--tone:var(--off)}
.drawing .calm{--tone:var(--calm)}
.drawing .block.watch .box,.drawing .block.bad .box{stroke:var(--tone);stroke-width:2.4}
.drawing .block.off .box{stroke-dasharray:4 3}
.drawing .block.off text{fill:var(--off)}
.drawing .sym{fill:none;stroke:var(--ink);stroke-width:1.5;stroke-linecap:round;stroke-linejoin:round}
.drawing .solid{fill:var(--ink);stroke:none}
.drawing .heavy{stroke-width:3}
.drawing .node{fill:none;stroke:var(--ink);stroke-width:7;stroke-linecap:round}
.drawing .lead{fill:none;stroke:var(--ink);stroke-width:1.5}
.drawing .port{stroke:var(--paper);stroke-width:1}
.drawing .port.plus{fill:var(--plus)}
.drawing .port.minus{fill:var(--minus)}
.drawing .port.neutral{fill:var(--soft)}
.drawing .port.open{fill:var(--paper);stroke:var(--soft);stroke-width:1.2}
.drawing .mark{fill:none;stroke:var(--paper);stroke-width:1.5}
.drawing .mark.open{stroke:var(--soft)}
.drawing .badge rect{fill:var(--tone)}
.drawing .badge text{fill:var(--paper);font-weight:700}
.drawing .hit{fill:none;stroke:var(--paper);stroke-opacity:0;stroke-width:24;pointer-events:stroke}
.drawing .wire,.drawing .core,.drawing .halo{fill:none;stroke-linejoin:round;pointer-events:none}
.drawing .link{--width:2}
.drawing .t0{--width:1.8}
.drawing .t1{--width:2.4}
.drawing .t2{--width:3}
.drawing .t3{--width:3.8}
.drawing .t4{--width:4.8}
.drawing .t5{--width:6}
.drawing .wire{stroke:var(--colour);stroke-width:calc(var(--width)*1px)}
.drawing .link.plus{--colour:var(--plus)}
.drawing .link.minus{--colour:var(--minus)}
.drawing .link.neutral{--colour:var(--soft)}
.drawing .link.minus .wire{stroke-width:calc((var(--width) + .9)*1px)}
.drawing .core{stroke:var(--paper);stroke-width:calc(var(--width)*1px - 1px)}
.drawing .link.neutral .wire{stroke-dasharray:2 4}
.drawing .link.dashed .wire{stroke-dasharray:9 5}
.drawing .link.off .wire{stroke:var(--off)}
.drawing .scaled .wire{stroke:var(--tone)}
.drawing .halo{stroke:none}
.drawing .link.watch .halo,.drawing .link.bad .halo{stroke:var(--tone);stroke-opacity:.28;stroke-width:calc(var(--width)*1px + 9px)}
.drawing .link .label{fill:var(--soft)}
.drawing .link .value{fill:var(--ink);font-weight:600}
.drawing .link.watch text,.drawing .link.bad text{fill:var(--tone);font-weight:700}
.drawing g[role=button]{cursor:pointer}
.drawing g[role=button]:focus{outline:none}
.drawing .block:focus-visible .box,.drawing .block:hover .box{stroke:var(--ink);stroke-width:2.4}
.drawing .link:focus-visible .hit,.drawing .link:hover .hit{stroke:var(--ink);stroke-opacity:.14}
.drawing .axis{fill:none;stroke:var(--edge);stroke-width:1}
.drawing .limit{fill:none;stroke:var(--ink);stroke-width:2}
.drawing .track{fill:var(--panel);stroke:var(--edge);stroke-width:1}
.drawing .fill{fill:var(--tone);stroke:none}
.drawing .fill.hatch{fill-opacity:.35}
.drawing .limit.dashed{stroke-dasharray:6 4}
.drawing .curve{fill:none;stroke:var(--ink);stroke-width:2;stroke-linejoin:round}
@media print{.drawing{background:none}}
";
