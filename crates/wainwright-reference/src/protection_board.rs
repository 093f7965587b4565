//! Protection boards of lithium packs by class: when they open, when they close, what they bleed.
//!
//! Cell voltages unless named pack. Not here: what a board does then (engines); which class a design has.

use wainwright_units::{Current, Duration, Temperature, Voltage};

use crate::id::ids;
use crate::mark::Sourced;
use crate::store::{Topic, rows};

ids! {
    /// A class of boards, by where it stops charging.
    BoardClass {
        /// Taken when nothing is known: 3.65 and 2.5 V.
        Usual = "usual",
        /// Opens and cuts off early: 3.65 and 2.8 V.
        Early = "early",
        /// 3.7 and 2.3 V.
        Middle = "middle",
        /// 3.8 and 2.3 V.
        High = "high",
        /// Opens late: 3.9 and 2.0 V, and watches the whole pack.
        Late = "late",
    }
}

/// Thresholds of a class of boards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoardThresholds {
    /// Highest cell: charging stops.
    pub over: Sourced<Voltage>,
    /// Highest cell: charging may go on.
    pub over_release: Sourced<Voltage>,
    /// Lowest cell: loads are cut off.
    pub under: Sourced<Voltage>,
    /// Lowest cell: loads may go on.
    pub under_release: Sourced<Voltage>,
    /// How long a voltage must last.
    pub delay: Sourced<Duration>,
    /// Both switches open above.
    pub hot: Sourced<Temperature>,
    /// They close again below.
    pub hot_release: Sourced<Temperature>,
    /// No charging below.
    pub cold: Sourced<Temperature>,
    /// Charging again above.
    pub cold_release: Sourced<Temperature>,
    /// Full cells are bled from here.
    pub balance_from: Sourced<Voltage>,
    /// Current that is bled from a cell.
    pub bleed: Sourced<Current>,
    /// Thresholds of the whole pack, if the class has them.
    pub pack: Option<PackThresholds>,
}

/// Thresholds of a whole pack of four cells.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PackThresholds {
    /// Charging stops.
    pub over: Sourced<Voltage>,
    /// Charging may go on.
    pub over_release: Sourced<Voltage>,
    /// Loads are cut off.
    pub under: Sourced<Voltage>,
    /// Loads may go on.
    pub under_release: Sourced<Voltage>,
}

/// Thresholds of a class.
pub fn thresholds(class: BoardClass) -> Option<BoardThresholds> {
    let volts = |name| value(class, name, Voltage::from_volts);
    let celsius = |name| value(class, name, Temperature::from_celsius);
    Some(BoardThresholds {
        over: volts("over")?,
        over_release: volts("over-release")?,
        under: volts("under")?,
        under_release: volts("under-release")?,
        delay: value(class, "voltage-delay", Duration::from_seconds)?,
        hot: celsius("hot")?,
        hot_release: celsius("hot-release")?,
        cold: celsius("cold")?,
        cold_release: celsius("cold-release")?,
        balance_from: volts("balance-from")?,
        bleed: value(class, "bleed", Current::from_amperes)?,
        pack: pack(class),
    })
}

/// How long more than the largest current may flow before the board opens.
pub fn over_current_delay() -> Option<Sourced<Duration>> {
    value(
        BoardClass::Usual,
        "over-current-delay",
        Duration::from_seconds,
    )
}

/// How long a short circuit lasts before the board opens.
pub fn short_circuit_delay() -> Option<Sourced<Duration>> {
    value(
        BoardClass::Usual,
        "short-circuit-delay",
        Duration::from_seconds,
    )
}

/// Largest charging current of a board for 100 A.
pub fn charge_limit_of_100_amperes() -> Option<Sourced<Current>> {
    value(BoardClass::Usual, "charge-most-100", Current::from_amperes)
}

fn pack(class: BoardClass) -> Option<PackThresholds> {
    let volts = |name| value(class, name, Voltage::from_volts);
    Some(PackThresholds {
        over: volts("pack-over-4")?,
        over_release: volts("pack-over-release-4")?,
        under: volts("pack-under-4")?,
        under_release: volts("pack-under-release-4")?,
    })
}

/// The row of the class, else that of any class.
fn value<T>(class: BoardClass, name: &str, make: impl FnOnce(f64) -> T) -> Option<Sourced<T>> {
    let of = |wanted: &str| {
        rows(Topic::BatteryBoards)
            .find(|row| row.text("class") == Some(wanted) && row.text("property") == Some(name))
    };
    of(class.id())
        .or_else(|| of("any"))?
        .quantity("value", make)
}
