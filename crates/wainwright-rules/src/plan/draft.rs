//! A plan while it is drawn up: new items, new wires, and the sections that
//! are sized as one. Not here: why something is drawn (the builders), which
//! size it gets (`choose`), how it becomes text (`write`).

use std::collections::{BTreeMap, BTreeSet};
use wainwright_model::{Project, Spot, Surrounding, SwitchStyle};
use wainwright_reference::colour::ColourRole;
use wainwright_reference::protection::Family;
use wainwright_units::Length;

/// A terminal by name: item and terminal.
pub(super) type End = (String, String);

/// A terminal from its two names.
pub(super) fn end(item: &str, terminal: &str) -> End {
    (item.to_string(), terminal.to_string())
}

/// Everything that is added.
#[derive(Debug, Clone, Default)]
pub(super) struct Draft {
    pub(super) items: Vec<NewItem>,
    pub(super) wires: Vec<NewWire>,
    pub(super) sections: Vec<Section>,
    /// Fuse blocks by id, those of the file and new ones.
    pub(super) blocks: BTreeMap<String, Block>,
    /// Items of the file that had no wire yet and are used.
    pub(super) adopted: Vec<String>,
    taken_items: BTreeSet<String>,
    taken_wires: BTreeSet<String>,
    taken_labels: BTreeSet<String>,
}

/// An item that is added.
#[derive(Debug, Clone)]
pub(super) struct NewItem {
    pub(super) id: String,
    pub(super) label: String,
    pub(super) kind: NewKind,
    pub(super) spot: Option<Spot>,
}

/// What an added item is.
#[derive(Debug, Clone)]
pub(super) enum NewKind {
    /// A fuse, sized with its section.
    Fuse { section: usize },
    /// A switch that bears the current of its section.
    Switch {
        section: usize,
        style: SwitchStyle,
        /// Highest voltage at it \[V\].
        volts: f64,
    },
    /// A bus bar with so many studs in use.
    Bus { section: usize, used: u32 },
    /// A fuse block; its ways are in [`Draft::blocks`].
    Block { section: usize },
    /// A joint of wires.
    Splice,
    /// The trailer's frame.
    Frame,
}

/// A fuse block.
#[derive(Debug, Clone)]
pub(super) struct Block {
    /// Whether it is in the file.
    pub(super) old: bool,
    pub(super) ways: Vec<BlockWay>,
    /// Current of all its ways \[A\], by estimate.
    pub(super) amps: f64,
    /// Most current of the block \[A\].
    pub(super) most: f64,
}

/// One way of a fuse block.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct BlockWay {
    /// The rating in the file \[A\].
    pub(super) fixed: Option<f64>,
    /// Whether a wire is at it, of the file or of the plan.
    pub(super) used: bool,
    /// The section whose fuse sits in it.
    pub(super) section: Option<usize>,
}

/// A wire that is added.
#[derive(Debug, Clone)]
pub(super) struct NewWire {
    pub(super) id: String,
    pub(super) label: String,
    pub(super) from: End,
    pub(super) to: End,
    pub(super) section: usize,
    pub(super) reach: Reach,
    pub(super) runs: Option<Surrounding>,
    pub(super) bundle: Option<u32>,
    pub(super) sheathed: bool,
    pub(super) role: ColourRole,
}

/// How long a wire is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Reach {
    /// To be cut to this: both ends are placed to suit.
    Cut(Length),
    /// Assumed from the size of the trailer.
    Assumed(Length),
    /// Both ends are placed: its route decides.
    Routed,
}

/// Wires of one size behind one protection.
#[derive(Debug, Clone)]
pub(super) struct Section {
    /// What it serves, in words.
    pub(super) name: String,
    /// Wires of the draft (indices).
    pub(super) wires: Vec<usize>,
    pub(super) guard: Guard,
    pub(super) insulation: &'static str,
    /// Current it is made for at least \[A\]: what the gear is rated for.
    pub(super) rated: f64,
    /// Rating its fuse needs at least for other reasons than load \[A\].
    pub(super) least: f64,
    /// Rating its fuse should have, where wire for it is sold \[A\].
    pub(super) wish: f64,
    /// Largest rating its fuse may have \[A\]: what wires of the file behind it
    /// bear, where a check found that out.
    pub(super) most: f64,
    /// Smallest size by area \[mm²\], raised where a check asked for it.
    pub(super) floor: f64,
}

/// What keeps the current of a section within what it bears.
#[derive(Debug, Clone)]
pub(super) enum Guard {
    /// Its own fuse.
    Own(Device),
    /// The fuses of these sections together.
    Sum(Vec<usize>),
    /// The source cannot give more than this \[A\].
    Source(f64),
    /// It is as thick as another section: a bond.
    As(usize),
    /// A fuse of the file with this rating \[A\], where it is known.
    Existing(Option<f64>),
}

/// The fuse of a section.
#[derive(Debug, Clone)]
pub(super) struct Device {
    pub(super) item: String,
    /// Way of a block, or 0.
    pub(super) way: usize,
    /// Families it may be of.
    pub(super) families: Vec<Family>,
    /// Rating in the file \[A\].
    pub(super) fixed: Option<f64>,
    /// Whether it is an item of the file.
    pub(super) old: bool,
    /// Families that a check ruled out.
    pub(super) barred: Vec<Family>,
    /// Voltage it must be marked for where families do not say it \[V\].
    pub(super) marked: Option<f64>,
}

