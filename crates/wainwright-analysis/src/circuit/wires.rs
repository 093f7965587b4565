//! Conductors with their build, their surroundings and their joints.

use super::{Branch, NodeTable, Notes, Part, Wire, defaults, given, given_or, items::Gear};
use crate::known::{Assumption, Basis, Known};
use crate::result::{Limits, Run, Wanted};
use wainwright_engines::conductor_heat::Surroundings;
use wainwright_model::{FieldExt, Id, Project, Spec, Surrounding, TerminalRef, Wire as WireFields};
use wainwright_units::{Length, Resistance, Temperature};

/// Foam on each side of a wire where nobody said how much: half of a 2 in wall.
const USUAL_COVER: Length = Length::from_metres(0.0254);

/// Lowers every wire that has two ends and a size.
pub(super) fn add_all(
    project: &Project,
    nodes: &mut NodeTable,
    gear: &mut Gear,
    limits: &Limits,
    notes: &mut Notes,
) -> Vec<Wire> {
    let mut wires = Vec::new();
    for (id, fields) in project.wires.iter() {
        let ends = (
            end(project, nodes, gear, id, "from", fields.from.value(), notes),
            end(project, nodes, gear, id, "to", fields.to.value(), notes),
        );
        if let (Some(from), Some(to)) = ends {
            wires.extend(add_one(id, fields, (from, to), limits, notes));
        }
    }
    wires
}

/// One end of a wire: the terminal by name, and its node.
type End = (TerminalRef, usize);

fn end(
    project: &Project,
    nodes: &mut NodeTable,
    gear: &mut Gear,
    id: &Id,
    field: &str,
    terminal: Option<&TerminalRef>,
    notes: &mut Notes,
) -> Option<End> {
    let found = terminal.and_then(|t| Some((t.clone(), node(project, nodes, gear, t)?)));
    if found.is_none() {
        notes.lack(&["wire", id.as_str(), field], Wanted::Terminal);
    }
    found
}

/// The node of a terminal. A frame's or splice's terminal is half the
/// resistance between any two of them away from a hub.
fn node(
    project: &Project,
    nodes: &mut NodeTable,
    gear: &mut Gear,
    end: &TerminalRef,
) -> Option<usize> {
    if let Some(node) = nodes.find(&end.item, &end.terminal) {
        return Some(node);
    }
    let item = project.items.get(end.item.as_str())?;
    if !item.spec.has_terminal(&end.terminal) {
        return None;
    }
    let between = match &item.spec {
        Spec::Frame(frame) => frame
            .resistance
            .value()
            .copied()
            .unwrap_or_else(defaults::frame_resistance),
        Spec::Splice(splice) => splice
            .resistance
            .value()
            .copied()
            .unwrap_or_else(defaults::splice_resistance),
        _ => return Some(nodes.add(&end.item, end.terminal.clone())),
    };
    let hub = nodes.add(&end.item, "hub".to_owned());
    let node = nodes.add(&end.item, end.terminal.clone());
    let half = defaults::at_least_contact(between * 0.5);
    gear.branches.push(Branch {
        from: hub,
        to: node,
        part: Part::Fixed(half),
    });
    Some(node)
}

fn add_one(
    id: &Id,
    fields: &WireFields,
    ends: (End, End),
    limits: &Limits,
    notes: &mut Notes,
) -> Option<Wire> {
    let name = id.as_str();
    let Some(size) = given(&fields.size, None) else {
        notes.lack(&["wire", name, "size"], Wanted::Size);
        return None;
    };
    let length = given_or(
        &fields.length,
        notes,
        &["wire", name, "length"],
        Length::from_metres(defaults::USUAL_WIRE_METRES),
        Assumption::UsualForKind,
    );
    let insulation = insulation(name, fields, notes);
    let class = defaults::insulation(&insulation.value);
    let tinned = fields.tinned.value().copied().unwrap_or(false);
    let metal = defaults::metal(size.value);
    let build = defaults::build(size.value, tinned, &class);
    let bundle =
        given(&fields.bundle, None).unwrap_or_else(|| Known::assumed(1, Assumption::UsualForKind));
    let run = run(fields, bundle.value);
    let air = air(fields, run.value, limits);
    let surroundings = surroundings(name, fields, run.value, bundle.value, notes);
    let joint_from = joint(&fields.joint_from, metal);
    let joint_to = joint(&fields.joint_to, metal);
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
        metal,
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
    if let Some(known) = given(&fields.insulation, None) {
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

fn run(fields: &WireFields, bundle: u32) -> Known<Run> {
    let Some(known) = given(&fields.runs, None) else {
        let run = if bundle > 1 { Run::Bundle } else { Run::Open };
        return Known::assumed(run, Assumption::UsualForKind);
    };
    let run = match known.value {
        Surrounding::Open if bundle > 1 => Run::Bundle,
        Surrounding::Open => Run::Open,
        Surrounding::Bundle => Run::Bundle,
        Surrounding::Foam => Run::Foam,
        Surrounding::Cavity => Run::Cavity,
        Surrounding::Conduit => Run::Conduit,
    };
    Known::new(run, known.basis)
}

/// Temperature around the wire, as given or as usual for the place.
fn air(fields: &WireFields, run: Run, limits: &Limits) -> Known<Temperature> {
    given(&fields.air, None).unwrap_or_else(|| usual_air(run, limits))
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
    let cover = given(&fields.foam_cover, None).map(|known| known.value);
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

/// What the heat engine is told about the place, and the foam cover that
/// stands in where none is given. Conduit holds at least out and return.
pub(super) fn surroundings_of(
    run: Run,
    bundle: u32,
    cover: Option<Length>,
) -> (Surroundings, Option<Length>) {
    let loaded = bundle.max(1) as usize;
    let together = loaded.max(2);
    match run {
        Run::Foam => {
            let assumed = cover.is_none().then_some(USUAL_COVER);
            let cover = cover.unwrap_or(USUAL_COVER);
            let conductivity = defaults::foam_conductivity();
            (
                Surroundings::Foam {
                    cover,
                    conductivity,
                    loaded,
                },
                assumed,
            )
        }
        Run::Conduit | Run::Bundle => (
            Surroundings::Bundle {
                loaded: together,
                total: together,
            },
            None,
        ),
        Run::Cavity | Run::Open if loaded > 1 => (
            Surroundings::Bundle {
                loaded,
                total: loaded,
            },
            None,
        ),
        Run::Cavity | Run::Open => (Surroundings::Open, None),
    }
}

fn joint(
    field: &wainwright_model::Field<Resistance>,
    metal: wainwright_units::CrossSection,
) -> Known<Resistance> {
    given(field, None)
        .map(|known| Known::new(defaults::at_least_contact(known.value), known.basis))
        .unwrap_or_else(|| defaults::joint(metal))
}
