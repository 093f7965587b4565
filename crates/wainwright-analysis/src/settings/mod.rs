//! The settings study: from the project to the card of settings of every device, what does not agree, and the causes
//! of a symptom. Quick enough to be run at every keystroke, and total.
//!
//! Not here: judgement and words for people.

mod bank;
mod begun;
mod clash;
mod cold;
mod desk;
mod devices;
mod disconnects;
mod facts;
mod loads;
mod profile;
mod rows;
mod symptom;

pub use symptom::{observable, symptom};

use crate::circuit::Circuit;
use crate::result::settings::{DeviceCard, EngineCard, LoadFigures, SettingsResult};
use bank::Bank;
use desk::Desk;
use devices::{Device, Ground};
use facts::Facts;
use wainwright_engines::charging::{
    self, Cards, Charger, Conflict, Disconnect, Loads, Margins, Profile, Reason, System,
};
use wainwright_model::{Id, Project};
use wainwright_units::{Charge, Ratio, Voltage};

/// The settings study of a project. Total: an unfinished project gives what it can.
pub(crate) fn study(
    project: &Project,
    circuit: &Circuit,
    capacity: Option<Charge>,
) -> SettingsResult {
    let lowered = lower(project, circuit, capacity);
    let mut result = SettingsResult {
        begun: begun::begun(project),
        cold_strings: lowered.cold,
        ..SettingsResult::default()
    };
    let mut desk = lowered.desk;
    if let Some(plant) = lowered.plant {
        plant.study(&mut desk, &mut result);
    }
    result.assumptions = desk.notes.assumed;
    result.missing = desk.lacking;
    result
}

/// A project as the engine sees it.
struct Lowered<'a> {
    desk: Desk<'a>,
    cold: Vec<crate::result::settings::ColdString>,
    plant: Option<Plant>,
}

/// Battery, loads and devices.
struct Plant {
    bank: Bank,
    profile: Profile,
    margins: Margins,
    loads: LoadFigures,
    chargers: Vec<Device<Charger>>,
    relays: Vec<Device<Disconnect>>,
    inverters: Vec<Device<Disconnect>>,
}

fn lower<'a>(project: &'a Project, circuit: &Circuit, capacity: Option<Charge>) -> Lowered<'a> {
    let mut desk = Desk::new(project, Facts::of(circuit, capacity));
    let cold = cold::strings(&mut desk);
    let modules = cold
        .iter()
        .map(|string| (string.controller.clone(), string.cold))
        .collect();
    let plant = plant(&mut desk, modules);
    Lowered { desk, cold, plant }
}

fn plant(desk: &mut Desk<'_>, cold_modules: Vec<(Id, Voltage)>) -> Option<Plant> {
    let bank = bank::bank(desk)?;
    let profile = profile::profile(bank.figures.chemistry)?;
    let margins = profile::margins()?;
    let ground = Ground {
        nominal: bank.figures.nominal,
        series: bank.figures.series,
        lithium: bank.figures.lithium,
        profile,
        cold_modules,
    };
    let loads = loads::loads(desk, &ground);
    let chargers = devices::chargers(desk, &ground);
    let (relays, inverters) = disconnects::disconnects(desk, &ground);
    Some(Plant {
        bank,
        profile,
        margins,
        loads,
        chargers,
        relays,
        inverters,
    })
}

impl Plant {
    /// Chargers and relays: what the loads for direct current depend on.
    fn direct(&self) -> System<'static> {
        let chargers = self.chargers.iter().map(|device| device.engine).collect();
        self.system(chargers, &self.relays, loads::engine(&self.loads))
    }

    /// Inverters: what direct-current loads need does not matter to them.
    fn mains(&self, chargers: Vec<Charger>) -> System<'static> {
        let all = loads::engine(&self.loads);
        let loads = Loads {
            lowest: Voltage::ZERO,
            ..all
        };
        self.system(chargers, &self.inverters, loads)
    }

    fn system(
        &self,
        chargers: Vec<Charger>,
        disconnects: &[Device<Disconnect>],
        loads: Loads,
    ) -> System<'static> {
        System {
            battery: self.bank.cells(),
            board: self.bank.board,
            profile: self.profile,
            margins: self.margins,
            chargers,
            disconnects: disconnects.iter().map(|device| device.engine).collect(),
            loads,
        }
    }

    fn study(self, desk: &mut Desk<'_>, result: &mut SettingsResult) {
        let direct = self.direct();
        let mains = self.mains(Vec::new());
        let (first, second) = (charging::cards(&direct), charging::cards(&mains));
        let (chargers, relays) = (self.chargers.len(), self.relays.len());
        let spread_told = !self.bank.figures.spread.is_assumed();
        match (first, second) {
            (Ok(first), Ok(second)) => {
                result.pack = Some(first.pack);
                result.devices = self.cards(desk, first, second, result);
                let starts = [(0, chargers), (0, chargers + relays)];
                for (system, starts) in [&direct, &mains].into_iter().zip(starts) {
                    let found = conflicts(system, spread_told);
                    let placed = clash::placed(desk, &result.devices, starts, found);
                    result.conflicts.extend(placed);
                }
            }
            (first, second) => {
                let refused = [first.err(), second.err()].into_iter().flatten();
                result
                    .refused
                    .extend(refused.map(|found| found.to_string()));
                result.bank = Some(self.bank.figures);
                result.board = self.bank.board_figures;
                result.loads = Some(self.loads);
            }
        }
    }

    fn cards(
        self,
        desk: &Desk<'_>,
        first: Cards,
        second: Cards,
        result: &mut SettingsResult,
    ) -> Vec<DeviceCard> {
        let units = desk.system();
        let chargers = self.chargers.into_iter().zip(first.chargers);
        let mut found: Vec<DeviceCard> = chargers
            .map(|(device, card)| DeviceCard {
                rows: rows::of_charger(device.sets, &card, units),
                item: device.item,
                label: device.label,
                kind: device.kind,
                wire: device.wire,
                most: device.most,
                card: EngineCard::Charger(Box::new(card)),
            })
            .collect();
        let relays = self.relays.into_iter().zip(first.disconnects);
        let inverters = self.inverters.into_iter().zip(second.disconnects);
        let inverters = inverters.map(|(device, mut card)| {
            card.off.lows.retain(|low| low.reason != Reason::LoadsNeed);
            (device, card)
        });
        found.extend(relays.chain(inverters).map(|(device, card)| DeviceCard {
            rows: rows::of_disconnect(device.sets, &card, units),
            item: device.item,
            label: device.label,
            kind: device.kind,
            wire: device.wire,
            most: device.most,
            card: EngineCard::Disconnect(Box::new(card)),
        }));
        result.bank = Some(self.bank.figures);
        result.board = self.bank.board_figures;
        result.loads = Some(self.loads);
        found
    }
}

/// What does not agree. How far the cells are apart is often not known: then only what stands with even cells as well
/// as with the usual spread, and with the figures of even cells.
fn conflicts(system: &System<'_>, spread_told: bool) -> Vec<Conflict> {
    let found = charging::conflicts(system).unwrap_or_default();
    if spread_told {
        return found;
    }
    let mut even = system.clone();
    even.battery.ahead = Ratio::ZERO;
    let mut milder = charging::conflicts(&even).unwrap_or_default();
    milder.retain(|one| {
        found
            .iter()
            .any(|other| (one.kind, one.place) == (other.kind, other.place))
    });
    milder
}
