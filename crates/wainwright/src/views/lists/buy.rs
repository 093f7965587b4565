//! The buying list: what is needed, owned, to buy, and what it costs. Not
//! here: counting (the analysis).

use super::{Cell, FOOT, Listing, columns};
use wainwright_analysis::result::{Amount, AskedFor, Line, TakeOff, Thing};
use wainwright_model::{FuseFamily, Kind};
use wainwright_reference::lug::{self, ConnectionStyle, Stud};
use wainwright_units::{Quantity, System};

/// Headings under which lines stand, in order.
pub const GROUPS: [&str; 9] = [
    "Wire",
    "Lugs and terminals",
    "Fuses and holders",
    "Blocks, bars and switches",
    "Fixing",
    "Labels",
    "Tanks",
    "Lumber, sheets and foam",
    "Screws, tape and strips",
];

/// The whole list.
pub fn buy(takeoff: &TakeOff, units: System) -> Listing {
    Listing {
        name: "buy",
        columns: columns([
            "Group", "What", "Needed", "Spare", "Owned", "Buy", "Unit", "Price", "Cost", "Aisle",
        ]),
        rows: takeoff.lines.iter().map(|line| row(line, units)).collect(),
    }
}

fn row(line: &Line, units: System) -> Vec<Cell> {
    let money = |value: Option<f64>| {
        value.map_or_else(
            || Cell::of(""),
            |number| Cell::Number {
                number,
                text: money(number),
            },
        )
    };
    vec![
        Cell::of(group(&line.thing)),
        Cell::of(thing(&line.thing, units)),
        amount(line.needed, units),
        amount(line.more, units),
        amount(line.owned, units),
        amount(line.buy, units),
        Cell::of(unit(line.buy, units)),
        money(price(line, units)),
        money(line.cost),
        Cell::of(line.aisle.clone().unwrap_or_default()),
    ]
}

/// Price of one foot, metre or piece.
pub fn price(line: &Line, units: System) -> Option<f64> {
    let price = line.price.as_ref()?.value;
    Some(match (line.buy, units) {
        (Amount::Length(_), System::Us) => price * FOOT,
        _ => price,
    })
}

/// An amount as a cell.
pub fn amount(amount: Amount, units: System) -> Cell {
    match amount {
        Amount::Pieces(number) => Cell::count(number),
        Amount::Length(length) => Cell::length(length, units),
    }
}

/// Whether there is none of it.
pub fn is_none(amount: Amount) -> bool {
    match amount {
        Amount::Pieces(number) => number == 0,
        Amount::Length(length) => length.metres() <= 0.0,
    }
}

/// Unit of an amount.
pub fn unit(amount: Amount, units: System) -> &'static str {
    match amount {
        Amount::Pieces(_) => "pieces",
        Amount::Length(_) => super::length_unit(units),
    }
}

/// Money as people write it, without its sign.
pub fn money(value: f64) -> String {
    format!("{value:.2}")
}

/// The heading a line stands under.
pub fn group(thing: &Thing) -> &'static str {
    let number = match thing {
        Thing::Wire { .. } => 0,
        Thing::Lug { .. } | Thing::Terminal { .. } | Thing::Shrink { .. } => 1,
        Thing::Fuse { .. } | Thing::Holder { .. } => 2,
        Thing::Item {
            kind: Kind::Tank, ..
        } => 6,
        Thing::Item { .. } => 3,
        Thing::Conduit { .. } | Thing::Grommet | Thing::Clip | Thing::CableTie => 4,
        Thing::Label => 5,
        Thing::Plank { .. } | Thing::Sheet { .. } => 7,
        Thing::LiningScrew | Thing::FoamTape | Thing::FoamAdhesive | Thing::CoverStrip => 8,
    };
    GROUPS.get(number).copied().unwrap_or_default()
}

