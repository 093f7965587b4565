//! Gathers circuit, states, faults and guards into the assessment.

use super::ampacity;
use super::faults::Faults;
use super::solve::{Solved, WireHeat};
use super::states::{Setting, State};
use crate::circuit::{Circuit, Consumer, Demand, Part};
use crate::result::{
    Assessment, ConsumerInState, ConsumerResult, DeviceInState, DeviceResult, FaultResult, Guard,
    JointOwner, JointResult, Loose, Node, Outcome, Role, Side, StateKind, StateResult, WireInState,
    WireResult,
};
use wainwright_engines::network::{BranchState, NetworkError, OperatingPoint};
use wainwright_model::{FieldExt, Id, Kind, Project, Spec};
use wainwright_units::{Charge, Current, Power, Ratio, Voltage};

/// From this metal area on a joint counts as a large lug [mm²].
const LARGE_LUG_MM2: f64 = 8.0;

pub(super) fn assessment(
    project: &Project,
    circuit: Circuit,
    states: Vec<State>,
    solved: Vec<Solved>,
    faults: Faults,
    guards: Vec<Vec<Guard>>,
) -> Assessment {
    let desk = Desk {
        circuit: &circuit,
        states: &states,
        solved: &solved,
    };
    let guards = with_overloads(&circuit, &faults, guards);
    let nodes = (0..circuit.nodes.len()).map(|node| Node {
        terminals: circuit.nodes.members(node).to_vec(),
        side: circuit.sides[node],
    });
    Assessment {
        capacity: capacity(project),
        nodes: nodes.collect(),
        wires: desk.wires(&guards),
        devices: desk.devices(&faults.results, &guards),
        consumers: desk.consumers(),
        states: desk.states(),
        loose: loose(project, &circuit),
        reversed: reversed(&circuit),
        joints: desk.joints(),
        faults: faults.results,
        system_volts: circuit.system_volts,
        limits: circuit.limits,
        assumptions: circuit.notes.assumed,
        missing: circuit.notes.missing,
    }
}

struct Desk<'a> {
    circuit: &'a Circuit,
    states: &'a [State],
    solved: &'a [Solved],
}

