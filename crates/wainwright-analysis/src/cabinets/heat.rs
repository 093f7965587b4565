//! Heat of the devices in a cabinet: typed, by what they give and their efficiency, by the currents in their joints.
//! Not here: what it does to the air (`air`).

use crate::circuit::{Notes, usual_charge_voltage, usual_dcdc_efficiency};
use crate::known::{Assumption, Basis, Known};
use crate::result::cabinet::{HeatFrom, Situation};
use crate::result::{Assessment, JointOwner, StateKind, WireResult};
use wainwright_engines::cabinet_air::device_heat;
use wainwright_model::{
    Field, FieldExt, Id, Inverter, Item, Kind, Project, SolarController, Spec, Tracking, Use,
};
use wainwright_reference::device_class::{
    Converter, efficiency, inverter_curve, inverter_idle, plain_controller_drop,
    tracking_controller,
};
use wainwright_units::{Current, Power, Ratio, Temperature, Voltage};

/// What electronics bear where no device says more (judgement): above it most of them give less.
const USUAL_LIMIT: Temperature = Temperature::from_celsius(50.0);
/// A use through the inverter counts for the air when it lasts this long on a day \[h\]: the air follows slowly.
const LASTS: f64 = 0.5;
/// Power of an inverter's load where nothing says more, as a share of its own (judgement).
const USUAL_SHARE: f64 = 0.5;
/// Cells of a pack at 12 volts.
const CELLS: u32 = 4;

/// No heat in any situation.
const NOTHING: [Power; 3] = [Power::ZERO; 3];

/// Heat of each device.
pub(super) struct Heats {
    pub(super) each: Vec<DeviceHeat>,
}

/// Heat of one device.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct DeviceHeat {
    /// In each situation, joints left out.
    pub(super) own: [Power; 3],
    /// In each situation.
    pub(super) joints: [Power; 3],
    pub(super) from: HeatFrom,
}

impl DeviceHeat {
    /// In each situation, all counted.
    pub(super) fn all(&self) -> [Power; 3] {
        let mut all = self.own;
        for (own, joints) in all.iter_mut().zip(self.joints) {
            *own += joints;
        }
        all
    }
}

impl Heats {
    pub(super) fn of(
        project: &Project,
        holds: &[(&Id, &Item)],
        assessment: Option<&Assessment>,
        notes: &mut Notes,
    ) -> Self {
        let each = holds.iter().map(|(id, item)| {
            let mut heat = device(project, id, item, notes);
            // A typed figure has all of it in it.
            if heat.from != HeatFrom::Typed {
                heat.joints = assessment.map_or(NOTHING, |found| joints(found, id));
                if heat.from == HeatFrom::None && heat.joints > NOTHING {
                    heat.from = HeatFrom::Joints;
                }
            }
            heat
        });
        Self {
            each: each.collect(),
        }
    }

    pub(super) fn total(&self, situation: Situation) -> Power {
        let joints = |heat: &DeviceHeat| heat.joints.get(situation.index()).copied();
        let joints: Power = self.each.iter().filter_map(joints).sum();
        self.without_joints(situation) + joints
    }

    pub(super) fn without_joints(&self, situation: Situation) -> Power {
        let own = |heat: &DeviceHeat| heat.own.get(situation.index()).copied();
        self.each.iter().filter_map(own).sum()
    }

    /// The situation with the most heat.
    pub(super) fn worst(&self) -> Situation {
        most(|situation| self.total(situation))
    }

    /// The same without joints.
    pub(super) fn worst_without_joints(&self) -> Situation {
        most(|situation| self.without_joints(situation))
    }
}

fn most(heat: impl Fn(Situation) -> Power) -> Situation {
    let mut worst = Situation::Camp;
    for other in Situation::ALL {
        if heat(other) > heat(worst) {
            worst = other;
        }
    }
    worst
}

