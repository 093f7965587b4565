//! The desk a plan is drawn up at: the survey, the draft, the bars that
//! circuits start and end at. Not here: what is drawn (the builders).

use super::account::{Account, ObstacleKind};
use super::draft::{Draft, End, Laid, NewKind, Reach, end};
use super::limits;
use super::room::Room;
use super::survey::Survey;
use super::{Options, spine};
use std::collections::{BTreeMap, BTreeSet};
use wainwright_analysis::Assessment;
use wainwright_model::{Project, Spot};
use wainwright_reference::colour::ColourRole;

/// Everything at hand while a plan is drawn up.
pub(super) struct Desk<'a> {
    pub(super) survey: Survey<'a>,
    pub(super) draft: Draft,
    pub(super) account: Account,
    pub(super) options: &'a Options,
    pub(super) room: Room,
    /// Items of the file that a check ruled out.
    pub(super) banned: BTreeSet<String>,
    /// The bar circuits start at.
    pub(super) plus: Option<Bar>,
    /// The bar circuits return to.
    pub(super) minus: Option<Bar>,
    /// Nominal voltage of the system \[V\].
    pub(super) volts: f64,
    /// Highest voltage while charging \[V\].
    pub(super) highest: f64,
    /// Circuits so far, for labels.
    pub(super) circuits: usize,
    /// Share of its drop limit that a load is planned to, by id, where a
    /// check asked for less than usual.
    pub(super) rooms: BTreeMap<String, f64>,
}

/// A bar, or several linked ones.
#[derive(Debug, Clone)]
pub(super) struct Bar {
    pieces: Vec<Piece>,
    /// Section that a link to a further bar belongs to.
    section: usize,
    plus: bool,
}

#[derive(Debug, Clone)]
struct Piece {
    id: String,
    old: bool,
    /// Wires at each stud.
    studs: Vec<u32>,
}

impl<'a> Desk<'a> {
    /// A desk for a project.
    pub(super) fn new(
        project: &'a Project,
        assessment: &'a Assessment,
        options: &'a Options,
        banned: &BTreeSet<String>,
    ) -> Self {
        let mut desk = Self {
            survey: Survey::new(project, assessment),
            draft: Draft::new(project),
            account: Account::default(),
            options,
            room: Room::new(project),
            banned: banned.clone(),
            plus: None,
            minus: None,
            volts: 0.0,
            highest: 0.0,
            circuits: 0,
            rooms: BTreeMap::new(),
        };
        for id in desk.never() {
            let label = desk.survey.label(&id);
            let text = format!(
                "{label} is not used: it closes again by itself while a short circuit is still there."
            );
            if desk.survey.is_untouched(&id) {
                desk.account.cannot(ObstacleKind::Unused, text, &[&id]);
            }
            desk.banned.insert(id);
        }
        desk
    }

    /// Draws up everything.
    pub(super) fn draw(&mut self) {
        if !spine::draw(self) {
            return;
        }
        self.link_bars();
        self.inverters();
        self.chargers();
        self.solar();
        self.loads();
        self.bond();
    }

    /// A short word for the next circuit's labels.
    pub(super) fn next(&mut self, letter: char) -> String {
        loop {
            self.circuits += 1;
            let label = format!("{letter}{}", self.circuits);
            if self.draft.is_label_free(&label) {
                return label;
            }
        }
    }

    /// Whether both of these have a place.
    pub(super) fn placed(&self, one: &str, other: &str) -> bool {
        self.spot(one).is_some() && self.spot(other).is_some()
    }

    /// Where an item of the file or of the draft is.
    pub(super) fn spot(&self, id: &str) -> Option<Spot> {
        let old = self.survey.project.items.get(id);
        if let Some(item) = old {
            return item.body.spot.as_ref().map(|given| given.value);
        }
        let new = self.draft.items.iter().find(|item| item.id == id)?;
        new.spot
    }

    /// A free stud of a bar; a further bar is linked where all are taken.
    pub(super) fn stud(&mut self, plus: bool) -> Option<End> {
        let mut bar = match plus {
            true => self.plus.take()?,
            false => self.minus.take()?,
        };
        let found = bar.free().unwrap_or_else(|| self.extend(&mut bar));
        match plus {
            true => self.plus = Some(bar),
            false => self.minus = Some(bar),
        }
        Some(found)
    }

    /// Links one more bar to a full one.
    fn extend(&mut self, bar: &mut Bar) -> End {
        let (name, label) = match bar.plus {
            true => ("plus-bus", "Further plus bus bar"),
            false => ("minus-bus", "Further minus bus bar"),
        };
        let kind = NewKind::Bus {
            section: bar.section,
            used: 0,
        };
        let id = self.draft.item(name, label, kind, self.room.hub);
        let from = bar
            .pieces
            .last()
            .map_or_else(|| end(&id, "2"), |p| end(&p.id, "1"));
        let role = if bar.plus {
            ColourRole::PlusMain
        } else {
            ColourRole::Minus
        };
        let laid = Laid::open(bar.section, role, Reach::Cut(self.room.lead()));
        let label = if bar.plus { "B-link+" } else { "B-link-" };
        self.draft
            .wire(&format!("{id}-link"), label, (from, end(&id, "1")), laid);
        bar.pieces.push(Piece {
            id,
            old: false,
            studs: vec![1],
        });
        bar.free().unwrap_or_else(|| end("", ""))
    }