/// What a thing is called.
pub fn thing(thing: &Thing, units: System) -> String {
    match thing {
        Thing::Wire {
            size,
            insulation,
            tinned,
            colour,
        } => {
            let tinned = if *tinned { ", tinned" } else { "" };
            let colour = colour
                .as_ref()
                .map_or_else(String::new, |colour| format!(", {colour}"));
            format!("{size} {insulation}{tinned}{colour}")
        }
        Thing::Lug { size, stud } => format!(
            "Ring terminal for {size}, stud {}",
            stud_words(*stud, units)
        ),
        Thing::Terminal {
            size,
            style,
            colour,
        } => {
            let colour = colour.map_or_else(String::new, |colour| format!(", {colour}"));
            format!("{} for {size}{colour}", style_words(*style))
        }
        Thing::Shrink { size, over } => {
            format!(
                "Heat-shrink tube with glue for {size}, over {}",
                over.show(units)
            )
        }
        Thing::Fuse { family, rating } => {
            format!("Fuse, {}, {}", family_words(*family), rating.show(units))
        }
        Thing::Holder { family, name, wire } => {
            let wire = wire.map_or_else(String::new, |size| format!(", for {size}"));
            match name {
                Some(name) => format!("Fuse holder, {name}{wire}"),
                None => format!("Fuse holder, {}{wire}", family_words(*family)),
            }
        }
        Thing::Item { kind, label, part } => {
            let part = part
                .as_ref()
                .map_or_else(String::new, |part| format!(", part {part}"));
            format!("{label} ({}{part})", kind.as_str().replace('-', " "))
        }
        Thing::Conduit { filled } => {
            format!("Tube or loom for wires that fill {}", filled.show(units))
        }
        Thing::Grommet => "Grommets".into(),
        Thing::Clip => "Clips".into(),
        Thing::CableTie => "Cable ties".into(),
        Thing::Label => "Wire labels".into(),
        Thing::Plank { .. } | Thing::Sheet { .. } => lumber(thing, units),
        Thing::LiningScrew => "Screws for the lining".into(),
        Thing::FoamTape => "Tape for the seams of foam".into(),
        Thing::FoamAdhesive => "Adhesive for foam, length of the beads".into(),
        Thing::CoverStrip => "Cover strips for edges and openings".into(),
    }
}

/// Planks, sheets and foam by their sizes.
fn lumber(thing: &Thing, units: System) -> String {
    match thing {
        Thing::Plank {
            material,
            width,
            thickness,
            length,
        } => {
            let width = width.map_or_else(String::new, |width| format!(" x {}", width.show(units)));
            let (thickness, length) = (thickness.show(units), length.show(units));
            format!("Planks, {material}, {thickness}{width}, {length} long")
        }
        Thing::Sheet {
            foam,
            material,
            length,
            width,
            thickness,
        } => {
            let what = if *foam { "Foam boards" } else { "Sheets" };
            let (length, width) = (length.show(units), width.show(units));
            format!(
                "{what}, {material}, {}, {length} x {width}",
                thickness.show(units)
            )
        }
        _ => String::new(),
    }
}

fn stud_words(stud: Stud, units: System) -> String {
    let metric = stud.id().to_uppercase();
    match (units, lug::stud(stud)) {
        (System::Us, Some(row)) => format!("{} ({metric})", row.value.us),
        _ => metric,
    }
}

fn style_words(style: ConnectionStyle) -> &'static str {
    match style {
        ConnectionStyle::Stud | ConnectionStyle::Screw => "Ring or fork terminal",
        ConnectionStyle::Clamp => "Ferrule",
        ConnectionStyle::Tab => "Push-on terminal, 6.3 mm",
        ConnectionStyle::Lead => "Butt joint",
    }
}

fn family_words(family: FuseFamily) -> String {
    family.as_str().replace('-', " ")
}

/// What a value is wanted for.
pub fn asked_words(why: AskedFor) -> &'static str {
    match why {
        AskedFor::Size => "the wire has no size, so it cannot be bought",
        AskedFor::Length => "the wire has neither a length nor a route",
        AskedFor::Terminal => "nothing says what the wire is joined to there",
        AskedFor::Lug => "no ring terminal is sold for this wire and that stud",
        AskedFor::Rating => "the fuse has no rating",
        AskedFor::PieceLength => "the piece you own has no length, so nothing can be cut from it",
        AskedFor::Price => "it has no price",
        AskedFor::PieceSize => "its size is not known, so nothing can be cut from it",
        AskedFor::Layer => "the layer cannot be laid out without it",
    }
}
