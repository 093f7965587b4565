//! Fuses and breakers by family: time-current gates, ratings, interrupt capacity, resistance, colours.
//!
//! Not here: the opening curve between gates and selectivity (engines), position in the circuit (`position`).

use wainwright_units::{Current, Duration, Resistance, Temperature, Voltage};

use crate::id::ids;
use crate::mark::{Mark, Sourced};
use crate::store::{Topic, find, rows};
use crate::table::Row;

ids! {
    /// A family of overcurrent devices that share gates and ratings.
    Family {
        /// Medium blade fuse.
        Blade = "blade",
        /// Mini blade fuse.
        MiniBlade = "mini-blade",
        /// Large blade fuse.
        MaxiBlade = "maxi-blade",
        /// Small bolt-in strip fuse, M5 studs.
        StripSmall = "strip-small",
        /// Large bolt-in strip fuse, M8 studs.
        StripLarge = "strip-large",
        /// Wide bolt-in strip fuse.
        Anl = "anl",
        /// Class T fuse.
        ClassT = "class-t",
        /// Fuse mounted on a battery terminal or stud.
        Terminal = "terminal",
        /// Glass cartridge fuse.
        Glass = "glass",
        /// Thermal circuit breaker.
        Breaker = "breaker",
    }
}

ids! {
    /// Whether a family opens quickly or lets surges pass.
    Speed {
        /// Opens quickly above its rating.
        Fast = "fast",
        /// Lets surges pass.
        Slow = "slow",
    }
}

/// One gate of a time-current standard: at this multiple of the rating the device opens between the two times.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gate {
    /// Current over rating (dimensionless).
    pub multiple: f64,
    /// It never opens sooner; none: no lower bound is stated.
    pub earliest: Option<Duration>,
    /// It has opened by then; none: it may carry this current for ever.
    pub latest: Option<Duration>,
}

/// One interrupt capacity at one direct voltage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interrupt {
    /// Highest direct voltage it holds for.
    pub up_to: Voltage,
    /// Largest fault current it can break.
    pub current: Current,
}

/// How a warm place weakens a fuse or breaker.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HotPlace {
    /// Up to this temperature around it the whole rating counts.
    pub from: Temperature,
    /// Share of the rating lost with each kelvin above [1/K].
    pub per_kelvin: f64,
}

/// The gates of a family, lowest multiple first. Below the first gate the device never opens.
pub fn gates(family: Family) -> Vec<Sourced<Gate>> {
    let gate = |row: Row| {
        Some(row.sourced(Gate {
            multiple: row.number("multiple")?,
            earliest: row.number("earliest_s").map(Duration::from_seconds),
            latest: row.number("latest_s").map(Duration::from_seconds),
        }))
    };
    of_family(Topic::ProtectionGates, family)
        .filter_map(gate)
        .collect()
}

/// The least trusted mark among the gates of a family.
pub fn gates_mark(family: Family) -> Option<Mark> {
    gates(family).iter().map(|gate| gate.mark).max()
}

/// Trade name of a family.
pub fn name(family: Family) -> Option<Sourced<&'static str>> {
    let row = of_family(Topic::ProtectionFamilies, family).next()?;
    Some(row.sourced(row.text("name")?))
}

/// Whether a family is fast or slow.
pub fn speed(family: Family) -> Option<Sourced<Speed>> {
    let row = of_family(Topic::ProtectionFamilies, family).next()?;
    Some(row.sourced(Speed::from_id(row.text("speed")?)?))
}

/// Every listed interrupt capacity of a family, lowest voltage first.
pub fn interrupts(family: Family) -> Vec<Sourced<Interrupt>> {
    let interrupt = |row: Row| {
        Some(row.sourced(Interrupt {
            up_to: Voltage::from_volts(row.number("volts")?),
            current: Current::from_amperes(row.number("amps")?),
        }))
    };
    of_family(Topic::ProtectionInterrupt, family)
        .filter_map(interrupt)
        .collect()
}