    /// A new bar, or one of the file that is not wired yet.
    pub(super) fn new_bar(&mut self, plus: bool, section: usize) -> Bar {
        let floating = self.survey.loose_bars(plus).into_iter().next();
        if let Some(id) = floating {
            return self.old_bar(&id, plus, section);
        }
        let words = if plus {
            "plus positive"
        } else {
            "minus negative"
        };
        if let Some(id) = self.adopt(&[wainwright_model::Kind::BusBar], words) {
            return self.old_bar(&id, plus, section);
        }
        let (name, label) = match plus {
            true => ("plus-bus", "Plus bus bar"),
            false => ("minus-bus", "Minus bus bar"),
        };
        let kind = NewKind::Bus { section, used: 0 };
        let id = self.draft.item(name, label, kind, self.room.hub);
        Bar {
            pieces: vec![Piece {
                id,
                old: false,
                studs: Vec::new(),
            }],
            section,
            plus,
        }
    }

    /// Joins bars of the file that no battery is joined to with the bar of
    /// their side.
    pub(super) fn link_bars(&mut self) {
        for plus in [true, false] {
            let bar = if plus { &self.plus } else { &self.minus };
            let Some(section) = bar.as_ref().map(|bar| bar.section) else {
                continue;
            };
            let known = self.bar_id(plus);
            for id in self.survey.loose_bars(plus) {
                if id == known {
                    continue;
                }
                let mut other = self.old_bar(&id, plus, section);
                let (Some(from), Some(to)) = (self.stud(plus), other.free()) else {
                    continue;
                };
                let (role, label) = match plus {
                    true => (ColourRole::PlusMain, "B-link+"),
                    false => (ColourRole::Minus, "B-link-"),
                };
                let laid = Laid::open(section, role, Reach::Cut(self.room.lead()));
                self.draft
                    .wire(&format!("{id}-link"), label, (from, to), laid);
            }
        }
    }

    /// A bar of the file.
    pub(super) fn old_bar(&self, id: &str, plus: bool, section: usize) -> Bar {
        let item = self.survey.project.items.get(id);
        let ways = item.and_then(|item| item.spec.ways()).unwrap_or(MOST_FREE);
        let wires = |way: u32| {
            let count = self.survey.count(id, &way.to_string());
            u32::try_from(count).unwrap_or(u32::MAX)
        };
        Bar {
            pieces: vec![Piece {
                id: id.to_string(),
                old: true,
                studs: (1..=ways).map(wires).collect(),
            }],
            section,
            plus,
        }
    }

    /// Tells new bars how many studs are used.
    pub(super) fn close_bars(&mut self) {
        let bars = [self.plus.take(), self.minus.take()];
        for piece in bars.iter().flatten().flat_map(|bar| &bar.pieces) {
            let count = u32::try_from(piece.studs.len()).unwrap_or(limits::MOST_STUDS);
            if let Some(item) = self.draft.item_mut(&piece.id)
                && let NewKind::Bus { used, .. } = &mut item.kind
            {
                *used = count;
            }
        }
        let [plus, minus] = bars;
        (self.plus, self.minus) = (plus, minus);
    }

    /// The bar's item, for lengths.
    pub(super) fn bar_id(&self, plus: bool) -> String {
        let bar = if plus { &self.plus } else { &self.minus };
        bar.as_ref()
            .and_then(|bar| bar.pieces.last())
            .map_or_else(String::new, |piece| piece.id.clone())
    }
}

/// Studs of a bar of the file that does not say how many it has.
const MOST_FREE: u32 = 12;

impl Bar {
    /// The section its own lead belongs to.
    pub(super) fn section(&self) -> usize {
        self.section
    }

    /// The stud with fewest wires: a new bar gets one stud for each wire, a
    /// bar of the file is filled evenly.
    fn free(&mut self) -> Option<End> {
        for piece in &mut self.pieces {
            if !piece.old {
                let next = u32::try_from(piece.studs.len()).unwrap_or(u32::MAX);
                if next < limits::MOST_STUDS {
                    piece.studs.push(1);
                    return Some(end(&piece.id, &(next + 1).to_string()));
                }
                continue;
            }
            let fewest = piece.studs.iter().copied().min()?;
            if fewest < limits::LUGS {
                let way = piece.studs.iter().position(|wires| *wires == fewest)?;
                piece.studs[way] += 1;
                return Some(end(&piece.id, &(way + 1).to_string()));
            }
        }
        None
    }
}
