//! The wiring as a single-line overview: from the project to plain data for
//! the drawing. Not here: drawing, and the way along the wires (`walk`).

mod walk;

use crate::study::Study;
use crate::views::road::words;
use crate::web::html::count;
use crate::web::schematic::{Colour, Shown, Tones, facts, kind};
use std::collections::BTreeMap;
use wainwright_drawing::single_line::{self, Branch, Feed, Item, Options, SingleLine};
use wainwright_drawing::{Css, Picture, Style};
use wainwright_model::{FieldExt, Kind, Spec};
use wainwright_units::{Quantity, System};
use walk::{Found, Plus, Step};

/// Draws an overview so wide [px] as text for the page.
pub fn drawn(line: &SingleLine, width: f64, prefix: &str, title: &str) -> String {
    let style = Style {
        title: title.to_owned(),
        id_prefix: prefix.to_owned(),
        css: Css::OnPage,
    };
    picture(line, width, prefix).svg(&style)
}

/// Draws an overview so wide [px].
pub fn picture(line: &SingleLine, width: f64, prefix: &str) -> Picture {
    let options = Options {
        width,
        id_prefix: prefix.to_owned(),
    };
    single_line::draw(line, &options)
}

/// The overview; none where no source is joined to anything.
pub fn of(study: &Study, units: System) -> Option<SingleLine> {
    let plus = Plus::of(study);
    let root = plus.root()?;
    let clerk = Clerk {
        study,
        units,
        tones: Tones::of(&Shown {
            study,
            assessment: &study.assessment,
            state: None,
            colour: Colour::Findings,
            units,
        }),
    };
    Some(clerk.line(&root))
}

/// Turns what the walk found into what is drawn.
struct Clerk<'a> {
    study: &'a Study,
    units: System,
    tones: Tones<'a>,
}

