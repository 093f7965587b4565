//! Boards and sheets: nominal and actual sizes, covering widths, densities, movement, waste, joints.
//!
//! Not here: layouts and mass of a lining (engines), screws (`securing`), nailing (`fastener`).

use wainwright_units::{Length, Ratio};

use crate::id::ids;
use crate::mark::Sourced;
use crate::span::{Span, span};
use crate::store::{Topic, find, rows};
use crate::table::Row;

ids! {
    /// What a lining is made of.
    LiningMaterial {
        /// Spruce, pine and fir mixed.
        SprucePineFir = "spruce-pine-fir",
        /// Eastern white pine.
        EasternWhitePine = "eastern-white-pine",
        /// Western redcedar.
        WesternRedcedar = "western-redcedar",
        /// Southern yellow pine.
        SouthernYellowPine = "southern-yellow-pine",
        /// Douglas fir and larch.
        DouglasFirLarch = "douglas-fir-larch",
        /// Oak.
        Oak = "oak",
        /// Softwood plywood, as measured.
        Plywood = "plywood",
        /// Softwood plywood by the rule for loads, a quarter heavier.
        PlywoodRule = "plywood-rule",
        /// Oriented strand board.
        OrientedStrandBoard = "oriented-strand-board",
        /// Particleboard.
        Particleboard = "particleboard",
        /// Hardboard.
        Hardboard = "hardboard",
        /// Gypsum board.
        GypsumBoard = "gypsum-board",
        /// Extruded polystyrene.
        Xps = "xps",
        /// Expanded polystyrene.
        Eps = "eps",
        /// Polyisocyanurate without facing.
        Polyiso = "polyiso",
        /// Polyisocyanurate with facing.
        PolyisoFaced = "polyiso-faced",
        /// Sprayed foam.
        SprayFoam = "spray-foam",
        /// Steel.
        Steel = "steel",
        /// Aluminium alloy.
        Aluminium = "aluminium",
        /// Glass.
        Glass = "glass",
        /// Polyvinyl chloride.
        Pvc = "pvc",
        /// High-density polyethylene.
        Hdpe = "hdpe",
        /// Acrylic sheet.
        Acrylic = "acrylic",
        /// Rubber.
        Rubber = "rubber",
        /// Foam sealant.
        FoamSealant = "foam-sealant",
    }
}

ids! {
    /// A kind of wood with known movement.
    Species {
        /// Basswood.
        Basswood = "basswood",
        /// Red oak.
        RedOak = "red-oak",
        /// White oak.
        WhiteOak = "white-oak",
        /// Quaking aspen.
        QuakingAspen = "quaking-aspen",
        /// Sugar maple.
        SugarMaple = "sugar-maple",
        /// Walnut.
        Walnut = "walnut",
        /// Western redcedar.
        WesternRedcedar = "western-redcedar",
        /// Eastern white pine.
        EasternWhitePine = "eastern-white-pine",
    }
}

ids! {
    /// How boards are laid, for a first guess of waste.
    Work {
        /// Walls and ceilings.
        Lining = "lining",
        /// Floors.
        Flooring = "flooring",
        /// Floors, by those who lay them.
        FlooringInstaller = "flooring-installer",
        /// At an angle.
        Diagonal = "diagonal",
    }
}

ids! {
    /// A distance to keep when laying boards or sheets.
    LayingRule {
        /// End joints of neighbouring courses of decking that carries load.
        DeckingJointsApart = "decking-joints-apart",
        /// End joints of neighbouring courses of a light lining.
        LiningJointsApart = "lining-joints-apart",
        /// End joints of neighbouring strips.
        StripJointsApart = "strip-joints-apart",
        /// Joints within this are in line.
        InLineWithin = "in-line-within",
        /// Clearance of each tongued course of boards 6 in wide.
        CourseClearance = "course-clearance",
        /// Gap at edges and ends of panels.
        PanelGap = "panel-gap",
    }
}

/// Widths of a board with a tongue, and how much of it covers an area.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PatternWidth {
    /// Width it is sold by.
    pub nominal: Length,
    /// Width with its tongue.
    pub overall: Length,
    /// Width that it covers.
    pub exposed: Length,
    /// Length for an area [ft/ft²].
    pub lineal_per_square_foot: f64,
    /// Board feet for an area [board ft/ft²].
    pub board_feet_per_square_foot: f64,
}

/// Thickness of a category of plywood.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlywoodThickness {
    /// Performance category, such as `15/32`.
    pub category: &'static str,
    /// Thinnest panel.
    pub least: Length,
    /// Thickest panel.
    pub most: Length,
}

/// Change of width over width for each percent of moisture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WoodMovement {
    /// Of flat-sawn boards.
    pub tangential: f64,
    /// Of quarter-sawn boards.
    pub radial: f64,
}

/// A sheet on sale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SheetSize {
    /// `plywood`, `hardwood-plywood`, `foam` or `foam-narrow`.
    pub kind: &'static str,
    /// Thickness it is sold by; none where any is.
    pub nominal: Option<Length>,
    /// Thickness it has.
    pub thickness: Option<Length>,
    /// Width.
    pub width: Length,
    /// Length.
    pub length: Length,
}

/// Actual thickness of dry softwood lumber by the one it is sold by.
pub fn dry_thickness(nominal: Length) -> Option<Sourced<Length>> {
    actual(Topic::LumberThickness, nominal, |_| true)
}

