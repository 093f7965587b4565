//! Results of the gear that gives and takes.

use super::{Desk, amps};
use crate::circuit::{Bank, Consumer, Demand, Part};
use crate::result::{ConsumerInState, ConsumerResult, Role};
use crate::study::solve::Solved;
use crate::study::states::Setting;
use wainwright_engines::network::{BranchState, OperatingPoint};
use wainwright_units::{Current, Power, Ratio, Voltage};

/// Voltages that differ by less count as the same \[V\].
const SAME_VOLTS: f64 = 1e-9;

impl Desk<'_> {
    pub(super) fn consumers(&self) -> Vec<ConsumerResult> {
        let indexed = self.circuit.branches.iter().enumerate();
        let consumers = indexed.filter_map(|(branch, b)| match b.part {
            Part::Consumer(index) => Some((branch, index)),
            _ => None,
        });
        consumers
            .map(|(branch, index)| self.consumer(branch, index))
            .collect()
    }

    fn consumer(&self, branch: usize, index: usize) -> ConsumerResult {
        let consumer = &self.circuit.consumers[index];
        let wired = |node: usize| {
            self.circuit
                .wires
                .iter()
                .any(|w| w.from_node == node || w.to_node == node)
        };
        let joined = wired(consumer.nodes.0) && wired(consumer.nodes.1);
        let bank = self.bank_of(index);
        let states = self.states.iter().zip(self.solved);
        let states = states.map(|(state, solved)| {
            self.consumer_in_state(consumer, state.settings[index], solved, branch, bank)
        });
        let system = self.circuit.system_volts.as_ref().map(|v| v.value);
        let top = bank.map(|bank| &self.circuit.consumers[bank.top()]);
        ConsumerResult {
            item: consumer.item.clone(),
            label: consumer.label.clone(),
            role: consumer.role,
            plus: consumer.plus.clone(),
            minus: consumer.minus.clone(),
            nodes: joined.then_some(consumer.nodes),
            critical: consumer.critical,
            continuous: consumer.continuous,
            rated_amps: rated(consumer.demand, system),
            lowest: consumer.lowest,
            fed_by: top.map(|top| top.item.clone()),
            states: states.collect(),
        }
    }

    /// The battery (or string) whose terminals a drop is counted from: of those
    /// that conductors join to the gear on both sides, the one to which most is
    /// lost in the first solved state; the first in the file where they agree.
    /// A battery has none.
    fn bank_of(&self, index: usize) -> Option<&Bank> {
        let consumer = &self.circuit.consumers[index];
        let joined = |bank: &&Bank| {
            let plus = self.circuit.joined(bank.plus, consumer.nodes.0);
            plus && self.circuit.joined(bank.minus, consumer.nodes.1)
        };
        if consumer.role == Role::Battery {
            return None;
        }
        let mut banks = self.circuit.banks.iter().filter(joined);
        let first = banks.next()?;
        let point = self
            .solved
            .iter()
            .find_map(|solved| solved.point.as_ref().ok());
        let lost = |bank: &Bank| {
            let own = between(point?, consumer.nodes)?;
            let there = between(point?, (bank.plus, bank.minus))?;
            Some(drop_of(consumer.demand, own, there).volts())
        };
        let more = |best: &&Bank, bank: &&Bank| match (lost(best), lost(bank)) {
            (Some(best), Some(bank)) => bank > best + SAME_VOLTS,
            _ => false,
        };
        Some(banks.fold(
            first,
            |best, bank| if more(&best, &bank) { bank } else { best },
        ))
    }

    fn consumer_in_state(
        &self,
        consumer: &Consumer,
        setting: Setting,
        solved: &Solved,
        branch: usize,
        bank: Option<&Bank>,
    ) -> ConsumerInState {
        let Ok(point) = &solved.point else {
            return dead();
        };
        let status = point.branch_state.get(branch);
        let supplied = !matches!(status, None | Some(BranchState::NoSupply));
        let volts = between(point, consumer.nodes);
        let amps = amps(solved, branch);
        let source = bank.and_then(|b| between(point, (b.plus, b.minus)));
        let drop = match (volts, source) {
            (Some(own), Some(source)) => Some(drop_of(consumer.demand, own, source)),
            _ => None,
        };
        let nominal = bank.map(|bank| bank.nominal(&self.circuit.consumers));
        let share = |drop: Voltage| Some(Ratio::from_fraction(drop / nominal?));
        ConsumerInState {
            on: supplied && (consumer.role == Role::Battery || setting != Setting::Off),
            volts,
            amps,
            power: volts.map_or(Power::from_watts(0.0), |v| v * amps),
            drop,
            drop_share: drop.and_then(share),
            dropped_out: status == Some(&BranchState::DroppedOut),
        }
    }
}

fn between(point: &OperatingPoint, nodes: (usize, usize)) -> Option<Voltage> {
    let volts = |node: usize| point.node_volts.get(node).copied().flatten();
    Some(volts(nodes.0)? - volts(nodes.1)?)
}

/// Lost on the way: from the battery to what takes, from what gives to the battery.
fn drop_of(demand: Demand, own: Voltage, battery: Voltage) -> Voltage {
    if demand.is_source() {
        own - battery
    } else {
        battery - own
    }
}

fn dead() -> ConsumerInState {
    ConsumerInState {
        on: false,
        volts: None,
        amps: Current::from_amperes(0.0),
        power: Power::from_watts(0.0),
        drop: None,
        drop_share: None,
        dropped_out: false,
    }
}

/// Rated current, or what the rated power needs at system voltage.
fn rated(demand: Demand, system: Option<Voltage>) -> Option<Current> {
    match demand {
        Demand::Charger { most, .. } => Some(most),
        Demand::Module { short, .. } => Some(short),
        Demand::Supply { most, .. } => most,
        Demand::Current(amps) => Some(amps),
        Demand::Power(power) | Demand::ChargerInput { power } => Some(power / system?),
        Demand::Resistance(ohms) => Some(system? / ohms),
        Demand::Inverter {
            load,
            efficiency,
            cutoff,
            ..
        } => Some(load * (1.0 / efficiency.fraction()) / cutoff.max(Voltage::from_volts(1.0))),
        Demand::Battery { .. } | Demand::ModuleInput => None,
    }
}
