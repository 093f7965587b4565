//! What is round a wire: typed, or by its route, or a stand-in.
//!
//! Where a route leads through several surroundings, the wire is judged in the
//! one in which it bears least. Not here: where the route leads (the routes
//! have that), the heat balance (the engine has it).

use super::{Laid, Notes, defaults};
use crate::cabinets::Airs;
use crate::known::{Assumption, Basis, Known};
use crate::result::{Limits, Route, Routing, Run, Surrounded};
use crate::study::ampacity_of;
use std::collections::BTreeMap;
use wainwright_engines::conductor_heat::{Build, Surroundings};
use wainwright_model::{FieldExt, Id, Surrounding, TerminalRef, Wire as WireFields};
use wainwright_units::{Length, Temperature, WireSize};

/// Foam on each side of a wire where nobody said how much: half of a 2 in wall.
pub(crate) const USUAL_COVER: Length = Length::from_metres(0.0254);
/// Loaded conductors in a bundle or conduit where nobody counted: out and return.
const LEAST_TOGETHER: u32 = 2;

/// What wires lie in.
pub(super) struct Ground<'a> {
    limits: &'a Limits,
    cabinets: &'a Airs,
    routing: &'a mut Routing,
    /// Place of each wire in the routing.
    places: BTreeMap<Id, usize>,
    /// What wires bear, each place they lie in asked once.
    borne: Vec<(Laid, f64)>,
}

/// What is round one wire.
pub(super) struct Around {
    pub(super) run: Known<Run>,
    pub(super) bundle: Known<u32>,
    pub(super) air: Known<Temperature>,
    pub(super) surroundings: Surroundings,
}

/// The conductor that lies there.
pub(super) struct Conductor {
    pub(super) size: WireSize,
    pub(super) build: Build,
    pub(super) limit: Temperature,
    pub(super) length: Length,
}

impl<'a> Ground<'a> {
    pub(super) fn new(limits: &'a Limits, cabinets: &'a Airs, routing: &'a mut Routing) -> Self {
        let routed = routing.wires.iter().enumerate();
        let routed = routed.filter(|(_, wire)| wire.route.is_some());
        let places = routed.map(|(place, wire)| (wire.wire.clone(), place));
        Self {
            limits,
            cabinets,
            places: places.collect(),
            borne: Vec::new(),
            routing,
        }
    }

    /// The wire's length by its route.
    pub(super) fn length(&self, wire: &Id) -> Option<Known<Length>> {
        self.route(wire).map(|route| Known::computed(route.cut))
    }

    fn route(&self, wire: &Id) -> Option<&Route> {
        let place = *self.places.get(wire)?;
        self.routing.wires.get(place)?.route.as_ref()
    }

    /// What is round a wire. The first of these that says it counts: the wire
    /// itself, its route, a stand-in.
    pub(super) fn around(
        &mut self,
        id: &Id,
        fields: &WireFields,
        conductor: &Conductor,
        notes: &mut Notes,
    ) -> Around {
        let name = id.as_str();
        let place = self.places.get(id).copied();
        let route = place.and_then(|place| self.routing.wires.get(place)?.route.as_ref());
        let Some((place, route)) = place.zip(route) else {
            return self.unrouted(name, fields, notes);
        };
        let typed = Typed::read(fields, self.cabinet(fields), notes);
        let each = route.surroundings.iter();
        let each = each.map(|met| typed.at(met, route.bundle.loaded, self.limits));
        let mut each: Vec<(Around, Option<Length>)> = each.collect();
        let worst = worst(&each, conductor, &mut self.borne);
        if worst >= each.len() {
            return self.unrouted(name, fields, notes);
        }
        let (around, assumed) = each.swap_remove(worst);
        if let Some(cover) = assumed {
            let path = ["wire", name, "foam_cover"];
            notes.assume(&path, cover, Assumption::UsualForKind);
        }
        if around.run.is_assumed() {
            let open = Surrounding::Open.as_str().to_owned();
            notes.assume_alike(&["wire", name, "runs"], open, &around.run.basis);
        }
        let route = self.routing.wires.get_mut(place);
        if let Some(route) = route.and_then(|wire| wire.route.as_mut()) {
            route.worst = worst;
        }
        around
    }

    /// Air of the cabinet that holds both ends of a wire.
    fn cabinet(&self, fields: &WireFields) -> Option<&'a Known<Temperature>> {
        let of = |end: Option<&TerminalRef>| self.cabinets.get(end?.item.as_str());
        let (one, other) = (of(fields.from.value())?, of(fields.to.value())?);
        // With gear that works at times only, a wire carries current then only.
        let air = if other.only { &other.air } else { &one.air };
        (one.cabinet == other.cabinet).then_some(air)
    }

    /// A wire without a route.
    fn unrouted(&self, name: &str, fields: &WireFields, notes: &mut Notes) -> Around {
        let (run, bundle) = place(name, fields, notes);
        let cabinet = self.cabinet(fields);
        let air = notes
            .given(&fields.air)
            .unwrap_or_else(|| air_there(run.value, self.limits, cabinet));
        let surroundings = surroundings(name, fields, run.value, bundle.value, notes);
        Around {
            run,
            bundle,
            air,
            surroundings,
        }
    }
}

