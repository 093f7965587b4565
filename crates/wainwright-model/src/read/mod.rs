//! From text to `Project` and problems.
//!
//! Here: the order of reading. One table's fields are taken in [`fields`], parts and items joined in [`items`],
//! wires that are like others in [`wires`], references held against what there is in [`references`].
//!
//! Reading is total: whatever cannot be read becomes a problem with line and column, everything else is read.

pub(crate) mod fields;
mod items;
pub(crate) mod references;
mod wires;

use crate::elements::{
    Head, Limits, Opening, State, Stock, Towing, Trailer, Trunk, Vehicle, Weighing,
};
use crate::journey::{Climate, Living, Trip, Use};
use crate::lining::{Cabinet, Layer, Tools};
use crate::place::{Id, Table};
use crate::problem::{Complaint, Problem, ProblemSeverity, Report, did_you_mean};
use crate::project::{Part, Project};
use crate::schema::{ELEMENTS, FieldSpec, VERSION_KEY};
use crate::syntax::{
    self,
    tree::{Branch, Shape, Tree},
};
use crate::{value, version};
use fields::Fields;

/// A text as read.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Parsed {
    /// Everything that could be read.
    pub project: Project,
    /// Everything that could not, in the order of the text.
    pub problems: Vec<Problem>,
}

/// Parts that any project may use.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Catalogue {
    parts: Table<Part>,
}

impl Catalogue {
    /// Reads a library text, `[part.<id>]` tables in the syntax of the project file.
    pub fn parse(text: &str) -> (Self, Vec<Problem>) {
        let mut reader = Reader::new(text);
        reader.unknown_tables(&[VERSION_KEY, "part"]);
        let parts = items::parts(&mut reader);
        (Self { parts }, reader.report.finish())
    }

    /// The part with this id.
    pub fn get(&self, id: &str) -> Option<&Part> {
        self.parts.get(id)
    }

    /// All parts in the order of the library.
    pub const fn parts(&self) -> &Table<Part> {
        &self.parts
    }
}

/// Reads a project text. Never fails: a text that is not a project gives an empty project and problems.
///
/// ```
/// let text = "wainwright = 1\n[item.fridge]\nkind = \"load\"\npower = \"60 W\"\n";
/// let parsed = wainwright_model::parse(text, &wainwright_model::Catalogue::default());
/// assert!(parsed.problems.is_empty());
/// assert_eq!(parsed.project.items.len(), 1);
/// ```
pub fn parse(text: &str, catalogue: &Catalogue) -> Parsed {
    let mut reader = Reader::new(text);
    let known: Vec<&str> = std::iter::once(VERSION_KEY)
        .chain(ELEMENTS.iter().map(|element| element.name))
        .collect();
    reader.unknown_tables(&known);
    let parts = items::parts(&mut reader);
    let project = Project {
        version: version::read(&mut reader),
        head: reader.single("project", Head::FIELDS, Head::take),
        trailer: reader.single("trailer", Trailer::FIELDS, Trailer::take),
        vehicle: reader.single("vehicle", Vehicle::FIELDS, Vehicle::take),
        towing: reader.single("towing", Towing::FIELDS, Towing::take),
        living: reader.single("living", Living::FIELDS, Living::take),
        tools: reader.single("tools", Tools::FIELDS, Tools::take),
        limits: reader.single("limits", Limits::FIELDS, Limits::take),
        items: items::items(&mut reader, &parts, catalogue),
        parts,
        openings: reader.keyed("opening", |fields| {
            whole(fields, Opening::take, Opening::FIELDS)
        }),
        trunks: reader.keyed("trunk", |fields| whole(fields, Trunk::take, Trunk::FIELDS)),
        wires: wires::wires(&mut reader),
        states: reader.keyed("state", state),
        stock: reader.keyed("stock", |fields| whole(fields, Stock::take, Stock::FIELDS)),
        weighings: reader.keyed("weighing", |fields| {
            whole(fields, Weighing::take, Weighing::FIELDS)
        }),
        climates: reader.keyed("climate", |fields| {
            whole(fields, Climate::take, Climate::FIELDS)
        }),
        trips: reader.keyed("trip", |fields| whole(fields, Trip::take, Trip::FIELDS)),
        uses: reader.keyed("use", |fields| whole(fields, Use::take, Use::FIELDS)),
        layers: reader.keyed("layer", |fields| whole(fields, Layer::take, Layer::FIELDS)),
        cabinets: reader.keyed("cabinet", |fields| {
            whole(fields, Cabinet::take, Cabinet::FIELDS)
        }),
    };
    references::check(&mut reader, &project, catalogue);
    Parsed {
        project,
        problems: reader.report.finish(),
    }
}