/// Highest air that the devices bear: the lowest temperature at which a battery's protection opens, else the usual one.
pub(super) fn limit(holds: &[(&Id, &Item)], notes: &Notes) -> (Known<Temperature>, Option<Id>) {
    let usual = Known::assumed(USUAL_LIMIT, Assumption::UsualForKind);
    let mut lowest = (usual, None);
    for (id, item) in holds {
        let Spec::Battery(battery) = &item.spec else {
            continue;
        };
        if let Some(hot) = notes.given(&battery.hot_cutoff)
            && hot.value < lowest.0.value
        {
            lowest = (hot, Some((*id).clone()));
        }
    }
    lowest
}

fn device(project: &Project, id: &Id, item: &Item, notes: &mut Notes) -> DeviceHeat {
    if let Some(typed) = item.body.heat_loss.value() {
        return DeviceHeat {
            own: working(item.spec.kind(), *typed),
            joints: NOTHING,
            from: HeatFrom::Typed,
        };
    }
    let by = Giver { project, id, notes };
    let own = match &item.spec {
        Spec::SolarController(spec) => by.solar(spec).map(|heat| [heat; 3]),
        Spec::ShoreCharger(spec) => by
            .charger(
                (&spec.output_current, &spec.charge_voltage, &spec.efficiency),
                shore_efficiency(),
            )
            .map(|heat| working(Kind::ShoreCharger, heat)),
        Spec::DcdcCharger(spec) => by
            .charger(
                (&spec.output_current, &spec.charge_voltage, &spec.efficiency),
                Some(usual_dcdc_efficiency()),
            )
            .map(|heat| working(Kind::DcdcCharger, heat)),
        Spec::Inverter(spec) => by.inverter(spec),
        _ => None,
    };
    DeviceHeat {
        own: own.unwrap_or(NOTHING),
        joints: NOTHING,
        from: own.map_or(HeatFrom::None, |_| HeatFrom::Efficiency),
    }
}

/// When a device works: camp, driving, shore.
fn working(kind: Kind, heat: Power) -> [Power; 3] {
    let off = Power::ZERO;
    match kind {
        Kind::ShoreCharger => [off, off, heat],
        Kind::DcdcCharger => [off, heat, off],
        Kind::Inverter => [heat, heat, off],
        _ => [heat; 3],
    }
}

fn shore_efficiency() -> Option<Ratio> {
    efficiency(Converter::ShoreCharger).map(|row| row.value.usual)
}

/// Output current, charge voltage, efficiency.
type Rated<'a> = (&'a Field<Current>, &'a Field<Voltage>, &'a Field<Ratio>);

struct Giver<'a> {
    project: &'a Project,
    id: &'a Id,
    notes: &'a mut Notes,
}

