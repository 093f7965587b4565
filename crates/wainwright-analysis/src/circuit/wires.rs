//! Conductors with their build and their joints. Not here: what is round them
//! (`surround`).

use super::nodes::HUB;
use super::surround::{Conductor, Ground};
use super::{Branch, Fixed, NodeTable, Notes, Part, Wire, at_least_contact, defaults, items::Gear};
use crate::known::{Assumption, Basis, Known};
use crate::result::Wanted;
use wainwright_model::{Field, FieldExt, Id, Project, Spec, TerminalRef, Wire as WireFields};
use wainwright_units::{CrossSection, Length, Quantity, Resistance};

/// Lowers every wire that has two ends and a size.
pub(super) fn add_all(
    project: &Project,
    nodes: &mut NodeTable,
    gear: &mut Gear,
    ground: &mut Ground<'_>,
    notes: &mut Notes,
) -> Vec<Wire> {
    let mut ends = Ends {
        project,
        nodes,
        gear,
    };
    let mut wires = Vec::new();
    let mut shelf = defaults::Shelf::default();
    for (id, fields) in project.wires.iter() {
        let from = ends.end(id, "from", fields.from.value(), notes);
        let to = ends.end(id, "to", fields.to.value(), notes);
        if let (Some(from), Some(to)) = (from, to) {
            let ends = (from, to);
            wires.extend(add_one(id, fields, ends, ground, &mut shelf, notes));
        }
    }
    wires
}

/// One end of a wire: the terminal by name, and its node.
type End = (TerminalRef, usize);

/// Finds the nodes that wires end on.
struct Ends<'a> {
    project: &'a Project,
    nodes: &'a mut NodeTable,
    gear: &'a mut Gear,
}

impl Ends<'_> {
    fn end(
        &mut self,
        wire: &Id,
        field: &str,
        terminal: Option<&TerminalRef>,
        notes: &mut Notes,
    ) -> Option<End> {
        let found = terminal.and_then(|t| Some((t.clone(), self.node(t, notes)?)));
        if found.is_none() {
            notes.lack(&["wire", wire.as_str(), field], Wanted::Terminal);
        }
        found
    }

    /// The node of a terminal. A frame's or splice's terminal is half the
    /// resistance between any two of them away from a hub.
    fn node(&mut self, end: &TerminalRef, notes: &mut Notes) -> Option<usize> {
        if let Some(node) = self.nodes.find(&end.item, &end.terminal) {
            return Some(node);
        }
        let item = self.project.items.get(end.item.as_str())?;
        if !item.spec.has_terminal(&end.terminal) {
            return None;
        }
        let (field, usual) = match &item.spec {
            Spec::Frame(frame) => (&frame.resistance, defaults::frame_resistance()),
            Spec::Splice(splice) => (&splice.resistance, defaults::splice_resistance()),
            Spec::BusBar(_) => return Some(self.nodes.join_first(&end.item, &end.terminal)),
            _ => return Some(self.nodes.add(&end.item, end.terminal.clone())),
        };
        let known = self.gear.fixed.iter().find(|fixed| fixed.item == end.item);
        let whole = known.map(|fixed| fixed.whole.clone()).unwrap_or_else(|| {
            let path = ["item", end.item.as_str(), "resistance"];
            notes.given_or_known(field, &path, usual)
        });
        let hub = self.nodes.add(&end.item, HUB.to_owned());
        let node = self.nodes.add(&end.item, end.terminal.clone());
        self.gear.branches.push(Branch {
            from: hub,
            to: node,
            part: Part::Fixed(self.gear.fixed.len()),
        });
        self.gear.fixed.push(Fixed {
            item: end.item.clone(),
            branch: at_least_contact(whole.value * 0.5),
            whole,
            joint: matches!(item.spec, Spec::Splice(_)),
        });
        Some(node)
    }
}