impl Clerk<'_> {
    fn line(&self, root: &Found) -> SingleLine {
        let mut feeds = Vec::new();
        for branch in &root.branches {
            self.feeds(branch, &[], &mut feeds);
        }
        let gives = self.is_source(&root.end.item);
        if gives {
            feeds.insert(0, self.feed(&root.end, "", Vec::new()));
        }
        feeds.sort_by_key(|feed| feed.source.kind != wainwright_drawing::BlockKind::Battery);
        let main = shared_end(&mut feeds);
        SingleLine {
            sources: feeds,
            main,
            bus: if gives {
                format!("{}, plus", words::item(&self.study.project, &root.end.item))
            } else {
                words::item(&self.study.project, &root.end.item)
            },
            branches: root
                .branches
                .iter()
                .flat_map(|b| self.circuits(b))
                .collect(),
        }
    }

    /// Every source behind a branch, with what lies between it and the bus.
    fn feeds(&self, found: &Found, before: &[Step], feeds: &mut Vec<Feed>) {
        let way: Vec<Step> = before.iter().chain(&found.through).cloned().collect();
        if self.is_source(&found.end.item) {
            let through = way.iter().rev().map(|step| self.item(step)).collect();
            feeds.push(self.feed(&found.end, &found.wire, through));
        }
        let hub = Step {
            item: found.end.item.clone(),
            way: None,
        };
        let further = [&way[..], &[hub]].concat();
        for branch in &found.branches {
            self.feeds(branch, &further, feeds);
        }
    }

    fn feed(&self, end: &Step, wire: &str, through: Vec<Item>) -> Feed {
        let mut source = self.item(end);
        let fed_by = walk::fed_by(self.study, &end.item);
        if !fed_by.is_empty() {
            let names: Vec<String> = fed_by
                .iter()
                .map(|id| words::item(&self.study.project, id))
                .collect();
            source.note = format!("from {}", names.join(", "));
        }
        Feed {
            source,
            wire: self.wire(wire),
            through,
        }
    }

    /// The circuits of a branch; none where only sources are behind it.
    fn circuits(&self, found: &Found) -> Vec<Branch> {
        let branches: Vec<Branch> = found
            .branches
            .iter()
            .flat_map(|b| self.circuits(b))
            .collect();
        if self.is_source(&found.end.item) {
            // What hangs on the source's own terminal is fed all the same.
            return branches;
        }
        let link = walk::is_link(walk::kind_of(self.study, &found.end.item));
        if link && branches.is_empty() && !found.branches.is_empty() {
            return Vec::new();
        }
        vec![Branch {
            through: found.through.iter().map(|step| self.item(step)).collect(),
            wire: self.wire(&found.wire),
            end: self.item(&found.end),
            branches,
        }]
    }

    fn is_source(&self, item: &str) -> bool {
        walk::is_source(walk::kind_of(self.study, item))
    }

    fn item(&self, step: &Step) -> Item {
        let id = &step.item;
        let spec = self
            .study
            .project
            .items
            .get(id.as_str())
            .map(|item| &item.spec);
        let title = words::item(&self.study.project, id);
        let own = spec.map_or(Kind::Unknown, Spec::kind);
        let note = self.note(step, spec);
        let gear = self.study.assessment.consumer(id);
        let found = self.tones.badge(id).and_then(|text| text.parse().ok());
        let about = [
            Some(title.clone()),
            (!note.is_empty()).then(|| note.clone()),
            found.map(|number: usize| count(number, "finding", "findings")),
        ];
        Item {
            id: id.clone(),
            // A way of a block is drawn as the fuse it holds.
            kind: kind(if step.way.is_some() { Kind::Fuse } else { own }),
            note,
            words: about.into_iter().flatten().collect::<Vec<_>>().join(", "),
            title,
            tone: self.tones.item(id, gear),
            selected: false,
        }
    }

    fn note(&self, step: &Step, spec: Option<&Spec>) -> String {
        let way = step.way.unwrap_or(0);
        match self.study.assessment.device(&step.item, way) {
            Some(device) => device.rating.value.show(self.units),
            None if step.way.is_some() => String::new(),
            None => spec.map_or_else(String::new, |spec| facts::facts(spec).join(" ")),
        }
    }

    /// "14 AWG · 9 ft".
    fn wire(&self, id: &str) -> String {
        if let Some(wire) = self.study.assessment.wire(id) {
            return format!(
                "{} · {}",
                wire.size.value,
                wire.length.value.show(self.units)
            );
        }
        let typed = self.study.project.wires.get(id);
        typed
            .and_then(|wire| wire.size.value())
            .map_or_else(String::new, ToString::to_string)
    }
}

/// Takes what all lines of sources end with, which stands once, before the bus.
fn shared_end(feeds: &mut [Feed]) -> Vec<Item> {
    let mut shared = Vec::new();
    loop {
        let mut last = feeds
            .iter()
            .map(|feed| feed.through.last().map(|item| item.id.as_str()));
        let first = last.next().flatten();
        if first.is_none() || last.any(|other| other != first) {
            break;
        }
        let mut taken: Vec<Item> = feeds
            .iter_mut()
            .filter_map(|feed| feed.through.pop())
            .collect();
        shared.extend(taken.pop());
    }
    shared.reverse();
    shared
}

/// Every item drawn, by its id, with its name: what can be picked.
pub fn items(study: &Study, line: &SingleLine) -> BTreeMap<String, String> {
    fn branch(all: &mut Vec<String>, one: &Branch) {
        all.extend(one.through.iter().map(|item| item.id.clone()));
        all.push(one.end.id.clone());
        for below in &one.branches {
            branch(all, below);
        }
    }
    let mut all: Vec<String> = line.main.iter().map(|item| item.id.clone()).collect();
    for feed in &line.sources {
        all.push(feed.source.id.clone());
        all.extend(feed.through.iter().map(|item| item.id.clone()));
    }
    for one in &line.branches {
        branch(&mut all, one);
    }
    let named = all.into_iter().map(|id| {
        let name = words::item(&study.project, &id);
        (id, name)
    });
    named.collect()
}
