//! The tables of lining the box: layers, the tools at hand, cabinets for equipment.
//!
//! One declaration each, as in `elements`. Not here: what is sold and what is in the shed (`elements`, stock).

use crate::choices::{LayerKind, Run, Side};
use crate::define::element;
use crate::schema::{Target, ValueKind};
use crate::spot::{Extent, Spot};
use crate::value::FieldValue;
use wainwright_units::{Airflow, Area, Length, Ratio};

const LENGTH: ValueKind = Length::KIND.positive();
const FROM_ZERO: ValueKind = Length::KIND.from_zero();
const SHARE: ValueKind = Ratio::KIND.within(0.0, 1.0, &["5 %", "0.05"]);
const ORDER: ValueKind = ValueKind::Integer { low: 1, high: 20 };
const SIDES: ValueKind = ValueKind::List(&Side::KIND);
const ITEMS: ValueKind = ValueKind::List(&ValueKind::Reference(Target::Item));

element! {
    /// A layer of walls, ceiling or floor, from the outer skin inwards.
    Layer placed at {
        /// What it is called.
        label: String,
        /// The sides of the box it is on; roof is the ceiling.
        [required] on: Vec<Side> = SIDES,
        /// Its place in the order, 1 is the outermost.
        order: u32 = ORDER,
        /// What kind of layer it is.
        [required] of: LayerKind,
        /// What it is made of, by the name in the list of materials.
        material: String,
        /// How thick it is.
        thickness: Length = LENGTH,
        /// Width that a plank covers, a batten or a sheet has.
        width: Length = LENGTH,
        /// Length of a sheet.
        length: Length = LENGTH,
        /// From the middle of one batten to the middle of the next.
        spacing: Length = LENGTH,
        /// The way planks and battens run.
        runs: Run,
        /// Gap left at the edges and round openings.
        gap: Length = FROM_ZERO,
        /// Longest piece that can be handled.
        longest: Length = LENGTH,
        /// Narrowest strip that is still worth laying.
        narrowest: Length = LENGTH,
        /// Least distance from one end joint to that of the next run.
        stagger: Length = FROM_ZERO,
        /// Whether one face is bright foil.
        foil: bool,
        /// The sides on which it is in already.
        done: Vec<Side> = SIDES,
        /// Anything worth remembering.
        note: String,
    }
}

element! {
    /// What wood, foam and sheets are cut with, and what is lost by it.
    Tools {
        /// Whether there is a saw that can cut along a board or sheet.
        can_rip: bool,
        /// Width of the saw cut.
        kerf: Length = FROM_ZERO,
        /// Shortest offcut that is worth keeping.
        keep_from: Length = LENGTH,
        /// Cut off each end of a new board to square it.
        end_trim: Length = FROM_ZERO,
        /// Share of pieces that are spoiled.
        spoiled: Ratio = SHARE,
    }
}

element! {
    /// A cabinet that equipment is built into.
    Cabinet placed at {
        /// What it is called.
        label: String,
        /// What is in it.
        holds: Vec<String> = ITEMS,
        /// Where its front left lower corner is, inside: from the front wall, from the left wall, above the floor.
        spot: Spot,
        /// Its size inside: along the trailer, across it, up.
        size: Extent,
        /// The side its face looks to.
        faces: Side,
        /// Thickness of its boards.
        board: Length = LENGTH,
        /// Clear area of the openings low down.
        low_opening: Area,
        /// Clear area of the openings high up.
        high_opening: Area,
        /// Height from the low openings to the high ones.
        opening_height: Length = LENGTH,
        /// Air that its fan moves.
        fan_flow: Airflow,
        /// Whether its fuses can be reached without a tool.
        door: bool,
        /// Anything worth remembering.
        note: String,
    }
}