fn add_one(
    id: &Id,
    fields: &WireFields,
    ends: (End, End),
    ground: &mut Ground<'_>,
    shelf: &mut defaults::Shelf,
    notes: &mut Notes,
) -> Option<Wire> {
    let name = id.as_str();
    let Some(size) = notes.given(&fields.size) else {
        notes.lack(&["wire", name, "size"], Wanted::Size);
        return None;
    };
    let length = length(id, fields, ground, notes);
    let insulation = insulation(name, fields, notes);
    let tinned = tinned(name, fields, notes);
    let stock = shelf.take(size.value, tinned, &insulation.value);
    let (class, build) = (&stock.class, stock.build);
    let conductor = Conductor {
        size: size.value,
        build,
        limit: class.limit,
        length: length.value,
    };
    let around = ground.around(id, fields, &conductor, notes);
    let joint_from = joint(
        &["wire", name, "joint_from"],
        &fields.joint_from,
        build.metal,
        notes,
    );
    let joint_to = joint(
        &["wire", name, "joint_to"],
        &fields.joint_to,
        build.metal,
        notes,
    );
    let (from, to) = ends;
    Some(Wire {
        id: id.clone(),
        label: fields
            .label
            .value()
            .cloned()
            .unwrap_or_else(|| id.to_string()),
        from: (from.0.item, from.0.terminal),
        to: (to.0.item, to.0.terminal),
        from_node: from.1,
        to_node: to.1,
        supplied: fields.supplied.value().copied().unwrap_or(false),
        metal: build.metal,
        resistance_20: build.resistance_at_20 * length.value,
        size,
        length,
        limit: class.limit,
        short_limit: class.short_limit,
        volts_rating: class.volts,
        pvc: class.pvc,
        insulation,
        run: around.run,
        bundle: around.bundle,
        sheathed: fields.sheathed.value().copied().unwrap_or(false),
        air: around.air,
        build,
        surroundings: around.surroundings,
        joint_from,
        joint_to,
    })
}

/// Typed, else by the route, else a stand-in.
fn length(id: &Id, fields: &WireFields, ground: &Ground<'_>, notes: &mut Notes) -> Known<Length> {
    let known = notes.given(&fields.length).or_else(|| ground.length(id));
    known.unwrap_or_else(|| {
        let usual = Length::from_metres(defaults::USUAL_WIRE_METRES);
        let path = ["wire", id.as_str(), "length"];
        notes.assume(&path, usual, Assumption::UsualForKind)
    })
}

/// The insulation class; an unknown or missing one stands in as the weakest.
fn insulation(name: &str, fields: &WireFields, notes: &mut Notes) -> Known<String> {
    if let Some(known) = notes.given(&fields.insulation) {
        if defaults::insulation_exists(&known.value) {
            return known;
        }
        notes.lack(&["wire", name, "insulation"], Wanted::Insulation);
    }
    let weakest = Known::assumed(defaults::WEAKEST_INSULATION.to_owned(), Assumption::Worst);
    notes.assume_text(
        &["wire", name, "insulation"],
        weakest.value.clone(),
        &weakest.basis,
    );
    weakest
}

/// Whether the strands are tinned. Plain ones stand in, as most are.
fn tinned(name: &str, fields: &WireFields, notes: &mut Notes) -> bool {
    fields.tinned.value().copied().unwrap_or_else(|| {
        let basis = Basis::Assumed(Assumption::UsualForKind);
        notes.assume_alike(&["wire", name, "tinned"], "false".to_owned(), &basis);
        false
    })
}

fn joint(
    path: &[&str],
    field: &Field<Resistance>,
    metal: CrossSection,
    notes: &mut Notes,
) -> Known<Resistance> {
    if let Some(known) = notes.given(field) {
        return Known::new(at_least_contact(known.value), known.basis);
    }
    let usual = defaults::joint(metal);
    let shown = usual.value.show(notes.system());
    notes.assume_alike(path, shown, &usual.basis);
    usual
}
