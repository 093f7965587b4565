//! Circuits and the systematic names of their wires: a letter for the block
//! that feeds them, the number of the way, plus or minus; `M` for main wires,
//! `S` for solar ones.

use super::walk::{Walk, Walker};
use crate::result::{Assessment, Side};
use std::collections::{BTreeMap, BTreeSet};
use wainwright_model::{FieldExt, Id, Kind, Project, Spec, TerminalRef};

/// Letters of blocks; `M` and `S` have a meaning of their own.
const LETTERS: &[u8] = b"ABCDEFGHIJKLNOPQRTUVWXYZ";
/// Where the minus of a circuit joins that of others.
const COMMON: &[Kind] = &[Kind::BusBar, Kind::Frame, Kind::Shunt, Kind::FuseBlock];
/// Where the plus of a main circuit joins that of others.
const FEEDS: &[Kind] = &[Kind::BusBar, Kind::Frame, Kind::FuseBlock];

/// All circuits.
#[derive(Default)]
pub(super) struct Circuits {
    names: BTreeMap<Id, Name>,
    /// Ways with fuses, in file order.
    pub(super) ways: Vec<WayOf>,
    /// Pieces named so far of each circuit and side.
    pieces: BTreeMap<(String, Option<bool>), usize>,
}

/// One way of a block.
pub(super) struct WayOf {
    pub(super) block: Id,
    pub(super) letter: String,
    pub(super) way: u32,
    /// Gear behind it, nearest first.
    pub(super) gear: Vec<Id>,
}

/// The systematic name of a wire.
struct Name {
    circuit: String,
    piece: usize,
    plus: Option<bool>,
}

/// Circuits of a project, by its wires as drawn.
pub(super) fn circuits(project: &Project, assessment: &Assessment) -> Circuits {
    let walker = Walker::new(project);
    let mut circuits = Circuits::default();
    let blocks = project.items.iter().filter(|(_, item)| fused(&item.spec));
    for (index, (block, item)) in blocks.enumerate() {
        let ways = item.spec.ways().unwrap_or(0);
        for way in 1..=ways {
            circuits.way(&walker, block, letter(index), way, &item.spec);
        }
    }
    let mut counts = [0, 0];
    for (id, item) in project.items.iter() {
        if passes_on(item.spec.kind()) {
            continue;
        }
        for plus in item.spec.terminals().iter().filter(|t| t.ends_with('+')) {
            circuits.main(&walker, id, plus, &mut counts);
        }
    }
    for (id, _) in project.wires.iter() {
        if !circuits.names.contains_key(id) {
            counts[0] += 1;
            let plus = match assessment.wire(id.as_str()).map(|wire| wire.side) {
                Some(Side::Plus) => Some(true),
                Some(Side::Minus) => Some(false),
                _ => None,
            };
            circuits.name(id, format!("M{}", counts[0]), plus);
        }
    }
    circuits
}

impl Circuits {
    /// One way of a block: what hangs on it, and the returns of that gear.
    fn way(&mut self, walker: &Walker<'_>, block: &Id, letter: String, way: u32, spec: &Spec) {
        let terminal = match spec {
            Spec::SwitchBank(_) => format!("out{way}"),
            _ => way.to_string(),
        };
        let start = TerminalRef {
            item: block.clone(),
            terminal,
        };
        let plus = walker.walk(&start, &[Kind::FuseBlock]);
        let circuit = format!("{letter}{way}");
        self.take(&plus, &circuit, true);
        let mut gear: Vec<Id> = Vec::new();
        for end in &plus.ends {
            if let Some(minus) = minus_of(end) {
                self.take(&walker.walk(&minus, COMMON), &circuit, false);
            }
            if !gear.contains(&end.item) {
                gear.push(end.item.clone());
            }
        }
        self.ways.push(WayOf {
            block: block.clone(),
            letter,
            way,
            gear,
        });
    }

    /// A pair of terminals that no block feeds.
    fn main(&mut self, walker: &Walker<'_>, item: &Id, plus: &str, counts: &mut [u32; 2]) {
        let start = TerminalRef {
            item: item.clone(),
            terminal: plus.to_owned(),
        };
        let there = walker.walk(&start, FEEDS);
        let back = minus_of(&start).map(|minus| walker.walk(&minus, COMMON));
        let back = back.unwrap_or_default();
        let new = |walk: &Walk| walk.wires.iter().any(|id| !self.names.contains_key(id));
        if !new(&there) && !new(&back) {
            return;
        }
        let module = |id: &Id| walker.kind(id) == Some(Kind::SolarModule);
        let solar = module(item) || there.ends.iter().any(|end| module(&end.item));
        counts[usize::from(solar)] += 1;
        let letter = if solar { 'S' } else { 'M' };
        let circuit = format!("{letter}{}", counts[usize::from(solar)]);
        self.take(&there, &circuit, true);
        self.take(&back, &circuit, false);
    }