impl Desk<'_> {
    fn wires(&self, guards: &[Vec<Guard>]) -> Vec<WireResult> {
        let first = self.circuit.branches.len() - self.circuit.wires.len();
        let wires = self.circuit.wires.iter().enumerate();
        wires
            .map(|(index, wire)| {
                let states: Vec<WireInState> = self
                    .solved
                    .iter()
                    .map(|solved| {
                        let amps = amps(solved, first + index);
                        in_state(amps, &solved.wires[index])
                    })
                    .collect();
                WireResult {
                    id: wire.id.clone(),
                    label: wire.label.clone(),
                    from: wire.from.clone(),
                    to: wire.to.clone(),
                    from_node: wire.from_node,
                    to_node: wire.to_node,
                    side: self.circuit.sides[wire.from_node],
                    supplied: wire.supplied,
                    size: wire.size.clone(),
                    metal: wire.metal,
                    length: wire.length.clone(),
                    insulation: wire.insulation.clone(),
                    limit: wire.limit,
                    short_limit: wire.short_limit,
                    volts_rating: wire.volts_rating,
                    pvc: wire.pvc,
                    run: wire.run.clone(),
                    bundle: wire.bundle.clone(),
                    sheathed: wire.sheathed,
                    air: wire.air.clone(),
                    resistance_20: wire.resistance_20,
                    joints: wire.joint_from.value + wire.joint_to.value,
                    ampacity: ampacity::of(wire),
                    worst: self.worst(&states),
                    states,
                    guards: guards[index].clone(),
                }
            })
            .collect()
    }

    /// The lasting, solved state with the hottest metal.
    fn worst(&self, wire: &[WireInState]) -> Option<usize> {
        let solved =
            |index: &usize| self.states[*index].lasting && self.solved[*index].point.is_ok();
        (0..wire.len()).filter(solved).max_by(|a, b| {
            let heat = wire[*a]
                .temperature
                .celsius()
                .total_cmp(&wire[*b].temperature.celsius());
            heat.then(b.cmp(a))
        })
    }

    fn devices(&self, faults: &[FaultResult], guards: &[Vec<Guard>]) -> Vec<DeviceResult> {
        let mut largest = vec![0.0_f64; self.circuit.devices.len()];
        for opening in faults.iter().flat_map(|fault| &fault.largest.openings) {
            largest[opening.device] = largest[opening.device].max(opening.amps.amperes());
        }
        let branches = self.circuit.branches.iter().enumerate();
        let branches = branches.filter_map(|(index, branch)| match branch.part {
            Part::Device(device) => Some((index, device)),
            _ => None,
        });
        let mut found: Vec<DeviceResult> = branches
            .map(|(branch, index)| self.device(branch, index, largest[index], guards))
            .collect();
        // Branches list devices in their own order, so the index is the place.
        found.shrink_to_fit();
        found
    }

    fn device(
        &self,
        branch: usize,
        index: usize,
        largest: f64,
        guards: &[Vec<Guard>],
    ) -> DeviceResult {
        let device = &self.circuit.devices[index];
        let rating = device.rating.value;
        let states: Vec<DeviceInState> = self
            .solved
            .iter()
            .map(|solved| {
                let amps = Current::from_amperes(amps(solved, branch).amperes().abs());
                DeviceInState {
                    amps,
                    share: Ratio::from_fraction(amps / rating),
                }
            })
            .collect();
        let guarded = guards
            .iter()
            .enumerate()
            .filter(|(_, list)| list.iter().any(|g| g.device == Some(index)));
        DeviceResult {
            item: device.item.clone(),
            way: device.way,
            label: device.label.clone(),
            family: device.family.clone(),
            rating: device.rating.clone(),
            volts_rating: device.volts_rating.clone(),
            interrupt: device.interrupt.clone(),
            reclose: device.reclose,
            resistance: device.resistance.clone(),
            nodes: device.nodes,
            continuous_amps: self.continuous(&states),
            states,
            largest_fault: (largest > 0.0).then(|| Current::from_amperes(largest)),
            guards: guarded.map(|(wire, _)| wire).collect(),
            rating_path: device.rating_path.clone(),
        }
    }

    /// Largest current among the states that go on for hours.
    fn continuous(&self, device: &[DeviceInState]) -> Option<(Current, usize)> {
        let hours = |kind: &StateKind| matches!(kind, StateKind::Hours | StateKind::Charging);
        let lasting = (0..device.len()).filter(|index| hours(&self.states[*index].kind));
        let most = lasting.max_by(|a, b| {
            device[*a]
                .amps
                .amperes()
                .total_cmp(&device[*b].amps.amperes())
        })?;
        Some((device[most].amps, most))
    }

    fn consumers(&self) -> Vec<ConsumerResult> {
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
        let battery = self.battery_of(consumer);
        let states = self.states.iter().zip(self.solved);
        let states = states.map(|(state, solved)| {
            self.consumer_in_state(consumer, state.settings[index], solved, branch, battery)
        });
        ConsumerResult {
            item: consumer.item.clone(),
            label: consumer.label.clone(),
            role: consumer.role,
            plus: consumer.plus.clone(),
            minus: consumer.minus.clone(),
            nodes: joined.then_some(consumer.nodes),
            critical: consumer.critical,
            continuous: consumer.continuous,
            rated_amps: rated(
                consumer.demand,
                self.circuit.system_volts.as_ref().map(|v| v.value),
            ),
            lowest: consumer.lowest,
            fed_by: battery.map(|b| b.item.clone()),
            states: states.collect(),
        }
    }

    /// The battery whose terminals a drop is counted from: the first one.
    fn battery_of(&self, consumer: &Consumer) -> Option<&Consumer> {
        let battery = |c: &&Consumer| matches!(c.demand, Demand::Battery { .. });
        self.circuit
            .consumers
            .iter()
            .filter(battery)
            .find(|b| b.item != consumer.item)
    }

    fn consumer_in_state(
        &self,
        consumer: &Consumer,
        setting: Setting,
        solved: &Solved,
        branch: usize,
        battery: Option<&Consumer>,
    ) -> ConsumerInState {
        let Ok(point) = &solved.point else {
            return dead();
        };
        let status = point.branch_state.get(branch);
        let supplied = !matches!(status, None | Some(BranchState::NoSupply));
        let volts = between(point, consumer.nodes);
        let amps = Current::from_amperes(amps(solved, branch).amperes());
        let source = battery.and_then(|b| between(point, b.nodes));
        let at_battery = battery.is_some_and(|b| self.same_island(consumer, b));
        let drop = match (volts, source, at_battery) {
            (Some(own), Some(source), true) => Some(drop_of(consumer.demand, own, source)),
            _ => None,
        };
        let share = |drop: Voltage| {
            let system = self.circuit.system_volts.as_ref()?.value;
            Some(Ratio::from_fraction(drop / system))
        };
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

    /// Whether the battery reaches the gear's plus terminal through conductors.
    fn same_island(&self, consumer: &Consumer, battery: &Consumer) -> bool {
        let side = self.circuit.sides[consumer.nodes.0];
        side == self.circuit.sides[battery.nodes.0]
            && self.circuit.joined(consumer.nodes.0, battery.nodes.0)
    }

    fn states(&self) -> Vec<StateResult> {
        let states = self.states.iter().zip(self.solved);
        states
            .map(|(state, solved)| StateResult {
                kind: state.kind.clone(),
                label: state.label.clone(),
                lasting: state.lasting,
                outcome: self.outcome(solved),
                node_volts: solved
                    .point
                    .as_ref()
                    .map_or_else(|_| Vec::new(), |p| p.node_volts.clone()),
            })
            .collect()
    }

    fn outcome(&self, solved: &Solved) -> Outcome {
        match &solved.point {
            Ok(point) if point.node_volts.iter().all(Option::is_none) => Outcome::Empty,
            Ok(point) => Outcome::Steady {
                sources: point.balance.sources,
                loads: point.balance.loads,
                losses: point.balance.losses,
                residual: point.largest_residual,
                iterations: solved.steps,
            },
            Err(NetworkError::Collapse(collapse)) => {
                let part = self
                    .circuit
                    .branches
                    .get(collapse.weakest_branch)
                    .map(|b| b.part);
                let weakest = match part {
                    Some(Part::Consumer(index)) => Some(self.circuit.consumers[index].item.clone()),
                    _ => None,
                };
                Outcome::Collapse {
                    carried: collapse.carried,
                    wanted: collapse.power_wanted,
                    possible: collapse.power_carried,
                    weakest,
                    volts: collapse.volts_there,
                }
            }
            Err(_) => Outcome::Empty,
        }
    }

    fn joints(&self) -> Vec<JointResult> {
        let mut joints = Vec::new();
        for (index, branch) in self.circuit.branches.iter().enumerate() {
            let Some((amps, state)) = self.most_lasting(index) else {
                continue;
            };
            let mut add = |owner, resistance: &crate::known::Known<_>, large| {
                joints.push(JointResult {
                    owner,
                    heat: (amps * resistance.value) * amps,
                    resistance: resistance.clone(),
                    state,
                    amps,
                    large,
                });
            };
            match branch.part {
                Part::Wire(wire) => {
                    let wire = &self.circuit.wires[wire];
                    let large = wire.metal.square_millimetres() >= LARGE_LUG_MM2;
                    add(
                        JointOwner::WireEnd(wire.id.clone(), false),
                        &wire.joint_from,
                        large,
                    );
                    add(
                        JointOwner::WireEnd(wire.id.clone(), true),
                        &wire.joint_to,
                        large,
                    );
                }
                Part::Contact(contact) => {
                    let contact = &self.circuit.contacts[contact];
                    let large = contact.resistance.value.milliohms() < 1.0;
                    add(
                        JointOwner::Contact(contact.item.clone(), contact.way),
                        &contact.resistance,
                        large,
                    );
                }
                _ => {}
            }
        }
        joints
    }

    /// Largest current of a branch over the lasting states, and the state.
    fn most_lasting(&self, branch: usize) -> Option<(Current, usize)> {
        let lasting = (0..self.states.len())
            .filter(|s| self.states[*s].lasting && self.solved[*s].point.is_ok());
        lasting
            .map(|state| (amps(&self.solved[state], branch).amperes().abs(), state))
            .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)))
            .map(|(amps, state)| (Current::from_amperes(amps), state))
    }
}

