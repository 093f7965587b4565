//! One month of one section: what forms and what dries. Not here: which month comes first (`year`).

use wainwright_units::{Duration, Ratio, Temperature};

use super::hull::{Moment, moment};
use super::nodes::{Nodes, Place, Wet};
use crate::heat_loss::{Films, Flow, Section};
use crate::moist_air::{Formula, saturation_pressure, vapour_pressure};
use crate::refusal::{Refusal, above_zero, require};

/// Most events of drying in a month, per place: each may dry, form again and dry.
const MOST_EVENTS_PER_PLACE: usize = 4;

/// Difference allowed between vapour in and vapour out and water, as a share of what passes.
const CLOSES: f64 = 1e-9;

/// Air on both sides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Climate {
    /// Temperature inside.
    pub inside: Temperature,
    /// Relative humidity inside, above 0 to 1.
    pub inside_humidity: Ratio,
    /// Temperature outside.
    pub outside: Temperature,
    /// Relative humidity outside, above 0 to 1.
    pub outside_humidity: Ratio,
}

/// A month, or any time of steady weather.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Month {
    /// Its climate.
    pub climate: Climate,
    /// How long it lasts.
    pub duration: Duration,
}

/// One place at the beginning of a month.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Node {
    /// Where.
    pub place: Place,
    /// s_d from the outside to it [m].
    pub vapour_metres: f64,
    /// Temperature.
    pub temperature: Temperature,
    /// Saturation pressure [Pa].
    pub saturation_pascals: f64,
    /// Vapour pressure [Pa].
    pub vapour_pascals: f64,
}

/// Water of a month.
#[derive(Debug, Clone, PartialEq)]
pub struct MonthWater {
    /// Every place, outside first.
    pub nodes: Vec<Node>,
    /// What forms in the month; below zero where it dries. Places without change are left out.
    pub change: Vec<Wet>,
    /// What is there at its end.
    pub stored: Vec<Wet>,
    /// Vapour that came in from the inside [g/m²].
    pub entered_grams_per_m2: f64,
    /// Vapour that left to the outside [g/m²].
    pub left_grams_per_m2: f64,
    /// Whether water forms on the inner surface itself.
    pub inner_surface_wet: bool,
}

impl MonthWater {
    /// All water that is there at the end of the month [g/m²].
    #[must_use]
    pub fn stored_grams_per_m2(&self) -> f64 {
        self.stored.iter().map(|wet| wet.grams_per_m2).sum()
    }
}

/// One month of one section that begins dry.
///
/// # Errors
/// Layers, films or a climate that cannot be; a section without vapour resistance.
pub fn section_month(
    section: &Section,
    flow: Flow,
    air_layers_at: Temperature,
    films: Films,
    month: &Month,
) -> Result<MonthWater, Refusal> {
    let nodes = Nodes::new(&section.resolve(flow, air_layers_at, films)?)?;
    let mut water = vec![0.0; nodes.places.len()];
    pass(&nodes, month, &mut water)
}

/// Lets a month pass over the water of every place [kg/m²].
pub(super) fn pass(nodes: &Nodes, month: &Month, water: &mut [f64]) -> Result<MonthWater, Refusal> {
    above_zero("duration of the month [s]", month.duration.seconds())?;
    let air = Air::new(nodes, &month.climate)?;
    let before = water.to_vec();
    let first = air.moment(nodes, water);
    let (mut entered, mut left) = (0.0, 0.0);
    let mut seconds = month.duration.seconds();
    let mut events = MOST_EVENTS_PER_PLACE * water.len();
    let mut now = first.clone();
    loop {
        let (step, dried) = until_dry(&now, water, seconds);
        for (store, rate) in water.iter_mut().zip(&now.forming) {
            *store = (*store + rate * step).max(0.0);
        }
        entered += now.entering * step;
        left += now.leaving * step;
        seconds -= step;
        let Some(dried) = dried else { break };
        water[dried] = 0.0;
        require(
            "events of drying left",
            events as f64,
            events > 0,
            "one or more",
        )?;
        events -= 1;
        now = air.moment(nodes, water);
    }
    let found = air.report(nodes, &first, &before, water, (entered, left));
    closes(&found, &before, water)?;
    Ok(found)
}

