//! Results of the take-off: what has to be bought for wiring and lining, what
//! is there already, and how wire is cut.
//!
//! Not here: words for people, files.

use crate::known::{Basis, Known};
use wainwright_model::{FuseFamily, Id, Kind};
use wainwright_reference::lug::{ConnectionStyle, Stud};
use wainwright_units::{CrossSection, Current, Length, Ratio, WireSize};

/// Everything the wiring and the lining need.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct TakeOff {
    /// One line for each thing, in the order of [`Thing`].
    pub lines: Vec<Line>,
    /// Values without which something could not be counted.
    pub asked: Vec<Asked>,
    /// The money prices are in, as the person writes it.
    pub currency: Option<String>,
    /// Sum of all costs that are known.
    pub cost: f64,
    /// Lines to buy without a price.
    pub unpriced: usize,
}

/// One thing to have.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What it is.
    pub thing: Thing,
    /// What is used.
    pub needed: Amount,
    /// What is added: waste of wire, spare fuses.
    pub more: Amount,
    /// Why that much is added.
    pub more_basis: Option<Basis>,
    /// What is there already and can be used.
    pub owned: Amount,
    /// What to buy, rounded up to how it is sold.
    pub buy: Amount,
    /// Price of one metre or piece.
    pub price: Option<Known<f64>>,
    /// Price of what is to be bought.
    pub cost: Option<f64>,
    /// What it is for.
    pub uses: Vec<Use>,
    /// Where the amount came from.
    pub basis: Basis,
    /// How wire is cut; only for wire.
    pub cuts: Option<CutList>,
    /// Where in the shop it stands, when the stock says it.
    pub aisle: Option<String>,
}

/// A number of pieces, or a length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount {
    /// So many.
    Pieces(u32),
    /// So long.
    Length(Length),
}

/// What is bought.
#[derive(Debug, Clone, PartialEq)]
pub enum Thing {
    /// Wire.
    Wire {
        /// Nominal size.
        size: WireSize,
        /// Insulation class.
        insulation: String,
        /// Whether the strands are tinned.
        tinned: bool,
        /// Colour, where it is known.
        colour: Option<String>,
    },
    /// Ring terminals and lugs.
    Lug {
        /// Wire they are for.
        size: WireSize,
        /// Stud they are for.
        stud: Stud,
    },
    /// Terminals that are no ring: push-on, ferrule, butt joint.
    Terminal {
        /// Wire they are for.
        size: WireSize,
        /// What kind.
        style: ConnectionStyle,
        /// Colour of an insulated one.
        colour: Option<&'static str>,
    },
    /// Heat-shrink tube with glue.
    Shrink {
        /// Wire it goes over.
        size: WireSize,
        /// Outside diameter of that wire.
        over: Length,
    },
    /// Fuses.
    Fuse {
        /// Family.
        family: FuseFamily,
        /// Rating.
        rating: Current,
    },
    /// Holders of single fuses.
    Holder {
        /// Family of the fuse.
        family: FuseFamily,
        /// What kind of holder, where one is listed for the wire.
        name: Option<&'static str>,
        /// The largest wire that ends there.
        wire: Option<WireSize>,
    },
    /// Bus bars, fuse blocks, breakers, switches, shunts, splices, tanks.
    Item {
        /// Its kind.
        kind: Kind,
        /// Its part.
        part: Option<String>,
        /// What people call it.
        label: String,
    },
    /// Tube or loom for trunks that are one.
    Conduit {
        /// Area that the wires in it fill at most, insulation included.
        filled: CrossSection,
    },
    /// Grommets, where wires go through a wall or a lining.
    Grommet,
    /// Clips along the walls.
    Clip,
    /// Ties round wires that run together.
    CableTie,
    /// Labels, one at each end of a wire.
    Label,
    /// Planks and battens of one size.
    Plank {
        /// Material, as typed.
        material: String,
        /// Width that one covers.
        width: Option<Length>,
        /// Thickness.
        thickness: Length,
        /// Length of one.
        length: Length,
    },
    /// Sheets of one size.
    Sheet {
        /// Foam boards.
        foam: bool,
        /// Material, as typed.
        material: String,
        /// Length of one.
        length: Length,
        /// Width of one.
        width: Length,
        /// Thickness.
        thickness: Length,
    },
    /// Screws or nails for the lining.
    LiningScrew,
    /// Tape over the seams of foam.
    FoamTape,
    /// Adhesive for foam, as the length of its beads.
    FoamAdhesive,
    /// Cover strips along the edges of the lining and round openings.
    CoverStrip,
}

/// What a line is for.
#[derive(Debug, Clone, PartialEq)]
pub struct Use {
    /// Path of the element in the project file: `wire`, `item` or `trunk`
    /// and its id.
    pub of: (&'static str, Id),
    /// How much of it.
    pub amount: Amount,
}

/// A value to type so that more can be counted.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Asked {
    /// Path in the project file.
    pub path: Vec<String>,
    /// What it is wanted for.
    pub why: AskedFor,
}

/// What a value is wanted for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum AskedFor {
    /// The wire has no size: it cannot be bought.
    Size,
    /// The wire has neither a length nor a route.
    Length,
    /// Nothing says what the wire is joined to there; the kind of gear is not
    /// known.
    Terminal,
    /// No lug is sold for this wire and that stud.
    Lug,
    /// The fuse has no rating.
    Rating,
    /// The piece in the shed has no length, so nothing can be cut from it.
    PieceLength,
    /// What it costs is not known.
    Price,
    /// The size of what is in the shed is not known.
    PieceSize,
    /// The layer cannot be laid out without it.
    Layer,
}

/// How wire is cut from what is there.
#[derive(Debug, Clone, PartialEq)]
pub struct CutList {
    /// Pieces that are there, each with its cuts.
    pub pieces: Vec<CutPiece>,
    /// Cuts that no piece had room for: from what is bought.
    pub rest: Vec<Cut>,
    /// Whether no other cutting uses more of what is there.
    pub proven: bool,
}

/// A piece of wire in the shed with what is cut from it.
#[derive(Debug, Clone, PartialEq)]
pub struct CutPiece {
    /// Which entry of the stock.
    pub stock: Id,
    /// Which of its pieces, from 1.
    pub number: u32,
    /// How long it is.
    pub length: Length,
    /// What is cut from it, longest first.
    pub cuts: Vec<Cut>,
    /// What is left of it.
    pub left: Length,
}

/// One cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    /// The wire.
    pub wire: Id,
    /// Its length, waste left out.
    pub length: Length,
}

impl TakeOff {
    /// Share by which `more` exceeds nothing: waste over what is needed.
    pub fn waste_share(line: &Line) -> Option<Ratio> {
        match (line.more, line.needed) {
            (Amount::Length(more), Amount::Length(needed)) if needed.metres() > 0.0 => {
                Some(Ratio::from_fraction(more / needed))
            }
            _ => None,
        }
    }
}