    /// Names the wires of a walk that have no name yet.
    fn take(&mut self, walk: &Walk, circuit: &str, plus: bool) {
        for id in &walk.wires {
            if !self.names.contains_key(id) {
                self.name(id, circuit.to_owned(), Some(plus));
            }
        }
    }

    fn name(&mut self, id: &Id, circuit: String, plus: Option<bool>) {
        let count = self.pieces.entry((circuit.clone(), plus)).or_insert(0);
        let piece = *count;
        *count += 1;
        let name = Name {
            circuit,
            piece,
            plus,
        };
        self.names.insert(id.clone(), name);
    }

    /// Whether a wire is a main one.
    pub(super) fn is_main(&self, id: &Id) -> bool {
        let name = self.names.get(id);
        name.is_some_and(|name| name.circuit.starts_with('M'))
    }

    /// Plus or minus by the circuit.
    pub(super) fn side(&self, id: &Id) -> Option<Side> {
        match self.names.get(id)?.plus? {
            true => Some(Side::Plus),
            false => Some(Side::Minus),
        }
    }

    /// Labels of all wires: the one typed, else the systematic name, which
    /// gives way to the next piece's where somebody typed the same.
    pub(super) fn labels(&self, project: &Project) -> BTreeMap<Id, (String, bool)> {
        let typed = project.wires.iter();
        let typed = typed.filter_map(|(id, wire)| Some((id, wire.label.value()?)));
        let typed: BTreeMap<&Id, &String> = typed.collect();
        let mut used: BTreeSet<String> = typed.values().map(|label| (*label).clone()).collect();
        let mut labels = BTreeMap::new();
        for id in project.wires.ids() {
            let label = match (typed.get(id), self.names.get(id)) {
                (Some(label), _) => ((*label).clone(), false),
                (None, Some(name)) => (name.free(&mut used), true),
                (None, None) => (id.to_string(), true),
            };
            labels.insert(id.clone(), label);
        }
        labels
    }
}

impl Name {
    /// The first text from this piece on that nobody uses.
    fn free(&self, used: &mut BTreeSet<String>) -> String {
        let sign = match self.plus {
            Some(true) => "+",
            Some(false) => "-",
            None => "",
        };
        let mut piece = self.piece;
        loop {
            let text = format!("{}{}{sign}", self.circuit, piece_name(piece));
            // There are fewer labels in use than numbers.
            if used.insert(text.clone()) {
                return text;
            }
            piece += 1;
        }
    }
}

/// Nothing for the first piece of a circuit, then `b`, `c` …
fn piece_name(piece: usize) -> String {
    match u8::try_from(piece) {
        Ok(0) => String::new(),
        Ok(piece) if piece < 26 => char::from(b'a' + piece).to_string(),
        _ => format!(".{}", piece + 1),
    }
}

/// Letter of the block with this number, from 0: A to Z, then AA.
fn letter(index: usize) -> String {
    let (before, own) = (index / LETTERS.len(), index % LETTERS.len());
    let last = char::from(LETTERS[own]);
    match before {
        0 => last.to_string(),
        more => format!("{}{last}", letter(more - 1)),
    }
}

/// Whether a block or bank has fuses.
fn fused(spec: &Spec) -> bool {
    match spec {
        Spec::FuseBlock(_) => true,
        Spec::SwitchBank(bank) => bank.fuses.is_some(),
        _ => false,
    }
}

/// Items that are no gear of their own: they pass on, or store.
fn passes_on(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Battery
            | Kind::Fuse
            | Kind::Breaker
            | Kind::FuseBlock
            | Kind::BusBar
            | Kind::Switch
            | Kind::SwitchBank
            | Kind::Shunt
            | Kind::Frame
            | Kind::Splice
    )
}

/// The minus terminal that belongs to a plus terminal.
fn minus_of(plus: &TerminalRef) -> Option<TerminalRef> {
    let name = plus.terminal.strip_suffix('+')?;
    Some(TerminalRef {
        item: plus.item.clone(),
        terminal: format!("{name}-"),
    })
}