/// Highest direct voltage a family is listed for.
pub fn voltage_rating(family: Family) -> Option<Sourced<Voltage>> {
    let last = interrupts(family).pop()?;
    Some(last.map(|interrupt| interrupt.up_to))
}

/// Interrupt capacity at a system voltage: the row with the lowest voltage not below it. None above the voltage rating.
pub fn interrupt_at(family: Family, system: Voltage) -> Option<Sourced<Current>> {
    interrupts(family)
        .into_iter()
        .find(|row| system <= row.value.up_to)
        .map(|row| row.map(|interrupt| interrupt.current))
}

/// Standard ratings of a family, smallest first.
pub fn ratings(family: Family) -> Vec<Sourced<Current>> {
    of_family(Topic::ProtectionRatings, family)
        .filter_map(|row| row.quantity("amps", Current::from_amperes))
        .collect()
}

/// The smallest standard rating not below `least`.
pub fn rating_at_least(family: Family, least: Current) -> Option<Sourced<Current>> {
    ratings(family).into_iter().find(|row| row.value >= least)
}

/// The largest standard rating not above `most`.
pub fn rating_at_most(family: Family, most: Current) -> Option<Sourced<Current>> {
    ratings(family).into_iter().rfind(|row| row.value <= most)
}

/// Cold resistance of the fuse or breaker itself, without its holder.
///
/// Medium blades: the published row of the rating; otherwise the rule "cold millivolts over rating" of the family. None for
/// a rating that is not above zero.
pub fn cold_resistance(family: Family, rating: Current) -> Option<Sourced<Resistance>> {
    let amperes = rating.amperes();
    if amperes.is_nan() || amperes <= 0.0 {
        return None;
    }
    let published = match family {
        Family::Blade => of_rating(Topic::ProtectionCold, rating),
        _ => None,
    };
    if let Some(row) = published {
        return row.quantity("cold_mohm", Resistance::from_milliohms);
    }
    of_family(Topic::ProtectionColdRule, family)
        .next()?
        .quantity("cold_mv", |millivolts| {
            Resistance::from_milliohms(millivolts / amperes)
        })
}

/// Voltage across a medium blade fuse at its rating (warm); listed ratings only.
pub fn blade_drop_at_rating(rating: Current) -> Option<Sourced<Voltage>> {
    of_rating(Topic::ProtectionCold, rating)?.quantity("drop_mv", Voltage::from_millivolts)
}

/// Body colour of a blade fuse, medium, mini or large; other families have no colour here.
pub fn colour(family: Family, rating: Current) -> Option<Sourced<&'static str>> {
    let topic = match family {
        Family::Blade | Family::MiniBlade => Topic::ProtectionColours,
        Family::MaxiBlade => Topic::ProtectionColoursLarge,
        _ => return None,
    };
    let row = of_rating(topic, rating)?;
    Some(row.sourced(row.text("colour")?))
}

/// Hot over cold resistance of a medium blade fuse carrying its rating (dimensionless).
pub fn hot_over_cold() -> Option<Sourced<f64>> {
    find(Topic::ProtectionHot, "id", "hot-over-cold")?.quantity("value", |value| value)
}

/// How a warm place weakens a fuse or breaker. Families without a row of their own share one.
pub fn hot_place(family: Family) -> Option<Sourced<HotPlace>> {
    let row = of_family(Topic::ProtectionHotPlace, family)
        .next()
        .or_else(|| find(Topic::ProtectionHotPlace, "family", "other"))?;
    Some(row.sourced(HotPlace {
        from: Temperature::from_celsius(row.number("from_celsius")?),
        per_kelvin: row.number("per_kelvin")?,
    }))
}

fn of_family(topic: Topic, family: Family) -> impl Iterator<Item = Row> {
    rows(topic).filter(move |row| row.text("family") == Some(family.id()))
}

fn of_rating(topic: Topic, rating: Current) -> Option<Row> {
    rows(topic).find(|row| row.number("amps") == Some(rating.amperes()))
}
