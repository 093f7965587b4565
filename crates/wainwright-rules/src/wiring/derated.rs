//! Shared by `derated-by-bundle` and `derated-by-hot-place`: would this
//! conductor bear its load without one of the factors of the table? Not here:
//! the two rules.

use crate::view::limits;
use wainwright_analysis::result::{TableAmpacity, WireResult};
use wainwright_units::Current;

/// Ampacity by the table without its factor for bundling [A].
pub(crate) fn alone(table: &TableAmpacity) -> f64 {
    table.base.amperes() * table.hot.fraction() * table.foam.fraction()
}

/// Ampacity by the table in open air at the table's own temperature, the
/// bundle left as it is [A].
pub(crate) fn cool(table: &TableAmpacity) -> f64 {
    table.base.amperes() * table.bundle.fraction()
}

/// Whether the load would fit if only the place were better.
pub(crate) fn fits_elsewhere(wire: &WireResult, amps: Current) -> bool {
    let Some(table) = &wire.ampacity.table else {
        return false;
    };
    let fits = |allowed: f64| !limits::above(amps.amperes(), allowed);
    fits(alone(table)) || fits(cool(table))
}

/// The current and its state when the wire is over its table value and not
/// yet over the limit of its insulation; the hotter case belongs to
/// `overheated-conductor`.
pub(crate) fn over_table(
    assessment: &wainwright_analysis::result::Assessment,
    wire: &WireResult,
) -> Option<(usize, Current)> {
    let table = wire.ampacity.table.as_ref()?;
    let (state, amps) = limits::most_amps(assessment, wire)?;
    let (_, worst) = limits::worst(wire)?;
    let cool = !limits::above(worst.temperature.celsius(), wire.limit.celsius());
    (cool && limits::above(amps.amperes(), table.current.amperes())).then_some((state, amps))
}