impl Draft {
    /// An empty draft for a project whose names are taken.
    pub(super) fn new(project: &Project) -> Self {
        let labels = project.wires.iter();
        Self {
            taken_items: project.items.ids().map(ToString::to_string).collect(),
            taken_wires: project.wires.ids().map(ToString::to_string).collect(),
            taken_labels: labels
                .filter_map(|(_, wire)| wire.label.as_ref().map(|l| l.value.clone()))
                .collect(),
            ..Self::default()
        }
    }

    /// Adds an item under a free name made of `base`.
    pub(super) fn item(
        &mut self,
        base: &str,
        label: &str,
        kind: NewKind,
        spot: Option<Spot>,
    ) -> String {
        let id = free(base, &mut self.taken_items);
        self.items.push(NewItem {
            id: id.clone(),
            label: label.to_string(),
            kind,
            spot,
        });
        id
    }

    /// Adds a section without wires.
    pub(super) fn section(
        &mut self,
        name: &str,
        guard: Guard,
        insulation: &'static str,
        rated: f64,
    ) -> usize {
        self.sections.push(Section {
            name: name.to_string(),
            wires: Vec::new(),
            guard,
            insulation,
            rated,
            least: 0.0,
            wish: 0.0,
            most: f64::INFINITY,
            floor: 0.0,
        });
        self.sections.len() - 1
    }

    /// Adds a wire to a section; its name and label are made free.
    pub(super) fn wire(&mut self, base: &str, label: &str, ends: (End, End), laid: Laid) {
        let id = free(base, &mut self.taken_wires);
        let label = free_label(label, &mut self.taken_labels);
        if let Some(section) = self.sections.get_mut(laid.section) {
            section.wires.push(self.wires.len());
        }
        self.wires.push(NewWire {
            id,
            label,
            from: ends.0,
            to: ends.1,
            section: laid.section,
            reach: laid.reach,
            runs: laid.runs,
            bundle: laid.bundle,
            sheathed: laid.sheathed,
            role: laid.role,
        });
    }

    /// Whether no wire is labelled so, with or without a sign.
    pub(super) fn is_label_free(&self, label: &str) -> bool {
        let signs = ["", "+", "-", "s"];
        !signs
            .iter()
            .any(|sign| self.taken_labels.contains(&format!("{label}{sign}")))
    }

    /// The own fuse of a section.
    pub(super) fn device(&self, section: usize) -> Option<&Device> {
        match &self.sections.get(section)?.guard {
            Guard::Own(device) => Some(device),
            _ => None,
        }
    }

    /// The item of the draft with this id.
    pub(super) fn item_mut(&mut self, id: &str) -> Option<&mut NewItem> {
        self.items.iter_mut().find(|item| item.id == id)
    }
}

/// How a wire is laid.
#[derive(Debug, Clone, Copy)]
pub(super) struct Laid {
    pub(super) section: usize,
    pub(super) reach: Reach,
    pub(super) role: ColourRole,
    pub(super) runs: Option<Surrounding>,
    pub(super) bundle: Option<u32>,
    pub(super) sheathed: bool,
}

impl Laid {
    /// A wire in the open, alone.
    pub(super) fn open(section: usize, role: ColourRole, reach: Reach) -> Self {
        let runs = (reach != Reach::Routed).then_some(Surrounding::Open);
        Self {
            section,
            reach,
            role,
            runs,
            bundle: runs.map(|_| 1),
            sheathed: false,
        }
    }

    /// A heavy wire that runs apart from others, whatever way it takes.
    pub(super) fn apart(section: usize, role: ColourRole, reach: Reach) -> Self {
        Self {
            runs: Some(Surrounding::Open),
            bundle: Some(1),
            ..Self::open(section, role, reach)
        }
    }

    /// A wire that runs with others to its gear: two circuits out and back.
    pub(super) fn together(section: usize, role: ColourRole, reach: Reach) -> Self {
        let free = reach != Reach::Routed;
        Self {
            section,
            reach,
            role,
            runs: free.then_some(Surrounding::Bundle),
            bundle: free.then_some(TOGETHER),
            sheathed: false,
        }
    }
}

/// Loaded conductors that a branch wire is taken to run with: two circuits,
/// out and back. Judgement.
const TOGETHER: u32 = 4;
/// Most numbers tried for a free name; no project holds more elements.
const MOST_NAMES: usize = 10_000;
/// Longest base of a name, so that a number still fits behind it.
const LONGEST_BASE: usize = 52;

fn free(base: &str, taken: &mut BTreeSet<String>) -> String {
    let short: String = base.chars().take(LONGEST_BASE).collect();
    let found = std::iter::once(short.clone())
        .chain((2..MOST_NAMES).map(|number| format!("{short}-{number}")))
        .find(|id| !taken.contains(id))
        .unwrap_or(short);
    taken.insert(found.clone());
    found
}

/// `L` with the sign kept last: the next free of `L1+`, `L2+` … is found by
/// the caller's number; a label that is taken gets a stroke and a number.
fn free_label(label: &str, taken: &mut BTreeSet<String>) -> String {
    let found = std::iter::once(label.to_string())
        .chain((2..MOST_NAMES).map(|number| format!("{label}/{number}")))
        .find(|text| !taken.contains(text))
        .unwrap_or_else(|| label.to_string());
    taken.insert(found.clone());
    found
}
