//! What a wiring plan needs beside the wire: densities, allowances, bends, holders, bars, the order of main fuses.
//!
//! Not here: lugs and studs (`lug`), colours (`colour`), prices (`cost`), distances between supports (`limit`).

use wainwright_units::{CrossSection, Current, Length, Ratio, Voltage, WireSize};

use crate::id::ids;
use crate::insulation::{Material, nominal_area};
use crate::lug::Stud;
use crate::mark::Sourced;
use crate::protection::{Family, interrupt_at};
use crate::store::{Topic, find, rows};
use crate::table::Row;

ids! {
    /// A share added to a length of wire.
    Allowance {
        /// For bends and slack along the way.
        BendShare = "bend-share",
        /// Bought beyond what is cut.
        WasteShare = "waste-share",
    }
}

ids! {
    /// How a fuse holder is mounted.
    Mount {
        /// In the run of the wire.
        InLine = "in-line",
        /// Screwed to a board.
        Block = "block",
        /// On a battery post or the stud of a bar.
        Stud = "stud",
    }
}

ids! {
    /// A device that many wires come to.
    BarKind {
        /// Bar of studs.
        BusBar = "bus-bar",
        /// Block of blade fuses.
        FuseBlock = "fuse-block",
    }
}

/// A class of fuse holders, or a breaker which is its own holder.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FuseHolder {
    /// Family it takes.
    pub family: Family,
    /// Trade name.
    pub name: &'static str,
    /// How it is mounted.
    pub mount: Mount,
    /// Thinnest conductor that can be joined to it.
    pub wire_low: CrossSection,
    /// Thickest conductor that can be joined to it.
    pub wire_high: CrossSection,
    /// Its studs; none: it has leads of its own.
    pub stud: Option<Stud>,
    /// Largest current.
    pub most: Current,
}

/// A class of bus bars or fuse blocks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bar {
    /// Id of the generic part.
    pub part: &'static str,
    /// What it is.
    pub kind: BarKind,
    /// Studs or fused ways.
    pub ways: u32,
    /// Current of the whole bar.
    pub rating: Current,
    /// Its studs; for a fuse block those of its feed.
    pub stud: Stud,
}

/// Density of copper [kg/m³].
pub fn metal_density() -> Option<Sourced<f64>> {
    density("copper")
}

/// Density of an insulation [kg/m³].
pub fn insulation_density(material: Material) -> Option<Sourced<f64>> {
    density(material.id())
}

/// A share added to a length of wire.
pub fn allowance(allowance: Allowance) -> Option<Sourced<Ratio>> {
    find(Topic::PlanShares, "id", allowance.id())?.quantity("value", Ratio::from_fraction)
}

/// Length of the loop that keeps drops from running into a device.
pub fn drop_loop() -> Option<Sourced<Length>> {
    find(Topic::PlanShares, "id", "drop-loop-mm")?.quantity("value", Length::from_millimetres)
}

/// Grommets for each wall that a group of wires passes together (count).
pub fn grommets_per_pass() -> Option<Sourced<f64>> {
    find(Topic::PlanShares, "id", "grommets-per-pass")?.quantity("value", |count| count)
}

/// Length added at each end of a wire, to dress and to cut again; none for a size thicker than the table.
pub fn termination_allowance(size: WireSize) -> Option<Sourced<Length>> {
    end(size)?.quantity("termination_mm", Length::from_millimetres)
}

/// Length of tube shrunk over each lug; none for a size thicker than the table.
pub fn shrink_length(size: WireSize) -> Option<Sourced<Length>> {
    end(size)?.quantity("shrink_mm", Length::from_millimetres)
}

/// Smallest bend radius over the outside diameter; none above 40 mm.
pub fn bend_radius_factor(outside: Length) -> Option<Sourced<f64>> {
    let wanted = outside.millimetres();
    rows(Topic::PlanBend)
        .find(|row| row.number("up_to_mm").is_some_and(|most| wanted <= most))?
        .quantity("factor", |factor| factor)
}

/// Holders of a family, smallest first; none for a family without a row.
pub fn holders(family: Family) -> Vec<Sourced<FuseHolder>> {
    rows(Topic::PlanHolders)
        .filter(|row| row.text("family") == Some(family.id()))
        .filter_map(|row| holder(family, row))
        .collect()
}

/// The smallest holder of a family that takes this conductor and this current.
pub fn holder_for(family: Family, size: WireSize, rating: Current) -> Option<Sourced<FuseHolder>> {
    // Table areas are rounded to a tenth: the same is forgiven here.
    let area = nominal_area(size).square_millimetres();
    holders(family).into_iter().find(|found| {
        let (low, high) = (found.value.wire_low, found.value.wire_high);
        let fits =
            low.square_millimetres() <= area + 0.1 && area <= high.square_millimetres() + 0.1;
        fits && rating <= found.value.most
    })
}

/// Bars of a kind, fewest ways first and at the same number the weaker first.
pub fn bars(kind: BarKind) -> Vec<Sourced<Bar>> {
    rows(Topic::PlanBars)
        .filter(|row| row.text("kind") == Some(kind.id()))
        .filter_map(|row| bar(kind, row))
        .collect()
}

/// The bar with the fewest ways that has enough of them and carries this current.
pub fn smallest_bar(kind: BarKind, ways: u32, current: Current) -> Option<Sourced<Bar>> {
    bars(kind)
        .into_iter()
        .find(|bar| bar.value.ways >= ways && current <= bar.value.rating)
}

/// Families for the main fuse, in the order to try.
pub fn main_fuse_ladder() -> Vec<Sourced<Family>> {
    rows(Topic::PlanMainFuse)
        .filter_map(|row| Some(row.sourced(Family::from_id(row.text("family")?)?)))
        .collect()
}

/// The first family of the ladder that breaks this fault current at this voltage; its mark is the weaker of both rows.
pub fn main_fuse_family(fault: Current, system: Voltage) -> Option<Sourced<Family>> {
    main_fuse_ladder().into_iter().find_map(|family| {
        let interrupt = interrupt_at(family.value, system)?;
        (fault <= interrupt.value).then(|| family.no_better_than(interrupt.mark))
    })
}

fn density(material: &str) -> Option<Sourced<f64>> {
    find(Topic::PlanDensity, "material", material)?.quantity("value", |value| value)
}

fn end(size: WireSize) -> Option<Row> {
    let area = nominal_area(size).square_millimetres();
    rows(Topic::PlanEnds).find(|row| row.number("up_to_mm2").is_some_and(|most| area <= most))
}

fn holder(family: Family, row: Row) -> Option<Sourced<FuseHolder>> {
    let area = |column| Some(CrossSection::from_square_millimetres(row.number(column)?));
    Some(row.sourced(FuseHolder {
        family,
        name: row.text("name")?,
        mount: Mount::from_id(row.text("mount")?)?,
        wire_low: area("wire_low")?,
        wire_high: area("wire_high")?,
        stud: row.text("stud").and_then(Stud::from_id),
        most: Current::from_amperes(row.number("most")?),
    }))
}

fn bar(kind: BarKind, row: Row) -> Option<Sourced<Bar>> {
    Some(row.sourced(Bar {
        part: row.text("part")?,
        kind,
        ways: row.text("ways")?.parse().ok()?,
        rating: Current::from_amperes(row.number("rating")?),
        stud: Stud::from_id(row.text("stud")?)?,
    }))
}
