//! A camper made ready for its hours: sources by set point, loads by the clock, bare numbers.

use super::camper::{Camper, Charger, Guard, MOST_FIELDS, Solar, Start};
use super::error::TripError;
use super::hour::Hour;
use super::load::{Demand, Load};
use super::water::Water;
use crate::battery::cells::{Bounds, Cells, Plain};
use crate::battery::flow::Store;
use crate::battery::{Limits, TemperatureRate, difference_kept};
use crate::solar_power::{Reach, reach};
use wainwright_units::{Charge, Current, Duration, Power, Ratio, Voltage};

/// All sources: the fields, the alternator, the shore.
pub(super) const MOST_SOURCES: usize = MOST_FIELDS + 2;

/// Place of the alternator and of the shore among the sources.
pub(super) const ALTERNATOR: usize = MOST_FIELDS;
pub(super) const SHORE: usize = MOST_FIELDS + 1;

/// A source, by falling set point.
#[derive(Debug, Clone, Copy)]
pub(super) struct Source {
    /// Its place among all: the field's number, [`ALTERNATOR`] or [`SHORE`].
    pub place: usize,
    /// Voltage it holds [V].
    pub set_point: f64,
    /// Whether the next one has a lower set point, or there is none.
    pub last_of_level: bool,
    /// Whether it is a solar field.
    pub sun: bool,
    kind: Kind,
}

#[derive(Debug, Clone, Copy)]
enum Kind {
    Sun(Solar),
    Engine(Reach),
    Plug(Reach),
}

/// What up to `N` sources give in an hour [W].
#[derive(Debug, Clone, Copy)]
pub(super) struct Offers<const N: usize> {
    /// Each, from the highest set point down.
    pub each: [f64; N],
    /// All fields.
    pub solar: f64,
    /// All sources.
    pub total: f64,
}

/// A source that gives nothing.
pub(super) const NO_REACH: Reach = Reach {
    power: Power::ZERO,
    current: Current::ZERO,
};

impl<const N: usize> Offers<N> {
    pub const NONE: Offers<N> = Offers {
        each: [0.0; N],
        solar: 0.0,
        total: 0.0,
    };

    /// From what each source gives, asked one after the other.
    #[inline(always)]
    pub(super) fn from_each(sources: &[Source], mut of: impl FnMut(usize) -> f64) -> Offers<N> {
        let mut offers = Offers::NONE;
        for (at, (source, each)) in sources.iter().zip(&mut offers.each).enumerate() {
            let watts = of(at);
            *each = watts;
            offers.total += watts;
            offers.solar += if source.sun { watts } else { 0.0 };
        }
        offers
    }
}

/// A camper ready for its hours; `C` is its battery, plain or prepared.
#[derive(Debug, Clone)]
pub(super) struct Gear<'a, C> {
    pub cells: C,
    pub store: Store,
    pub capacity: Charge,
    pub limits: Limits,
    pub bands: &'a [TemperatureRate],
    /// Share of the difference to the air that the cells keep over an hour.
    pub difference_kept: f64,
    pub reconnect: f64,
    pub guard: Option<Guard>,
    /// Sources from the highest set point down.
    pub sources: Vec<Source>,
    /// Their set point, when they all have the same.
    pub only_level: Option<f64>,
    /// Time constant of acceptance [h].
    pub acceptance: f64,
    /// Whether all controllers start alone, or there is no board that could keep them off.
    pub all_start: bool,
    /// Power of fixed loads by the hour of the day [W], when summed before.
    fixed: [f64; 24],
    /// The other loads, or all of them.
    loads: Vec<Load>,
    pub water: Water,
    pub fuel_tank: f64,
}

impl<'a, C: Cells> Gear<'a, C> {
    /// The pack as it is, and every load by itself.
    pub(super) fn plain(camper: &Camper<'a>) -> Gear<'a, Plain<'a>> {
        Gear::with(
            camper,
            plain_cells(camper),
            [0.0; 24],
            camper.loads.to_vec(),
        )
    }

