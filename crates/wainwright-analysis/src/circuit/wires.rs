//! Conductors with their build, their surroundings and their joints.

use super::nodes::HUB;
use super::{Branch, Fixed, NodeTable, Notes, Part, Wire, at_least_contact, defaults, items::Gear};
use crate::known::{Assumption, Basis, Known};
use crate::result::{Limits, Run, Wanted};
use wainwright_engines::conductor_heat::Surroundings;
use wainwright_model::{
    Field, FieldExt, Id, Project, Spec, Surrounding, TerminalRef, Wire as WireFields,
};
use wainwright_units::{CrossSection, Length, Quantity, Resistance, Temperature};

/// Foam on each side of a wire where nobody said how much: half of a 2 in wall.
const USUAL_COVER: Length = Length::from_metres(0.0254);
/// Loaded conductors in a bundle or conduit where nobody counted: out and return.
const LEAST_TOGETHER: u32 = 2;

/// Lowers every wire that has two ends and a size.
pub(super) fn add_all(
    project: &Project,
    nodes: &mut NodeTable,
    gear: &mut Gear,
    limits: &Limits,
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
            wires.extend(add_one(id, fields, ends, limits, &mut shelf, notes));
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
    limits: &Limits,
    shelf: &mut defaults::Shelf,
    notes: &mut Notes,
) -> Option<Wire> {
    let name = id.as_str();
    let Some(size) = notes.given(&fields.size) else {
        notes.lack(&["wire", name, "size"], Wanted::Size);
        return None;
    };
    let length = notes.given_or(
        &fields.length,
        &["wire", name, "length"],
        Length::from_metres(defaults::USUAL_WIRE_METRES),
        Assumption::UsualForKind,
    );
    let insulation = insulation(name, fields, notes);
    let tinned = tinned(name, fields, notes);
    let stock = shelf.take(size.value, tinned, &insulation.value);
    let (class, build) = (&stock.class, stock.build);
    let (run, bundle) = place(name, fields, notes);
    let air = notes
        .given(&fields.air)
        .unwrap_or_else(|| usual_air(run.value, limits));
    let surroundings = surroundings(name, fields, run.value, bundle.value, notes);
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
        run,
        bundle,
        sheathed: fields.sheathed.value().copied().unwrap_or(false),
        air,
        build,
        surroundings,
        joint_from,
        joint_to,
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

/// Where the wire runs, and how many loaded conductors lie together there.
/// A bundle and a conduit hold at least out and return.
fn place(name: &str, fields: &WireFields, notes: &mut Notes) -> (Known<Run>, Known<u32>) {
    let usual = Basis::Assumed(Assumption::UsualForKind);
    let bundle = notes.given(&fields.bundle);
    let several = bundle.as_ref().is_some_and(|bundle| bundle.value > 1);
    let run = match notes.given(&fields.runs) {
        Some(known) => Known::new(run_of(known.value, several), known.basis),
        None if several => Known::new(Run::Bundle, usual.clone()),
        None => {
            notes.assume_alike(&["wire", name, "runs"], "open".to_owned(), &usual);
            Known::new(Run::Open, usual.clone())
        }
    };
    let bundle = bundle.unwrap_or_else(|| {
        let count = together(run.value, 1);
        if count > 1 {
            notes.assume_text(&["wire", name, "bundle"], count.to_string(), &usual);
        }
        Known::new(count, usual)
    });
    (run, bundle)
}

fn run_of(given: Surrounding, several: bool) -> Run {
    match given {
        Surrounding::Open if several => Run::Bundle,
        Surrounding::Open => Run::Open,
        Surrounding::Bundle => Run::Bundle,
        Surrounding::Foam => Run::Foam,
        Surrounding::Cavity => Run::Cavity,
        Surrounding::Conduit => Run::Conduit,
    }
}

/// Usual temperature around a wire. Foam lies between the living space and
/// the hot skin; midway in it the still conductor sits at the mean of the two.
pub(super) fn usual_air(run: Run, limits: &Limits) -> Known<Temperature> {
    match run {
        Run::Cavity => limits.cavity_air.clone(),
        Run::Foam => {
            let (inside, skin) = (limits.summer_air.value, limits.cavity_air.value);
            let mean = 0.5 * (inside.celsius() + skin.celsius());
            Known::new(Temperature::from_celsius(mean), Basis::Computed)
        }
        Run::Open | Run::Bundle | Run::Conduit => limits.summer_air.clone(),
    }
}

fn surroundings(
    name: &str,
    fields: &WireFields,
    run: Run,
    bundle: u32,
    notes: &mut Notes,
) -> Surroundings {
    let cover = fields.foam_cover.value().copied();
    let (found, assumed) = surroundings_of(run, bundle, cover);
    if let Some(cover) = assumed {
        notes.assume(
            &["wire", name, "foam_cover"],
            cover,
            Assumption::UsualForKind,
        );
    }
    found
}

/// Loaded conductors in a place: a bundle and a conduit hold at least two.
pub(super) fn together(run: Run, bundle: u32) -> u32 {
    match run {
        Run::Bundle | Run::Conduit => bundle.max(LEAST_TOGETHER),
        Run::Open | Run::Foam | Run::Cavity => bundle.max(1),
    }
}

/// What the heat engine is told about the place, and the foam cover that
/// stands in where none is given.
pub(super) fn surroundings_of(
    run: Run,
    bundle: u32,
    cover: Option<Length>,
) -> (Surroundings, Option<Length>) {
    let loaded = together(run, bundle) as usize;
    match run {
        // No foam around it is no foam.
        Run::Foam if cover.is_none_or(|cover| cover.metres() > 0.0) => {
            let assumed = cover.is_none().then_some(USUAL_COVER);
            let cover = cover.unwrap_or(USUAL_COVER);
            let conductivity = defaults::foam_conductivity();
            let foam = Surroundings::Foam {
                cover,
                conductivity,
                loaded,
            };
            (foam, assumed)
        }
        _ if loaded > 1 => {
            let total = loaded;
            (Surroundings::Bundle { loaded, total }, None)
        }
        _ => (Surroundings::Open, None),
    }
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