/// Actual width of dry softwood lumber by the one it is sold by.
pub fn dry_width(nominal: Length) -> Option<Sourced<Length>> {
    actual(Topic::LumberWidth, nominal, |_| true)
}

/// Actual thickness of green softwood lumber; few sizes are known.
pub fn green_thickness(nominal: Length) -> Option<Sourced<Length>> {
    actual(Topic::LumberGreen, nominal, |row| {
        row.text("side") == Some("thickness")
    })
}

/// Actual width of green softwood lumber; few sizes are known.
pub fn green_width(nominal: Length) -> Option<Sourced<Length>> {
    actual(Topic::LumberGreen, nominal, |row| {
        row.text("side") == Some("width")
    })
}

/// Every tongue-and-groove width, narrowest first.
pub fn pattern_widths() -> Vec<Sourced<PatternWidth>> {
    let tongued =
        rows(Topic::LumberPatterns).filter(|row| row.text("pattern") == Some("tongue-and-groove"));
    tongued
        .filter_map(|row| {
            Some(row.sourced(PatternWidth {
                nominal: inches(row, "nominal_in")?,
                overall: inches(row, "overall_in")?,
                exposed: inches(row, "exposed_in")?,
                lineal_per_square_foot: row.number("lineal_per_ft2")?,
                board_feet_per_square_foot: row.number("board_feet_per_ft2")?,
            }))
        })
        .collect()
}

/// Widths of a tongue-and-groove board by the one it is sold by.
pub fn pattern_width(nominal: Length) -> Option<Sourced<PatternWidth>> {
    pattern_widths()
        .into_iter()
        .find(|one| same(one.value.nominal, nominal))
}

/// Exposed width in older manuals, where it differs: why the board itself is measured.
pub fn older_exposed(nominal: Length) -> Option<Sourced<Length>> {
    let row = rows(Topic::LumberPatterns)
        .filter(|row| row.text("pattern") == Some("older-drop-siding"))
        .find(|&row| inches(row, "nominal_in").is_some_and(|one| same(one, nominal)))?;
    row.quantity("exposed_in", Length::from_inches)
}

/// Every category of plywood, thinnest first.
pub fn plywood() -> Vec<Sourced<PlywoodThickness>> {
    rows(Topic::LumberPlywood).filter_map(plywood_row).collect()
}

/// Thickness of a category of plywood, such as `15/32`.
pub fn plywood_category(category: &str) -> Option<Sourced<PlywoodThickness>> {
    plywood_row(find(Topic::LumberPlywood, "category", category)?)
}

/// Every usual sheet.
pub fn sheet_sizes() -> Vec<Sourced<SheetSize>> {
    rows(Topic::LumberSheets)
        .filter_map(|row| {
            Some(row.sourced(SheetSize {
                kind: row.text("sheet")?,
                nominal: inches(row, "nominal_in"),
                thickness: inches(row, "thickness_in"),
                width: inches(row, "width_in")?,
                length: inches(row, "length_in")?,
            }))
        })
        .collect()
}

/// Density of a lining material [kg/m³].
pub fn density(material: LiningMaterial) -> Option<Sourced<Span<f64>>> {
    span(
        find(Topic::LumberDensity, "material", material.id())?,
        |value| value,
    )
}

/// How much a kind of wood moves with its moisture.
pub fn wood_movement(species: Species) -> Option<Sourced<WoodMovement>> {
    let row = find(Topic::LumberMovement, "species", species.id())?;
    Some(row.sourced(WoodMovement {
        tangential: row.number("tangential")?,
        radial: row.number("radial")?,
    }))
}

/// Waste for a first guess, over what is covered.
pub fn waste(work: Work) -> Option<Sourced<Span<Ratio>>> {
    span(
        find(Topic::LumberWaste, "work", work.id())?,
        Ratio::from_fraction,
    )
}

/// A distance to keep when laying boards or sheets.
pub fn laying_rule(rule: LayingRule) -> Option<Sourced<Length>> {
    find(Topic::LumberLaying, "rule", rule.id())?.quantity("value", Length::from_inches)
}

/// Courses between two joints in line.
pub fn courses_between_joints() -> Option<Sourced<usize>> {
    find(Topic::LumberLaying, "rule", "courses-between")?
        .quantity("value", |value| value.round() as usize)
}

fn actual(topic: Topic, nominal: Length, keep: impl Fn(&Row) -> bool) -> Option<Sourced<Length>> {
    let mut rows = rows(topic).filter(keep);
    let row = rows.find(|&row| inches(row, "nominal_in").is_some_and(|one| same(one, nominal)))?;
    row.quantity("actual_in", Length::from_inches)
}

fn plywood_row(row: Row) -> Option<Sourced<PlywoodThickness>> {
    Some(row.sourced(PlywoodThickness {
        category: row.text("category")?,
        least: inches(row, "least_in")?,
        most: inches(row, "most_in")?,
    }))
}

fn inches(row: Row, column: &str) -> Option<Length> {
    row.number(column).map(Length::from_inches)
}

/// Within a hundredth of a millimetre: nominal sizes are exact inches.
fn same(one: Length, other: Length) -> bool {
    (one - other).millimetres().abs() < 0.01
}