    /// A prepared battery, and fixed loads summed by the clock.
    pub(super) fn prepared(camper: &Camper<'a>, cells: C) -> Gear<'a, C> {
        let is_fixed = |load: &Load| load.law.is_fixed();
        let (fixed, others): (Vec<Load>, Vec<Load>) =
            camper.loads.iter().partition(|load| is_fixed(load));
        let mut hours = [0.0; 24];
        for (at, hour) in hours.iter_mut().enumerate() {
            // A fixed load does not ask for the air.
            let air = wainwright_units::Temperature::from_celsius(0.0);
            *hour = Demand::NONE.and(&fixed, at as u32, air).steady;
        }
        Gear::with(camper, cells, hours, others)
    }

    fn with(camper: &Camper<'a>, cells: C, fixed: [f64; 24], loads: Vec<Load>) -> Gear<'a, C> {
        let sources = sources(camper);
        Gear {
            cells,
            store: Store::of(&camper.pack),
            capacity: camper.pack.capacity,
            limits: camper.limits,
            bands: camper.charge_bands,
            difference_kept: difference_kept(camper.cell_lag, Duration::from_hours(1.0)),
            reconnect: camper.reconnect.fraction(),
            guard: camper.guard,
            only_level: only_level(&sources),
            acceptance: camper.limits.acceptance.hours(),
            sources,
            all_start: camper.guard.is_none()
                || camper.solar.iter().all(|field| field.starts_alone),
            fixed,
            loads,
            water: camper.water,
            fuel_tank: camper.fuel_tank.litres(),
        }
    }

    /// What the loads want in an hour.
    #[inline(always)]
    pub(super) fn demand(&self, hour: &Hour) -> Demand {
        let of_day = hour.hour_of_day % 24;
        let fixed = self.fixed.get(of_day as usize).copied().unwrap_or(0.0);
        let summed = Demand {
            steady: fixed,
            ..Demand::NONE
        };
        summed.and(&self.loads, of_day, hour.air)
    }

    /// What each source can give, whatever the battery's voltage.
    #[inline(always)]
    pub(super) fn reaches<const N: usize>(&self, hour: &Hour) -> [Reach; N] {
        let mut all = [NO_REACH; N];
        for (source, each) in self.sources.iter().zip(&mut all) {
            *each = match &source.kind {
                Kind::Sun(field) => {
                    let panel = hour.panel.get(source.place).copied().unwrap_or(Power::ZERO);
                    if panel.watts() <= 0.0 {
                        continue;
                    }
                    let light = hour.light.get(source.place).copied().unwrap_or(0.0);
                    let reach = reach(field.controller, panel, light);
                    Reach {
                        power: reach.power * field.left,
                        current: reach.current * field.left,
                    }
                }
                Kind::Engine(reach) if hour.driving => *reach,
                Kind::Plug(reach) if hour.shore => *reach,
                _ => continue,
            };
        }
        all
    }

    /// The same numbers by the places of the sources.
    #[inline(always)]
    pub(super) fn by_place(&self, each: &[f64]) -> [f64; MOST_SOURCES] {
        let mut all = [0.0; MOST_SOURCES];
        for (source, watts) in self.sources.iter().zip(each) {
            if let Some(place) = all.get_mut(source.place) {
                *place = *watts;
            }
        }
        all
    }

    /// What each source could give at a battery voltage.
    #[inline(always)]
    pub(super) fn offers<const N: usize>(&self, reaches: &[Reach; N], volts: f64) -> Offers<N> {
        let volts = Voltage::from_volts(volts);
        Offers::from_each(&self.sources, |at| {
            reaches.get(at).map_or(0.0, |reach| reach.at(volts).watts())
        })
    }

    /// Whether a source that gives makes dead terminals live.
    #[cold]
    pub(super) fn wakes<const N: usize>(&self, offers: &Offers<N>) -> bool {
        let alone = |source: &Source| match source.kind {
            Kind::Sun(field) => field.starts_alone,
            Kind::Engine(_) | Kind::Plug(_) => true,
        };
        let each = self.sources.iter().zip(&offers.each);
        each.into_iter()
            .any(|(source, watts)| *watts > 0.0 && alone(source))
    }
}

/// The battery of a camper from its own tables.
pub(super) fn plain_cells<'a>(camper: &Camper<'a>) -> Plain<'a> {
    Plain {
        pack: camper.pack,
        ahead: camper.guard.map_or(0.0, |guard| guard.ahead.fraction()),
    }
}

