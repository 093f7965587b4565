//! Studs, ring terminals and how a wire is joined to a kind of item.
//!
//! Not here: the resistance of a joint (`joint`), prices (`cost`).

use wainwright_units::{Length, WireSize};

use crate::id::ids;
use crate::insulation::nominal_area;
use crate::mark::Sourced;
use crate::store::{Topic, find, rows};

ids! {
    /// A stud or screw by its metric size, thin to thick.
    Stud {
        /// 3 mm.
        M3 = "m3",
        /// 4 mm.
        M4 = "m4",
        /// 5 mm.
        M5 = "m5",
        /// 6 mm.
        M6 = "m6",
        /// 8 mm.
        M8 = "m8",
        /// 10 mm.
        M10 = "m10",
        /// 12 mm.
        M12 = "m12",
    }
}

ids! {
    /// How a wire is joined to an item.
    ConnectionStyle {
        /// Ring terminal on a stud.
        Stud = "stud",
        /// Bare wire or ferrule under a clamp.
        Clamp = "clamp",
        /// Push-on tab of 6.3 mm.
        Tab = "tab",
        /// Joined to the item's own lead.
        Lead = "lead",
        /// Ring or fork under a screw.
        Screw = "screw",
    }
}

/// A stud and its neighbour in inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StudSize {
    /// Nominal diameter.
    pub diameter: Length,
    /// The usual inch size near it, such as `5/16 in` or `#10`.
    pub us: &'static str,
}

/// Studs for which terminals of one wire size are sold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StudRange {
    /// Thinnest stud.
    pub least: Stud,
    /// Thickest stud.
    pub most: Stud,
}

/// How a wire is joined to a kind of item.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Connection {
    /// The way of joining.
    pub style: ConnectionStyle,
    /// The stud or screw, where there is one.
    pub stud: Option<Stud>,
}

/// Size of a stud.
pub fn stud(stud: Stud) -> Option<Sourced<StudSize>> {
    let row = find(Topic::LugStuds, "stud", stud.id())?;
    Some(row.sourced(StudSize {
        diameter: Length::from_millimetres(row.number("diameter_mm")?),
        us: row.text("us")?,
    }))
}

/// Studs for which ring terminals or lugs of this wire size are sold; none for a size thicker than the table.
pub fn lug_studs(size: WireSize) -> Option<Sourced<StudRange>> {
    let area = nominal_area(size).square_millimetres();
    let row =
        rows(Topic::LugRange).find(|row| row.number("up_to_mm2").is_some_and(|to| area <= to))?;
    Some(row.sourced(StudRange {
        least: Stud::from_id(row.text("least")?)?,
        most: Stud::from_id(row.text("most")?)?,
    }))
}

/// Whether a terminal for this wire and this stud is usually sold.
pub fn lug_fits(size: WireSize, stud: Stud) -> Option<Sourced<bool>> {
    Some(lug_studs(size)?.map(|range| range.least <= stud && stud <= range.most))
}

/// Colour of an insulated terminal for this wire; none outside 0.5 to 6 mm² and 22 to 10 AWG.
pub fn terminal_colour(size: WireSize) -> Option<Sourced<&'static str>> {
    let (system, wanted) = match size {
        WireSize::Awg(gauge) | WireSize::Sae(gauge) => ("awg", f64::from(gauge.number())),
        WireSize::Metric(area) => ("metric", area.square_millimetres()),
    };
    let row = rows(Topic::LugColour).find(|row| {
        row.text("system") == Some(system)
            && row.number("from").is_some_and(|from| from <= wanted)
            && row.number("to").is_some_and(|to| wanted <= to)
    })?;
    Some(row.sourced(row.text("colour")?))
}

/// How a wire is joined to an item of this kind.
///
/// `variant` is the fuse family, the style of a switch, the id of a generic part, or `way` for the outlet of a fuse block;
/// an unknown variant falls back to the kind. None for an unknown kind.
pub fn connection(kind: &str, variant: Option<&str>) -> Option<Sourced<Connection>> {
    let of = |variant: Option<&str>| {
        rows(Topic::LugConnections)
            .find(|row| row.text("kind") == Some(kind) && row.text("variant") == variant)
    };
    let row = of(variant).or_else(|| of(None))?;
    Some(row.sourced(Connection {
        style: ConnectionStyle::from_id(row.text("style")?)?,
        stud: row.text("stud").and_then(Stud::from_id),
    }))
}
