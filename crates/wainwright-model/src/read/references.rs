//! Every place where one element names another, and whether that other is there.
//!
//! Here: finding references by the field table, for the check and for renaming. Not here: resolving them.

use super::{Catalogue, Reader, items};
use crate::kinds::Kind;
use crate::place::{Id, Table, TerminalRef};
use crate::problem::{Complaint, ProblemSeverity, did_you_mean, nearest};
use crate::project::Project;
use crate::schema::{self, ELEMENTS, FieldSpec, Target, ValueKind};
use crate::syntax::{
    Node, NodeValue,
    tree::{Shape, Tree},
};

/// One text that names another element.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Reference {
    /// Dotted path of the field.
    pub path: String,
    /// Name of the field.
    pub field: &'static str,
    /// The text and its place.
    pub node: Node,
    /// What it says.
    pub text: String,
    /// What it points at.
    pub target: Target,
    /// Whether a terminal follows the id.
    pub terminal: bool,
}

/// All references of a tree, in the order of its tables.
pub(crate) fn all(tree: &Tree) -> Vec<Reference> {
    let mut found = Vec::new();
    for element in ELEMENTS.iter().filter(|element| element.keyed) {
        let fields: Vec<&FieldSpec> = element
            .fields
            .iter()
            .filter(|field| refers(&field.value).is_some())
            .collect();
        let Some(section) = tree
            .child(0, element.name)
            .and_then(|section| tree.get(section))
        else {
            continue;
        };
        for row in &section.children {
            for field in &fields {
                let Some(branch) = tree
                    .child(*row, field.name)
                    .and_then(|child| tree.get(child))
                else {
                    continue;
                };
                let Some(name) = tree.get(*row).map(|row| row.name.as_str()) else {
                    continue;
                };
                let Shape::Value(node) = &branch.shape else {
                    continue;
                };
                gather(
                    node,
                    &format!("{}.{name}.{}", element.name, field.name),
                    field,
                    &mut found,
                );
            }
        }
    }
    found
}

/// What the text at a path such as `["wire", "a", "from"]` points at, and whether a terminal follows the id.
pub(crate) fn referred(path: &[String]) -> Option<(Target, bool)> {
    let [element, _, name] = path else {
        return None;
    };
    let element = schema::element(element).filter(|element| element.keyed)?;
    let field = element.fields.iter().find(|field| field.name == name)?;
    refers(&field.value)
}

fn refers(kind: &ValueKind) -> Option<(Target, bool)> {
    match kind {
        ValueKind::Reference(target) => Some((*target, false)),
        ValueKind::Terminal => Some((Target::Item, true)),
        ValueKind::List(inner) => refers(inner),
        _ => None,
    }
}

fn gather(node: &Node, path: &str, field: &'static FieldSpec, found: &mut Vec<Reference>) {
    match (&node.value, refers(&field.value)) {
        (NodeValue::List(nodes), _) => nodes
            .iter()
            .for_each(|inner| gather(inner, path, field, found)),
        (NodeValue::Text(text), Some((target, terminal))) => found.push(Reference {
            path: path.to_owned(),
            field: field.name,
            node: node.clone(),
            text: text.clone(),
            target,
            terminal,
        }),
        _ => {}
    }
}

/// Complains about references that point at nothing, or at the wrong kind of thing.
pub(super) fn check(reader: &mut Reader<'_>, project: &Project, catalogue: &Catalogue) {
    for reference in all(&reader.tree) {
        // Names are compared for the first problems only: there may be very many of both.
        let search = if reader.report.wants_hints() {
            usize::MAX
        } else {
            0
        };
        let wrong = if reference.terminal {
            TerminalRef::parse(&reference.text).and_then(|end| wrong_end(project, &end, search))
        } else if Id::new(&reference.text).is_none() {
            None
        } else {
            wrong_name(project, catalogue, &reference, search)
        };
        if let Some(Wrong {
            found,
            expected,
            hint,
            inside,
            severity,
        }) = wrong
        {
            let at = reference.node.span.start + inside;
            reader.report.add(Complaint {
                at,
                path: &reference.path,
                found,
                expected,
                hint,
                severity,
            });
        }
    }
}

struct Wrong {
    found: String,
    expected: String,
    hint: Option<String>,
    /// Bytes from the opening quote to the trouble.
    inside: usize,
    severity: ProblemSeverity,
}

