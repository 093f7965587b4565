//! The style rules of courses, years, combinations and ladders. Tints are mixed from the colours of the schematic, so that a
//! page overrides one set only.

pub(super) const CHARTS: &str = "\
.drawing .grid{fill:none;stroke:var(--edge);stroke-opacity:.38;stroke-width:1}
.drawing .night{fill:color-mix(in oklab,var(--minus) 13%,var(--paper))}
.drawing .midnight{fill:none;stroke:var(--edge);stroke-opacity:.75;stroke-width:1}
.drawing .course{--tone:var(--scale-0)}
.drawing .course.watch{--tone:var(--watch)}
.drawing .course.bad{--tone:var(--bad)}
.drawing .course.calm{--tone:var(--calm)}
.drawing .area{fill:var(--tone);fill-opacity:.28}
.drawing .rim{fill:none;stroke:var(--tone);stroke-opacity:.7;stroke-width:1}
.drawing .middle-line{fill:none;stroke:var(--tone);stroke-width:2.6;stroke-linejoin:round}
.drawing .lane-bed{fill:none;stroke:var(--edge);stroke-opacity:.5;stroke-width:.8}
.drawing .lane{fill:var(--soft)}
.drawing .lane.shore{fill:var(--calm)}
.drawing .lane.tap{fill:var(--scale-0)}
.drawing .column.calm{--tone:color-mix(in oklab,var(--calm) 72%,var(--paper))}
.drawing .column.watch{--tone:color-mix(in oklab,var(--watch) 66%,var(--paper))}
.drawing .column.off{--tone:color-mix(in oklab,var(--scale-0) 55%,var(--paper))}
.drawing .about{fill:none;stroke:var(--ink);stroke-width:1.6}
.drawing .cell .body{fill:color-mix(in oklab,var(--tone,var(--edge)) 9%,var(--panel));stroke:color-mix(in oklab,var(--tone,var(--edge)) 45%,var(--paper));stroke-width:1}
.drawing .cell.best .body{stroke:var(--tone);stroke-width:3.4}
.drawing .cell.now .body{stroke:var(--ink);stroke-width:2.4;stroke-dasharray:6 3}
.drawing .cell.now.best .body{stroke:var(--tone);stroke-width:3.4}
.drawing .no-go{fill:color-mix(in oklab,var(--bad) 26%,var(--paper))}
.drawing .limit.thin{stroke-width:1;stroke:var(--soft)}
.drawing .shift{fill:none;stroke:var(--watch);stroke-width:2}
.drawing .set-now{fill:var(--paper);stroke:var(--watch);stroke-width:2}
.drawing .agrees{fill:var(--calm);stroke:var(--paper);stroke-width:1}
.drawing .advised{fill:var(--calm);stroke:var(--paper);stroke-width:1}
.drawing .limit-text text{fill:var(--soft)}
";
