//! Which cause explains what was seen, by Bayes' rule over hidden states. Not here: the cards.

mod circuit;
mod infer;
mod states;

use super::bound::SetPoint;
use super::card::Cards;
use super::input::{DisconnectKind, System};
use super::pack;
use super::set::regulated_wire;
use super::symptom::{Bench, Cause, Diagnosis, Levels, MeterNoise, Observation};
use crate::refusal::{Refusal, above_zero, require};
use circuit::{State, Switches};
use wainwright_units::{Ratio, Voltage};

/// One charger and one disconnect of a system as bare numbers.
#[derive(Debug, Clone)]
pub(super) struct Base<'s> {
    system: &'s System<'s>,
    charging_ohms: f64,
    discharging_ohms: f64,
    charger_wire: f64,
    load_wire: f64,
    limit: f64,
    standing: f64,
    load_most: f64,
    needs_battery: bool,
    unloaded: f64,
    absorption: Option<f64>,
    usual_absorption: f64,
    full_at: f64,
    pack_over: Option<(f64, f64)>,
    float: Option<f64>,
    float_least: f64,
    known_tail: Option<f64>,
    tail: f64,
    tail_most: f64,
    disconnect: Option<DisconnectKind>,
    off_on: Option<(f64, f64)>,
    usual_off: f64,
    usual_on: f64,
    off_most: f64,
}

/// Possible causes of a symptom at one charger and one disconnect, made ready for many observations.
#[derive(Debug, Clone)]
pub struct Hypotheses<'s> {
    base: Base<'s>,
    coarse: Vec<infer::Coarse>,
}

impl<'s> Hypotheses<'s> {
    /// All causes that are possible in this system.
    ///
    /// # Errors
    /// [`Refusal`] as for the cards, or when there is no such charger or disconnect.
    pub fn new(system: &'s System<'s>, bench: Bench) -> Result<Self, Refusal> {
        let cards = super::cards(system)?;
        let base = Base::new(system, &cards, bench)?;
        let coarse = infer::coarse(&base);
        Ok(Self { base, coarse })
    }

    /// The causes of what was seen, and what to measure next.
    ///
    /// # Errors
    /// [`Refusal`] for a noise that is not above zero.
    pub fn diagnose(&self, seen: &Observation, noise: MeterNoise) -> Result<Diagnosis, Refusal> {
        above_zero("noise of a pack voltage [V]", noise.pack.volts())?;
        above_zero("noise of a cell voltage [V]", noise.cell.volts())?;
        above_zero("noise of a current [A]", noise.current.amperes())?;
        above_zero("noise of a temperature [K]", noise.kelvins)?;
        let wrong = noise.wrong_event.fraction();
        let possible = wrong > 0.0 && wrong < 1.0;
        require(
            "share of wrong events",
            wrong,
            possible,
            "above 0 and below 1",
        )?;
        Ok(infer::diagnose(&self.base, &self.coarse, seen, noise))
    }

    /// The levels of a cause at three hidden numbers between 0 and 1; `None` where the cause cannot
    /// be. For trying a diagnosis out.
    #[must_use]
    pub fn levels(&self, cause: Cause, hidden: [f64; 3]) -> Option<Levels> {
        infer::possible(&self.base, cause, hidden).map(|(levels, _)| levels)
    }

    /// Whether a cause at these hidden numbers needs a setting other than the known one.
    #[must_use]
    pub fn contradicts_settings(&self, cause: Cause, hidden: [f64; 3]) -> bool {
        infer::possible(&self.base, cause, hidden).is_some_and(|(_, state)| state.surprise)
    }

    /// The causes that are possible here.
    pub fn causes(&self) -> impl Iterator<Item = Cause> + '_ {
        self.coarse.iter().map(|coarse| coarse.cause)
    }
}

impl<'s> Base<'s> {
    fn new(system: &'s System<'s>, cards: &Cards, bench: Bench) -> Result<Self, Refusal> {
        let missing = |what: &'static str, index: usize| {
            Refusal::new(what, index as f64, "the index of one of the system")
        };
        let chosen = system.chargers.get(bench.charger);
        let (charger, card) = chosen
            .zip(cards.chargers.get(bench.charger))
            .ok_or_else(|| missing("charger", bench.charger))?;
        let pair = match bench.disconnect {
            None => None,
            Some(index) => {
                let device = system.disconnects.get(index);
                let pair = device.zip(cards.disconnects.get(index));
                Some(pair.ok_or_else(|| missing("disconnect", index))?)
            }
        };
        let set = charger.settings;
        let cells = f64::from(system.battery.series);
        let middle = |point: &SetPoint<Voltage>| point.advised.unwrap_or(point.high.value).volts();
        let limit = set.map_or(card.limit.high.value, |set| set.limit);
        let usual_off = pair.map_or(system.profile.disconnect.volts() * cells, |(_, card)| {
            middle(&card.off)
        });
        let usual_on = pair.map_or(usual_off, |(_, card)| middle(&card.on));
        let device = pair.map(|(device, _)| device);
        let tail = card.tail.advised.unwrap_or(card.tail.high.value).amperes();
        let known_tail = set.and_then(|set| set.tail).map(|tail| tail.amperes());
        Ok(Self {
            system,
            charging_ohms: pack::charging_ohms(&system.battery),
            discharging_ohms: pack::discharging_ohms(&system.battery),
            charger_wire: regulated_wire(charger).ohms(),
            load_wire: device.map_or(0.0, |device| device.wire.ohms()),
            limit: limit.amperes().max(0.1),
            standing: system.loads.standing.amperes(),
            load_most: device.map_or(10.0, |device| device.most.amperes()),
            needs_battery: charger.needs_battery,
            unloaded: charger.unloaded.map_or(0.0, Voltage::volts),
            absorption: set.map(|set| set.absorption.volts()),
            usual_absorption: middle(&card.absorption),
            full_at: card.absorption.low.value.volts(),
            pack_over: system.board.and_then(|board| {
                let over = board.pack_over?;
                let release = board.pack_over_release.unwrap_or(over);
                Some((over.volts(), release.volts()))
            }),
            float: set.and_then(|set| set.float).map(Voltage::volts),
            float_least: card.float.low.value.volts(),
            known_tail,
            tail: known_tail.unwrap_or(tail),
            tail_most: card.tail.high.value.amperes(),
            disconnect: device.map(|device| device.kind),
            off_on: device
                .and_then(|device| device.settings)
                .map(|set| (set.off.volts(), set.on.volts())),
            usual_off,
            usual_on,
            off_most: pair.map_or(usual_off, |(_, card)| card.off.high.value.volts()),
        })
    }

    /// Charging at what is set, cells even.
    fn charging(&self) -> State {
        State {
            offered: self.limit,
            ..self.resting()
        }
    }

    /// No sun, no charger; loads that run all the time; cells even.
    fn resting(&self) -> State {
        let (off, on) = self.off_on.unwrap_or((self.usual_off, self.usual_on));
        State {
            charge: 0.5,
            ahead: 0.0,
            behind: 0.0,
            offered: 0.0,
            set: self.absorption.unwrap_or(self.usual_absorption),
            tail: self.tail,
            floating: false,
            charger_wire: self.charger_wire,
            load_wire: self.load_wire,
            load: self.standing,
            off,
            on,
            cut: false,
            celsius: 20.0,
            switches: Switches::Closed,
            surprise: false,
        }
    }
}

/// A share of one in a list of shares that adds up to one.
fn share(part: f64, whole: f64) -> Ratio {
    Ratio::from_fraction(if whole > 0.0 { part / whole } else { 0.0 })
}