impl Wrong {
    fn new(found: String, expected: String, hint: Option<String>) -> Self {
        Self {
            found,
            expected,
            hint,
            inside: 0,
            severity: ProblemSeverity::Error,
        }
    }
}

fn wrong_end(project: &Project, end: &TerminalRef, search: usize) -> Option<Wrong> {
    let Some(item) = project.items.get(end.item.as_str()) else {
        let hint = nearest(
            end.item.as_str(),
            project.items.ids().map(Id::as_str).take(search),
        )
        .map(|name| format!("did you mean {name}.{}?", end.terminal));
        return Some(Wrong::new(
            format!("the item `{}`", end.item),
            "an item of this file".into(),
            hint,
        ));
    };
    if item.spec.has_terminal(&end.terminal) {
        return None;
    }
    if !item.spec.kind().is_wired() {
        return Some(Wrong::new(
            format!("`{}`, a {}", end.item, item.spec.kind().as_str()),
            "an item that has terminals".into(),
            None,
        ));
    }
    let terminals = item.spec.terminals();
    let hint = did_you_mean(&end.terminal, terminals.iter().map(String::as_str));
    Some(Wrong {
        inside: 1 + end.item.as_str().len() + 1,
        ..Wrong::new(
            format!("the terminal `{}`", end.terminal),
            format!(
                "a terminal of a {}: {}",
                item.spec.kind().as_str(),
                listed(&terminals)
            ),
            hint,
        )
    })
}

fn listed(terminals: &[String]) -> String {
    match terminals {
        [first, second, .., last] if terminals.len() > 6 => format!("{first}, {second} ... {last}"),
        _ => terminals.join(", "),
    }
}

fn wrong_name(
    project: &Project,
    catalogue: &Catalogue,
    reference: &Reference,
    search: usize,
) -> Option<Wrong> {
    let name = reference.text.as_str();
    match reference.target {
        Target::Part => items::find(&project.parts, catalogue, name)
            .is_none()
            .then(|| {
                let known = project.parts.ids().chain(catalogue.parts().ids());
                let hint = did_you_mean(name, known.map(Id::as_str).take(search));
                Wrong::new(
                    format!("the part `{name}`"),
                    "a part of this file or of the library".into(),
                    hint,
                )
            }),
        Target::Wire => unknown(&project.wires, "wire", name, search),
        Target::Trunk => unknown(&project.trunks, "trunk", name, search),
        Target::Climate => unknown(&project.climates, "climate", name, search),
        Target::Trip => unknown(&project.trips, "trip", name, search),
        Target::Item => match project.items.get(name) {
            None => {
                let hint = did_you_mean(name, project.items.ids().map(Id::as_str).take(search));
                Some(Wrong::new(
                    format!("the item `{name}`"),
                    "an item of this file".into(),
                    hint,
                ))
            }
            Some(item) => unfit(reference.field, name, item.spec.kind()),
        },
    }
}

/// A name that no row of a table has.
fn unknown<T>(table: &Table<T>, what: &str, name: &str, search: usize) -> Option<Wrong> {
    if table.contains(name) {
        return None;
    }
    let hint = did_you_mean(name, table.ids().map(Id::as_str).take(search));
    Some(Wrong::new(
        format!("the {what} `{name}`"),
        format!("a {what} of this file"),
        hint,
    ))
}

/// An item in a list of a state that cannot do what the list says.
fn unfit(field: &str, name: &str, kind: Kind) -> Option<Wrong> {
    let (fit, expected): (&[Kind], &str) = match field {
        "charging" => (
            &[
                Kind::SolarController,
                Kind::ShoreCharger,
                Kind::DcdcCharger,
                Kind::SolarModule,
                Kind::VehicleSupply,
            ],
            "a charger or what feeds one",
        ),
        "full" => (&[Kind::Tank], "a tank"),
        "aboard" | "holds" => return None,
        "inverter" => (&[Kind::Inverter], "an inverter"),
        _ => (
            &[Kind::Load, Kind::Inverter, Kind::Outlet],
            "a load, an inverter or an outlet",
        ),
    };
    if kind == Kind::Unknown || fit.contains(&kind) {
        return None;
    }
    let wrong = Wrong::new(
        format!("`{name}`, a {}", kind.as_str()),
        expected.into(),
        None,
    );
    Some(Wrong {
        severity: ProblemSeverity::Warning,
        ..wrong
    })
}