/// Voltages of a camper that must not be passed.
pub(super) fn bounds(camper: &Camper<'_>) -> Bounds {
    let thresholds = camper.guard.map(|guard| guard.thresholds);
    Bounds {
        set_point: sources(camper)
            .iter()
            .map(|source| source.set_point)
            .fold(camper.limits.absorption.volts(), f64::min),
        over: thresholds.map_or(f64::INFINITY, |limits| limits.over.volts()),
        under: thresholds.map_or(f64::NEG_INFINITY, |limits| limits.under.volts()),
    }
}

fn only_level(sources: &[Source]) -> Option<f64> {
    let first = sources
        .first()
        .map_or(f64::INFINITY, |source| source.set_point);
    let same = sources.iter().all(|source| source.set_point == first);
    same.then_some(first)
}

/// Sources by falling set point, equal ones as sun, alternator, shore.
fn sources(camper: &Camper<'_>) -> Vec<Source> {
    let cap = camper.limits.absorption.volts();
    let source = |place, absorption: Voltage, kind| Source {
        place,
        set_point: absorption.volts().min(cap),
        last_of_level: true,
        sun: matches!(kind, Kind::Sun(_)),
        kind,
    };
    let fields = camper.solar.iter().take(MOST_FIELDS).enumerate();
    let mut all: Vec<Source> = fields
        .map(|(at, field)| source(at, field.absorption, Kind::Sun(*field)))
        .collect();
    let engine = |charger: Charger| {
        source(
            ALTERNATOR,
            charger.absorption,
            Kind::Engine(charger.reach()),
        )
    };
    let plug = |charger: Charger| source(SHORE, charger.absorption, Kind::Plug(charger.reach()));
    all.extend(camper.alternator.map(engine));
    all.extend(camper.shore.map(plug));
    all.sort_by(|one, two| two.set_point.total_cmp(&one.set_point));
    let set_points: Vec<f64> = all.iter().skip(1).map(|next| next.set_point).collect();
    for (source, next) in all.iter_mut().zip(set_points) {
        source.last_of_level = source.set_point != next;
    }
    all
}

/// Refuses campers and starts that make no sense.
pub(super) fn reject_camper(camper: &Camper<'_>) -> Result<(), TripError> {
    let pack = &camper.pack;
    let guard = camper.guard.map_or(0.0, |guard| guard.ahead.fraction());
    let numbers = [
        pack.capacity.ampere_hours(),
        camper.reconnect.fraction(),
        camper.fuel_tank.litres(),
        guard,
    ];
    refuse(if pack.capacity.ampere_hours() <= 0.0 || pack.series == 0 {
        Some("the battery has no capacity or no cells")
    } else if numbers.iter().any(|number| !number.is_finite()) {
        Some("a number of the battery or of the start is none")
    } else if camper.solar.len() > MOST_FIELDS {
        Some("there are more than four solar fields")
    } else if !(0.0..1.0).contains(&guard) {
        Some("the fullest cell is not ahead by a share of the charge")
    } else {
        None
    })
}

/// Refuses a start that makes no sense.
pub(super) fn reject_start(start: Start) -> Result<(), TripError> {
    let liquids = [start.fresh, start.waste, start.fuel].map(|liquid| liquid.litres());
    let charge = start.charge;
    refuse(
        if !start.cell.is_finite() || liquids.iter().any(|litres| !litres.is_finite()) {
            Some("a number of the battery or of the start is none")
        } else if !(Ratio::ZERO <= charge && charge <= Ratio::ONE) {
            Some("the charge at the start is not between empty and full")
        } else {
            None
        },
    )
}

fn refuse(found: Option<&'static str>) -> Result<(), TripError> {
    found.map_or(Ok(()), |found| Err(TripError::Input { hour: 0, found }))
}