/// A row that has these fields and no others.
fn whole<T>(
    fields: &mut Fields<'_, '_>,
    take: impl Fn(&mut Fields<'_, '_>) -> T,
    specs: &'static [FieldSpec],
) -> T {
    let row = take(fields);
    fields.finish(&[specs]);
    row
}

fn state(fields: &mut Fields<'_, '_>) -> State {
    let state = State::take(fields);
    fields.finish(&[State::FIELDS]);
    if state.on.is_some() && state.off.is_some() {
        fields.complain_at_key(
            "off",
            Complaint {
                at: 0,
                path: "",
                found: "both `on` and `off`".into(),
                expected: "one of them: `on` switches all others off, `off` switches all others on"
                    .into(),
                hint: Some("delete one of them".into()),
                severity: ProblemSeverity::Error,
            },
        );
    }
    state
}

/// A text, its tree and the problems found so far.
pub(crate) struct Reader<'t> {
    pub text: &'t str,
    pub tree: Tree,
    pub report: Report<'t>,
}

impl<'t> Reader<'t> {
    fn new(text: &'t str) -> Self {
        let mut script = syntax::read(text);
        let mut faults = std::mem::take(&mut script.faults);
        let tree = Tree::new(&script.statements, &mut faults);
        let mut report = Report::new(text);
        for fault in faults {
            report.fault(fault);
        }
        Self { text, tree, report }
    }

    pub fn complain(
        &mut self,
        at: usize,
        path: &str,
        found: String,
        expected: &str,
        hint: Option<String>,
    ) {
        let severity = ProblemSeverity::Error;
        self.report.add(Complaint {
            at,
            path,
            found,
            expected: expected.into(),
            hint,
            severity,
        });
    }

    fn unknown_tables(&mut self, known: &[&str]) {
        let Some(root) = self.tree.get(0) else { return };
        let strangers: Vec<Branch> = root
            .children
            .iter()
            .filter_map(|child| self.tree.get(*child))
            .filter(|branch| !known.contains(&branch.name.as_str()))
            .map(Branch::without_children)
            .collect();
        for stranger in strangers {
            let hint = if self.report.wants_hints() {
                did_you_mean(&stranger.name, known.iter().copied())
            } else {
                None
            };
            let found = format!("`{}`", stranger.name);
            let expected = format!("one of {}", known.join(", "));
            self.complain(stranger.at, &stranger.name, found, &expected, hint);
        }
    }

    /// Reads a table without an id.
    fn single<T: Default>(
        &mut self,
        name: &str,
        specs: &'static [FieldSpec],
        take: impl Fn(&mut Fields<'_, '_>) -> T,
    ) -> T {
        let Some(table) = self.table(0, name, name) else {
            return T::default();
        };
        let mut fields = Fields::new(self, table, name.to_owned());
        let taken = take(&mut fields);
        fields.finish(&[specs]);
        taken
    }

    /// Reads all tables `[name.<id>]`.
    fn keyed<T>(&mut self, name: &str, mut take: impl FnMut(&mut Fields<'_, '_>) -> T) -> Table<T> {
        let mut rows = Table::default();
        let Some(section) = self.table(0, name, name) else {
            return rows;
        };
        let children = self
            .tree
            .get(section)
            .map(|branch| branch.children.clone())
            .unwrap_or_default();
        for child in children {
            let Some((key, at)) = self
                .tree
                .get(child)
                .map(|branch| (branch.name.clone(), branch.at))
            else {
                continue;
            };
            let path = format!("{name}.{key}");
            let Some(id) = Id::new(&key) else {
                let hint = Id::suggest(&key).map(|id| format!("write [{name}.{id}]"));
                let expected = "an id of small letters, digits, - and _, at most 64 of them";
                self.complain(
                    at,
                    &path,
                    format!("the id {:?}", shortened(&key)),
                    expected,
                    hint,
                );
                continue;
            };
            if self.table(section, &key, &path).is_none() {
                continue;
            }
            let row = take(&mut Fields::new(self, child, path));
            // Ids are unique here: the tree keeps one branch for each name.
            let _ = rows.insert(id, row);
        }
        rows
    }

    /// The branch `name` below `parent`, if it is a table; a plain value there is a problem.
    fn table(&mut self, parent: usize, name: &str, path: &str) -> Option<usize> {
        let child = self.tree.child(parent, name)?;
        let branch = self.tree.get(child)?;
        let Shape::Value(node) = &branch.shape else {
            return Some(child);
        };
        let (at, found) = (node.span.start, value::shown(node));
        let header = if crate::schema::element(path).is_some_and(|e| e.keyed) {
            format!("{path}.name")
        } else {
            path.to_owned()
        };
        self.complain(at, path, found, &format!("a table [{header}]"), None);
        None
    }
}

fn shortened(text: &str) -> String {
    text.chars().take(40).collect()
}