/// What was typed at the wire itself.
struct Typed<'a> {
    run: Option<Known<Surrounding>>,
    bundle: Option<Known<u32>>,
    cover: Option<Length>,
    air: Option<Known<Temperature>>,
    /// Air of the cabinet it lies in.
    cabinet: Option<&'a Known<Temperature>>,
}

impl<'a> Typed<'a> {
    fn read(fields: &WireFields, cabinet: Option<&'a Known<Temperature>>, notes: &Notes) -> Self {
        Self {
            run: notes.given(&fields.runs),
            bundle: notes.given(&fields.bundle),
            cover: fields.foam_cover.value().copied(),
            air: notes.given(&fields.air),
            cabinet,
        }
    }

    /// What is round the wire in one surrounding of its route, and the foam
    /// cover that stands in. Where the person said what surrounds the wire, the
    /// route only counts what lies beside it.
    fn at(&self, met: &Surrounded, fullest: u32, limits: &Limits) -> (Around, Option<Length>) {
        let of_route = self.run.is_none();
        let several = self.bundle.as_ref().map(|bundle| bundle.value > 1);
        let run = match &self.run {
            Some(typed) => {
                let several = several.unwrap_or(fullest > 1);
                Known::new(run_of(typed.value, several), typed.basis.clone())
            }
            None => recounted(&met.run, several),
        };
        let beside = if of_route { met.loaded } else { fullest };
        let counted = || Known::computed(together(run.value, beside));
        let bundle = self.bundle.clone().unwrap_or_else(counted);
        let met_air = met.air.clone().filter(|_| of_route);
        let air = self.air.clone().or(met_air);
        let air = air.unwrap_or_else(|| air_there(run.value, limits, self.cabinet));
        let met_cover = met.foam_cover.as_ref().map(|cover| cover.value);
        let cover = self.cover.or(met_cover.filter(|_| of_route));
        let (surroundings, assumed) = surroundings_of(run.value, bundle.value, cover);
        let around = Around {
            run,
            bundle,
            air,
            surroundings,
        };
        (around, assumed)
    }
}

/// A run in the open by what the person counted beside it.
fn recounted(run: &Known<Run>, several: Option<bool>) -> Known<Run> {
    let value = match (run.value, several) {
        (Run::Open, Some(true)) => Run::Bundle,
        (Run::Bundle, Some(false)) => Run::Open,
        (same, _) => same,
    };
    Known::new(value, run.basis.clone())
}

/// The first of the surroundings in which the conductor bears least.
fn worst(
    each: &[(Around, Option<Length>)],
    conductor: &Conductor,
    borne: &mut Vec<(Laid, f64)>,
) -> usize {
    let laid: Vec<Laid> = each
        .iter()
        .map(|(around, _)| conductor.laid(around))
        .collect();
    if laid.windows(2).all(|pair| pair.first() == pair.last()) {
        return 0;
    }
    let mut bears = |laid: Laid| {
        if let Some((_, amps)) = borne.iter().find(|(known, _)| *known == laid) {
            return *amps;
        }
        let amps = ampacity_of(&laid).in_force.amperes();
        borne.push((laid, amps));
        amps
    };
    let amps: Vec<f64> = laid.into_iter().map(&mut bears).collect();
    let least = amps.iter().enumerate().min_by(|a, b| a.1.total_cmp(b.1));
    least.map_or(0, |(index, _)| index)
}

impl Conductor {
    /// The conductor where it lies. Length only counts in foam.
    fn laid(&self, around: &Around) -> Laid {
        Laid {
            size: self.size,
            length: match around.run.value {
                Run::Foam => self.length,
                _ => Length::ZERO,
            },
            limit: self.limit,
            run: around.run.value,
            bundle: around.bundle.value,
            air: around.air.value,
            build: self.build,
            surroundings: around.surroundings,
        }
    }
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

/// A surrounding as the study knows it; several in the open are a bundle.
pub(crate) fn run_of(given: Surrounding, several: bool) -> Run {
    match given {
        Surrounding::Open if several => Run::Bundle,
        Surrounding::Open => Run::Open,
        Surrounding::Bundle => Run::Bundle,
        Surrounding::Foam => Run::Foam,
        Surrounding::Cavity => Run::Cavity,
        Surrounding::Conduit => Run::Conduit,
    }
}

/// Temperature around a wire that nobody said: in the open in a cabinet, that of its air.
fn air_there(
    run: Run,
    limits: &Limits,
    cabinet: Option<&Known<Temperature>>,
) -> Known<Temperature> {
    match (run, cabinet) {
        (Run::Open | Run::Bundle | Run::Conduit, Some(air)) => air.clone(),
        _ => usual_air(run, limits),
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

/// Diameter over the insulation of a wire; an unknown insulation counts as the
/// stand-in for it.
pub(crate) fn outside(size: WireSize, insulation: Option<&str>) -> Length {
    let class = defaults::insulation(insulation.unwrap_or(defaults::WEAKEST_INSULATION));
    defaults::build(size, false, &class).outer_diameter
}