/// Overloads matter only from sources that do not limit their own current.
fn with_overloads(
    circuit: &Circuit,
    faults: &Faults,
    mut guards: Vec<Vec<Guard>>,
) -> Vec<Vec<Guard>> {
    let mut largest = vec![0.0_f64; circuit.wires.len()];
    for fault in &faults.results {
        for wire in &fault.wires {
            largest[*wire] = largest[*wire].max(fault.largest.amps.amperes());
        }
    }
    for (wire, list) in guards.iter_mut().enumerate() {
        let mut done: Vec<(usize, Option<crate::result::Overload>)> = Vec::new();
        for guard in list.iter_mut() {
            let Some(device) = guard.device else { continue };
            if !circuit.overloads(&guard.source) {
                continue;
            }
            let known = done
                .iter()
                .find(|(other, _)| *other == device)
                .map(|(_, found)| found.clone());
            guard.overload = known.unwrap_or_else(|| {
                let found = faults.overload(device, wire, largest[wire]);
                done.push((device, found.clone()));
                found
            });
        }
    }
    guards
}

fn in_state(amps: Current, heat: &WireHeat) -> WireInState {
    let drop = amps * heat.resistance;
    WireInState {
        amps,
        temperature: heat.temperature,
        resistance: heat.resistance,
        drop,
        heat: heat.heat,
        power: drop * amps,
    }
}