impl Giver<'_> {
    fn note_efficiency(self, share: Ratio) {
        let path = ["item", self.id.as_str(), "efficiency"];
        let shown = super::shown(share, self.notes);
        let basis = Basis::Assumed(Assumption::UsualForKind);
        self.notes.assume_text(&path, shown, &basis);
    }

    fn charger(
        self,
        (current, voltage, efficiency): Rated<'_>,
        usual: Option<Ratio>,
    ) -> Option<Power> {
        let volts = voltage.value().copied().unwrap_or_else(full);
        let output = volts * *current.value()?;
        let share = match efficiency.value() {
            Some(share) => *share,
            None => {
                let share = usual?;
                self.note_efficiency(share);
                share
            }
        };
        device_heat(output, share).ok()
    }

    fn solar(self, spec: &SolarController) -> Option<Power> {
        let current = *spec.output_current.value()?;
        if spec.tracking.value() == Some(&Tracking::Pwm) {
            return Some(plain_controller_drop()?.value * current);
        }
        let usual = tracking_controller().map(|row| row.efficiency.value.usual);
        // It gives no more than the modules bring.
        let volts = spec.charge_voltage.value().copied().unwrap_or_else(full);
        let modules: Power = self
            .project
            .items
            .iter()
            .filter_map(|(_, item)| match &item.spec {
                Spec::SolarModule(module) => module.power.value().copied(),
                _ => None,
            })
            .sum();
        let most = volts * current;
        let output = if modules > Power::ZERO {
            most.min(modules)
        } else {
            most
        };
        let share = match spec.efficiency.value() {
            Some(share) => *share,
            None => {
                let share = usual?;
                self.note_efficiency(share);
                share
            }
        };
        device_heat(output, share).ok()
    }

    /// With its load at camp, without it on the road, off on shore power.
    fn inverter(self, spec: &Inverter) -> Option<[Power; 3]> {
        let rated = spec.power.value().copied();
        let load = self.load(spec, rated)?;
        let nominal = Voltage::from_volts(12.8);
        let idle = match spec.idle_current.value() {
            Some(current) => nominal * *current,
            None => inverter_idle(rated.unwrap_or(load)).map_or(Power::ZERO, |row| row.value.usual),
        };
        let lost = match spec.efficiency.value() {
            Some(share) => device_heat(load, *share).ok()?,
            None => {
                let row = inverter_curve(rated.unwrap_or(load))?.value;
                let watts = load.watts();
                Power::from_watts(row.slope * watts + row.square * watts * watts)
            }
        };
        Some([idle + lost, idle, Power::ZERO])
    }

    /// What is really plugged in for long: typed, else the largest use that lasts, else part of what it can give.
    fn load(self, spec: &Inverter, rated: Option<Power>) -> Option<Power> {
        if let Some(load) = spec.load.value() {
            return Some(*load);
        }
        let through =
            |given: &&Use| given.inverter.value().map(String::as_str) == Some(self.id.as_str());
        let uses: Vec<&Use> = self
            .project
            .uses
            .iter()
            .map(|(_, given)| given)
            .filter(through)
            .collect();
        if !uses.is_empty() {
            let lasts = |given: &&&Use| {
                given
                    .per_day
                    .value()
                    .is_none_or(|time| time.hours() >= LASTS)
            };
            let powers = uses.iter().filter(lasts);
            let powers = powers.filter_map(|given| given.power.value().copied());
            return Some(powers.fold(Power::ZERO, Power::max));
        }
        let load = rated? * USUAL_SHARE;
        let path = ["item", self.id.as_str(), "load"];
        let shown = super::shown(load, self.notes);
        let basis = Basis::Assumed(Assumption::UsualForKind);
        self.notes.assume_text(&path, shown, &basis);
        Some(load)
    }
}

fn full() -> Voltage {
    usual_charge_voltage("lfp", CELLS)
}

/// Heat of an item's joints, contacts and fuses in each situation: at camp with what runs for hours, on the road and
/// on shore power with everything that charges.
fn joints(assessment: &Assessment, id: &Id) -> [Power; 3] {
    let of = |kind: StateKind| {
        let state = assessment
            .states
            .iter()
            .position(|state| state.kind == kind);
        state.map_or(Power::ZERO, |state| in_state(assessment, id, state))
    };
    let charging = of(StateKind::Charging);
    [of(StateKind::Hours), charging, charging]
}

fn in_state(assessment: &Assessment, id: &Id, state: usize) -> Power {
    let mut sum = Power::ZERO;
    for joint in &assessment.joints {
        let amps = match &joint.owner {
            JointOwner::Contact(item, _) if item == id => through(assessment, id, state),
            JointOwner::WireEnd(wire, at_to) => assessment
                .wire(wire.as_str())
                .filter(|wire| (if *at_to { &wire.to.0 } else { &wire.from.0 }) == id)
                .map(|wire| amps_of(wire, state)),
            JointOwner::Contact(..) => None,
        };
        let amps = amps.unwrap_or(Current::ZERO).min(joint.amps);
        sum += (amps * joint.resistance.value) * amps;
    }
    for device in assessment
        .devices
        .iter()
        .filter(|device| device.item == *id)
    {
        let amps = device
            .states
            .get(state)
            .map_or(Current::ZERO, |found| found.amps);
        sum += (amps * device.resistance.value) * amps;
    }
    sum
}

/// Current through an item: the largest of the wires at it.
fn through(assessment: &Assessment, id: &Id, state: usize) -> Option<Current> {
    let wires = assessment.wires.iter();
    let at = wires.filter(|wire| wire.from.0 == *id || wire.to.0 == *id);
    at.map(|wire| amps_of(wire, state)).reduce(Current::max)
}

fn amps_of(wire: &WireResult, state: usize) -> Current {
    wire.states
        .get(state)
        .map_or(Current::ZERO, |found| found.amps.abs())
}
