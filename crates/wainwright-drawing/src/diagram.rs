//! What a wiring schematic shows, as plain data. No positions are in here:
//! they are the work of [`crate::layout`].

/// A whole schematic: devices and the wires between their terminals.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Diagram {
    /// The devices. Ids should be unique; a repeated id is drawn, but links go to the first.
    pub blocks: Vec<Block>,
    /// The wires. A wire whose end names no known block is left out and reported.
    pub links: Vec<Link>,
}

/// One device.
#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// Id in the project text.
    pub id: String,
    /// What the person calls it.
    pub title: String,
    /// Short facts below the title, e.g. `280 Ah LFP`.
    pub lines: Vec<String>,
    /// What it is: decides its symbol and its place.
    pub kind: BlockKind,
    /// Its terminals, in the order in which they are found on the device.
    pub terminals: Vec<Terminal>,
    /// How it fares.
    pub state: Tone,
    /// Very short mark in the corner, e.g. a count of findings.
    pub badge: Option<String>,
}

/// One terminal of a block.
#[derive(Debug, Clone, PartialEq)]
pub struct Terminal {
    /// Id within the block, e.g. `in`, `out+`, `3`.
    pub id: String,
    /// What is printed beside it; may be empty.
    pub label: String,
    /// Which side of the supply it belongs to.
    pub pole: Pole,
    /// Short fact, e.g. a fuse rating `15 A`.
    pub note: Option<String>,
}

/// One wire between two terminals.
#[derive(Debug, Clone, PartialEq)]
pub struct Link {
    /// Id in the project text.
    pub id: String,
    /// One end.
    pub from: End,
    /// The other end. The order of the ends does not change the layout much; it is kept in the path.
    pub to: End,
    /// Which side of the supply the wire belongs to.
    pub pole: Pole,
    /// What the wire is, e.g. `10 AWG · 12 ft`.
    pub label: String,
    /// What it carries, e.g. `8.3 A`.
    pub value: Option<String>,
    /// How it fares.
    pub tone: Tone,
    /// Drawn thickness class, 0 (thinnest) to 5 (thickest); larger is drawn as 5.
    pub thickness: u8,
    /// Drawn dashed: the return goes through a frame, not through a wire.
    pub dashed: bool,
}

/// One end of a link: a block id and a terminal id.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct End {
    /// Block id.
    pub block: String,
    /// Terminal id within the block.
    pub terminal: String,
}

impl End {
    /// The end at `terminal` of `block`.
    pub fn new(block: impl Into<String>, terminal: impl Into<String>) -> Self {
        Self {
            block: block.into(),
            terminal: terminal.into(),
        }
    }
}

/// Which side of the supply a terminal or wire belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pole {
    /// Supply side.
    Plus,
    /// Return side.
    Minus,
    /// Neither, e.g. a protective bond.
    Neutral,
}

impl Pole {
    /// The word used in class names and sentences.
    pub fn word(self) -> &'static str {
        match self {
            Self::Plus => "plus",
            Self::Minus => "minus",
            Self::Neutral => "neutral",
        }
    }
}

/// How a thing fares; becomes a class, and a mark that does not need colour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Tone {
    /// Nothing to say.
    Calm,
    /// Near a limit.
    Watch,
    /// Over a limit.
    Bad,
    /// Carries nothing.
    Off,
    /// On a scale from 0 to 1; values outside are drawn at the ends, not-a-number as 0.
    Scale(f64),
}

impl Tone {
    /// Class name: a word, or `s0` to `s10` in tenths of the scale.
    pub fn class(self) -> String {
        match self {
            Self::Calm => "calm".into(),
            Self::Watch => "watch".into(),
            Self::Bad => "bad".into(),
            Self::Off => "off".into(),
            Self::Scale(share) => format!("s{}", (within(share) * 10.0).round() as u8),
        }
    }

    /// Words for the sentence read aloud; empty when there is nothing to say.
    pub fn words(self) -> String {
        match self {
            Self::Calm => String::new(),
            Self::Watch => "near a limit".into(),
            Self::Bad => "over a limit".into(),
            Self::Off => "off".into(),
            Self::Scale(share) => {
                format!("at {:.0} % of the scale", within(share) * 100.0)
            }
        }
    }
}

/// A share held between 0 and 1; not-a-number is 0.
fn within(share: f64) -> f64 {
    if share.is_nan() {
        0.0
    } else {
        share.clamp(0.0, 1.0)
    }
}

macro_rules! block_kinds {
    ($($(#[$doc:meta])* $name:ident = $key:literal, $words:literal;)*) => {
        /// What a block is.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum BlockKind { $($(#[$doc])* $name,)* }

        impl BlockKind {
            /// Every kind, in declaration order.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            /// Machine word, as in `data-kind`.
            pub fn key(self) -> &'static str {
                match self { $(Self::$name => $key,)* }
            }

            /// Word for people.
            pub fn words(self) -> &'static str {
                match self { $(Self::$name => $words,)* }
            }
        }
    };
}

block_kinds! {
    /// Stores energy.
    Battery = "battery", "Battery";
    /// Solar module.
    SolarModule = "solar-module", "Solar module";
    /// Solar charge controller.
    Controller = "controller", "Solar controller";
    /// Charger from shore or vehicle.
    Charger = "charger", "Charger";
    /// Direct to alternating current.
    Inverter = "inverter", "Inverter";
    /// Single fuse.
    Fuse = "fuse", "Fuse";
    /// Single circuit breaker.
    Breaker = "breaker", "Breaker";
    /// Many fuses behind one inlet.
    FuseBlock = "fuse-block", "Fuse block";
    /// One node with many lugs.
    BusBar = "bus-bar", "Bus bar";
    /// Single switch.
    Switch = "switch", "Switch";
    /// Row of switches.
    SwitchBank = "switch-bank", "Switch bank";
    /// Current-measuring resistor.
    Shunt = "shunt", "Shunt";
    /// Socket for a plug.
    Outlet = "outlet", "Outlet";
    /// Anything that uses power.
    Load = "load", "Load";
    /// Metal frame used as conductor.
    Frame = "frame", "Frame";
    /// Joint of wires.
    Splice = "splice", "Splice";
    /// Supply from outside, e.g. the tow vehicle.
    Supply = "supply", "Supply";
}