fn amps(solved: &Solved, branch: usize) -> Current {
    let zero = Current::from_amperes(0.0);
    solved.point.as_ref().map_or(zero, |point| {
        point.branch_amps.get(branch).copied().unwrap_or(zero)
    })
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

fn capacity(project: &Project) -> Option<Charge> {
    let given = project
        .items
        .iter()
        .filter_map(|(_, item)| match &item.spec {
            Spec::Battery(battery) => battery.capacity.value().copied(),
            _ => None,
        });
    given.reduce(|sum, one| sum + one)
}

/// Terminals nothing is joined to. Ways of blocks, bars and banks are free to be empty.
fn loose(project: &Project, circuit: &Circuit) -> Vec<Loose> {
    let ends = circuit.wires.iter().flat_map(|w| [&w.from, &w.to]);
    let used: std::collections::BTreeSet<(&Id, &str)> =
        ends.map(|(id, t)| (id, t.as_str())).collect();
    let mut loose = Vec::new();
    for (id, item) in project.items.iter() {
        let free = matches!(
            item.spec.kind(),
            Kind::BusBar
                | Kind::FuseBlock
                | Kind::SwitchBank
                | Kind::Splice
                | Kind::Frame
                | Kind::Unknown
        );
        if free {
            continue;
        }
        let terminals = item.spec.terminals().into_iter();
        for terminal in terminals.filter(|t| !used.contains(&(id, t.as_str()))) {
            loose.push(Loose {
                item: id.clone(),
                terminal,
                needed: true,
            });
        }
    }
    loose
}

/// Gear whose plus terminal is on the minus side or the other way round.
fn reversed(circuit: &Circuit) -> Vec<Id> {
    let wrong = |c: &&Consumer| {
        let (plus, minus) = (circuit.sides[c.nodes.0], circuit.sides[c.nodes.1]);
        !c.demand.is_source() && (plus == Side::Minus || minus == Side::Plus)
    };
    circuit
        .consumers
        .iter()
        .filter(wrong)
        .map(|c| c.item.clone())
        .collect()
}
