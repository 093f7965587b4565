//! How far from a source overcurrent protection may sit, and the least interrupt capacity a battery asks for.
//!
//! Not here: the interrupt capacity of a family (`protection`) and the fault current itself (engines).

use wainwright_units::{Current, Length};

use crate::id::ids;
use crate::mark::Sourced;
use crate::store::{Topic, rows};

ids! {
    /// A set of rules by region.
    Profile {
        /// United States practice.
        Us = "us",
        /// European practice.
        Eu = "eu",
    }
}

ids! {
    /// How the conductor runs between the source and its protection.
    Situation {
        /// Without further covering.
        Open = "open",
        /// In a sheath or enclosure all the way.
        Sheathed = "sheathed",
        /// In a sheath, straight from a battery terminal.
        SheathedAtBattery = "sheathed-at-battery",
        /// What manuals of RV equipment allow.
        RvPractice = "rv-practice",
    }
}

/// A longest length as computed with, and as the rule writes it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// The length.
    pub length: Length,
    /// The length as written in the rule, such as `7 in`.
    pub text: &'static str,
}

/// The least interrupt capacity of overcurrent devices on one battery.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeastInterrupt {
    /// Of the first device after the battery.
    pub main: Current,
    /// Of any device in series after the main.
    pub branch: Current,
}

/// What a bank above a cold-cranking or capacity threshold must have.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LargeBank {
    /// Cold-cranking current above which the rule applies \[A\].
    pub above_cranking: Current,
    /// Capacity above which the rule applies \[Ah\].
    pub above_ampere_hours: f64,
    /// Short-circuit current above which the fixed capacity below is required.
    pub high_current: Current,
    /// That fixed interrupt capacity.
    pub interrupt: Current,
}

/// Longest unprotected conductor; none where the profile states no length for the situation.
pub fn unfused_reach(profile: Profile, situation: Situation) -> Option<Sourced<Reach>> {
    let row = rows(Topic::PositionUnfused).find(|row| {
        row.text("profile") == Some(profile.id()) && row.text("situation") == Some(situation.id())
    })?;
    Some(row.sourced(Reach {
        length: Length::from_millimetres(row.number("length_mm")?),
        text: row.text("text")?,
    }))
}

/// ABYC E-11 least interrupt capacity of a 12 or 24 V battery by its cold-cranking current, up to 2200 A.
///
/// A lithium bank states no cold-cranking current: see [`large_bank`] and the computed fault current instead.
pub fn least_interrupt(cranking: Current) -> Option<Sourced<LeastInterrupt>> {
    let amperes = cranking.amperes();
    let row = rows(Topic::PositionInterruptMinimum)
        .filter(|row| row.text("supply") == Some("battery"))
        .find(|row| row.number("to_cca").is_some_and(|to| amperes <= to))?;
    least(&row)
}

/// ABYC E-11 least interrupt capacity of a 120 V 30 A shore supply.
pub fn least_interrupt_shore() -> Option<Sourced<LeastInterrupt>> {
    let row = rows(Topic::PositionInterruptMinimum)
        .find(|row| row.text("supply") == Some("shore-120"))?;
    least(&row)
}

/// ABYC E-11 rule for banks above 2200 cold-cranking amperes or 500 Ah.
pub fn large_bank() -> Option<Sourced<LargeBank>> {
    let row = |id| rows(Topic::PositionLargeBank).find(|row| row.text("id") == Some(id));
    let amps = |id| Some(Current::from_amperes(row(id)?.number("value")?));
    let first = row("above-cca")?;
    Some(first.sourced(LargeBank {
        above_cranking: amps("above-cca")?,
        above_ampere_hours: row("above-ah")?.number("value")?,
        high_current: amps("high-current")?,
        interrupt: amps("interrupt")?,
    }))
}

fn least(row: &crate::table::Row) -> Option<Sourced<LeastInterrupt>> {
    Some(row.sourced(LeastInterrupt {
        main: Current::from_amperes(row.number("main_amps")?),
        branch: Current::from_amperes(row.number("branch_amps")?),
    }))
}