/// How long the present rates hold, and the place that has dried by then.
fn until_dry(now: &Moment, water: &[f64], seconds: f64) -> (f64, Option<usize>) {
    let mut found = (seconds, None);
    for (place, (&rate, &store)) in now.forming.iter().zip(water).enumerate() {
        if rate < 0.0 && store > 0.0 && -store / rate < found.0 {
            found = (-store / rate, Some(place));
        }
    }
    found
}

/// Temperatures and pressures of a month.
struct Air {
    celsius: Vec<f64>,
    saturation: Vec<f64>,
    outer_pascals: f64,
    inner_pascals: f64,
    inner_surface_wet: bool,
}

impl Air {
    fn new(nodes: &Nodes, climate: &Climate) -> Result<Self, Refusal> {
        let of = |celsius: f64| {
            saturation_pressure(Temperature::from_celsius(celsius), Formula::Standard)
        };
        let inner = vapour_pressure(climate.inside, climate.inside_humidity, Formula::Standard)?;
        let outer = vapour_pressure(climate.outside, climate.outside_humidity, Formula::Standard)?;
        let (inside, outside) = (climate.inside.celsius(), climate.outside.celsius());
        let celsius = nodes.celsius(inside, outside);
        let saturation = celsius
            .iter()
            .map(|&one| of(one))
            .collect::<Result<Vec<f64>, _>>()?;
        let surface = of(nodes.inner_celsius(inside, outside))?;
        Ok(Self {
            celsius,
            saturation,
            outer_pascals: outer,
            inner_pascals: inner,
            inner_surface_wet: inner > surface,
        })
    }

    fn moment(&self, nodes: &Nodes, water: &[f64]) -> Moment {
        let wet: Vec<bool> = water.iter().map(|&kilograms| kilograms > 0.0).collect();
        moment(
            &nodes.vapour_metres,
            &self.saturation,
            &wet,
            self.outer_pascals,
            self.inner_pascals,
        )
    }

    fn report(
        &self,
        nodes: &Nodes,
        first: &Moment,
        before: &[f64],
        after: &[f64],
        (entered, left): (f64, f64),
    ) -> MonthWater {
        let node = |index: usize| Node {
            place: nodes.places[index],
            vapour_metres: nodes.vapour_metres[index],
            temperature: Temperature::from_celsius(self.celsius[index]),
            saturation_pascals: self.saturation[index],
            vapour_pascals: first.pascals[index],
        };
        let wet = |grams: &dyn Fn(usize) -> f64| -> Vec<Wet> {
            let all = (0..nodes.places.len()).map(|index| Wet {
                place: nodes.places[index],
                grams_per_m2: 1000.0 * grams(index),
            });
            all.filter(|wet| wet.grams_per_m2 != 0.0).collect()
        };
        MonthWater {
            nodes: (0..nodes.places.len()).map(node).collect(),
            change: wet(&|index| after[index] - before[index]),
            stored: wet(&|index| after[index]),
            entered_grams_per_m2: 1000.0 * entered,
            left_grams_per_m2: 1000.0 * left,
            inner_surface_wet: self.inner_surface_wet,
        }
    }
}

/// Vapour in = vapour out + water that stays.
fn closes(found: &MonthWater, before: &[f64], after: &[f64]) -> Result<(), Refusal> {
    let gained = 1000.0 * (after.iter().sum::<f64>() - before.iter().sum::<f64>());
    let open = found.entered_grams_per_m2 - found.left_grams_per_m2 - gained;
    let passing = found.entered_grams_per_m2.abs() + found.left_grams_per_m2.abs();
    let stored = 1000.0 * (after.iter().sum::<f64>() + before.iter().sum::<f64>());
    require(
        "vapour that is lost in a section [g/m²]",
        open,
        open.abs() <= CLOSES * (passing + stored) + 1e-12,
        "none",
    )
}
