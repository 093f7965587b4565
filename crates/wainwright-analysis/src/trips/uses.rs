//! What uses power on a trip, hour by hour: typed uses, fridges and heaters, inverters that stand by, what is always
//! on. Not here: water.

use crate::circuit::Notes;
use crate::known::Assumption;
use wainwright_engines::trip::{Burn, Fridge, Law, Load};
use wainwright_model::{FieldExt, Id, Inverter, Item, Job, Kind, Project, Spec, Use};
use wainwright_reference::device_class;
use wainwright_reference::household::{FridgeClass, fridge, fridge_figures};
use wainwright_units::{Power, Ratio, Temperature, Voltage, Volume};

/// Temperature a heater keeps when nobody said (judgement).
const WARM: Temperature = Temperature::from_celsius(18.0);
/// Heat of a heater when nobody said (common practice, no source): the usual small one.
const HEAT: Power = Power::from_watts(2000.0);

/// One thing that uses power.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct UseInputs {
    pub(super) item: Option<Id>,
    pub(super) used: Option<Id>,
    pub(super) label: String,
    pub(super) load: Load,
    /// Part of it that the inverter keeps for itself while the gear runs.
    pub(super) lost: Ratio,
    /// The inverter it hangs on, or that it is the standing by of.
    pub(super) inverter: Option<Id>,
    pub(super) stands_by: bool,
}

/// What uses power, and what nobody said a use of.
pub(super) struct Uses {
    pub(super) uses: Vec<UseInputs>,
    pub(super) unused: Vec<Id>,
}

pub(super) fn uses(
    project: &Project,
    trip: &str,
    people: u32,
    volts: Voltage,
    notes: &mut Notes,
) -> Uses {
    let mut desk = Desk {
        project,
        people,
        volts,
        notes,
        uses: Vec::new(),
        unused: Vec::new(),
    };
    let of_trip = |given: &Use| {
        given
            .trips
            .value()
            .is_none_or(|trips| trips.is_empty() || trips.iter().any(|one| one == trip))
    };
    for (id, given) in project.uses.iter().filter(|(_, given)| of_trip(given)) {
        desk.typed(id, given);
    }
    for (id, item) in project.items.iter() {
        desk.by_itself(id, item);
    }
    desk.standing();
    Uses {
        uses: desk.uses,
        unused: desk.unused,
    }
}

struct Desk<'a> {
    project: &'a Project,
    people: u32,
    volts: Voltage,
    notes: &'a mut Notes,
    uses: Vec<UseInputs>,
    unused: Vec<Id>,
}

impl Desk<'_> {
    /// A use as typed.
    fn typed(&mut self, id: &Id, given: &Use) {
        let name = given.of.value();
        let item = name.and_then(|name| {
            self.project
                .items
                .iter()
                .find(|(id, _)| id.as_str() == name)
        });
        let mut day = hours(given, self.people);
        let law = match item {
            Some((id, item)) if item.spec.kind() == Kind::Inverter => {
                let Spec::Inverter(spec) = &item.spec else {
                    return;
                };
                // Hours of an inverter are those in which it stands by.
                let idle = self.idle(id, spec);
                if given.per_day.is_none() {
                    day = [Ratio::ONE; 24];
                }
                self.push_idle(id, idle, day);
                return;
            }
            Some((id, item)) => match given.power.value() {
                Some(power) => Some(Law::Fixed(*power)),
                None => self.law(id, item),
            },
            None => given.power.value().map(|power| Law::Fixed(*power)),
        };
        let Some(law) = law else {
            if let Some((id, _)) = item {
                self.unused.push(id.clone());
            }
            return;
        };
        let (law, lost) = match given.inverter.value() {
            Some(inverter) => self.through(inverter, law),
            None => (law, Ratio::ZERO),
        };
        let label = match (given.label.value(), item) {
            (Some(label), _) => label.clone(),
            (None, Some((id, _))) => self.project.label_or_id("item", id.as_str()).to_owned(),
            (None, None) => id.to_string(),
        };
        self.uses.push(UseInputs {
            item: item.map(|(id, _)| id.clone()),
            used: Some(id.clone()),
            label,
            load: Load { law, day },
            lost,
            inverter: given.inverter.value().and_then(|id| Id::new(id)),
            stands_by: false,
        });
    }

    /// What runs without anybody's doing, when no use of it is typed.
    fn by_itself(&mut self, id: &Id, item: &Item) {
        if self
            .project
            .uses
            .iter()
            .any(|(_, given)| given.of.value().map(String::as_str) == Some(id.as_str()))
        {
            return;
        }
        match &item.spec {
            Spec::Load(load) => {
                let by_itself =
                    load.job.value().is_some() || load.continuous.value() == Some(&true);
                match self.law(id, item).filter(|_| by_itself) {
                    Some(law) => {
                        let duty = match law {
                            Law::Fixed(_) => load.duty.value().copied().unwrap_or(Ratio::ONE),
                            _ => Ratio::ONE,
                        };
                        self.push(
                            id,
                            Load {
                                law,
                                day: [duty; 24],
                            },
                        );
                    }
                    None => self.unused.push(id.clone()),
                }
            }
            Spec::Outlet(_) => self.unused.push(id.clone()),
            Spec::Inverter(spec) => {
                let idle = self.idle(id, spec);
                self.notes.assume_text(
                    &["item", id.as_str(), "closed"],
                    "on day and night".into(),
                    &super::run::usual(),
                );
                self.push_idle(id, idle, [Ratio::ONE; 24]);
            }
            _ => {}
        }
    }

    fn push(&mut self, id: &Id, load: Load) {
        self.uses.push(UseInputs {
            item: Some(id.clone()),
            used: None,
            label: self.project.label_or_id("item", id.as_str()).to_owned(),
            load,
            lost: Ratio::ZERO,
            inverter: None,
            stands_by: false,
        });
    }

    fn push_idle(&mut self, id: &Id, idle: Power, day: [Ratio; 24]) {
        self.uses.push(UseInputs {
            item: Some(id.clone()),
            used: None,
            label: format!(
                "{} standing by",
                self.project.label_or_id("item", id.as_str())
            ),
            load: Load {
                law: Law::Fixed(idle),
                day,
            },
            lost: Ratio::ZERO,
            inverter: Some(id.clone()),
            stands_by: true,
        });
    }

    /// Protection, meters and radios that draw all day.
    fn standing(&mut self) {
        use device_class::Standing;
        let has = |kind| {
            self.project
                .items
                .iter()
                .any(|(_, item)| item.spec.kind() == kind)
        };
        let all = [
            (Standing::ProtectionBoard, has(Kind::Battery)),
            (Standing::ShuntMeter, has(Kind::Shunt)),
            (Standing::SolarController, has(Kind::SolarController)),
        ];
        let power: Power = all
            .into_iter()
            .filter(|(_, there)| *there)
            .filter_map(|(what, _)| Some(device_class::standing(what)?.value.usual))
            .sum();
        if power > Power::ZERO {
            self.uses.push(UseInputs {
                item: None,
                used: None,
                label: "Protection, meter and controller".into(),
                load: Load::steady(Law::Fixed(power)),
                lost: Ratio::ZERO,
                inverter: None,
                stands_by: false,
            });
        }
    }

    /// How the power of an item depends on the air.
    fn law(&mut self, id: &Id, item: &Item) -> Option<Law> {
        let Spec::Load(spec) = &item.spec else {
            return None;
        };
        let power = spec
            .power
            .value()
            .copied()
            .or(spec.current.value().map(|current| self.volts * *current))
            .or(spec
                .resistance
                .value()
                .map(|ohms| self.volts * (self.volts / *ohms)));
        match spec.job.value() {
            None => Some(Law::Fixed(power?)),
            Some(Job::Fridge) => self.fridge(id.as_str(), spec),
            Some(Job::Heater) => {
                let name = id.as_str();
                let keeps = self
                    .notes
                    .given_or(
                        &spec.keeps,
                        &["item", name, "keeps"],
                        WARM,
                        Assumption::UsualForKind,
                    )
                    .value;
                let heat = self
                    .notes
                    .given_or(
                        &spec.heat,
                        &["item", name, "heat"],
                        HEAT,
                        Assumption::UsualForKind,
                    )
                    .value;
                Some(Law::Heater {
                    electric: power?,
                    heat,
                    watts_per_kelvin: crate::indoors::lost_per_kelvin(self.project).value,
                    keeps,
                    burns: spec
                        .fuel
                        .value()
                        .map_or(Burn::Nothing, |fuel| Burn::PerHour { running: *fuel }),
                })
            }
        }
    }

    fn fridge(&mut self, name: &str, spec: &wainwright_model::Load) -> Option<Law> {
        let figures = fridge_figures()?;
        let small = Volume::from_litres(45.0);
        let room = self
            .notes
            .given_or(
                &spec.room,
                &["item", name, "room"],
                small,
                Assumption::UsualForKind,
            )
            .value;
        let doors = 1.0 + figures.doors.value.usual.fraction();
        Some(Law::Fridge(Fridge {
            watts_per_kelvin: conductance(room)? * doors,
            inside: spec.keeps.value().copied().unwrap_or(figures.inside.value),
            of_ideal: figures.carnot_share.value.fraction(),
            colder: figures.evaporator_below.value,
            warmer: figures.condenser_above.value,
            electronics: figures.electronics.value,
        }))
    }

    /// What gear on an inverter takes from the battery, and the part of it that is lost.
    fn through(&mut self, inverter: &str, law: Law) -> (Law, Ratio) {
        let found = self.project.items.get(inverter).map(|item| &item.spec);
        let (Some(Spec::Inverter(spec)), Law::Fixed(power)) = (found, law) else {
            return (law, Ratio::ZERO);
        };
        let taken = match spec.efficiency.value() {
            Some(share) => power * (1.0 / share.fraction()),
            None => {
                let rated = spec.power.value().copied().unwrap_or(power);
                device_class::inverter_curve(rated).map_or(power, |row| {
                    let watts = power.watts();
                    power
                        + Power::from_watts(
                            row.value.slope * watts + row.value.square * watts * watts,
                        )
                })
            }
        };
        (Law::Fixed(taken), Ratio::from_fraction(1.0 - power / taken))
    }

    fn idle(&mut self, id: &Id, spec: &Inverter) -> Power {
        if let Some(current) = spec.idle_current.value() {
            return self.volts * *current;
        }
        let rated = spec.power.value().copied().unwrap_or(HEAT);
        let usual = device_class::inverter_idle(rated).map_or(Power::ZERO, |row| row.value.usual);
        let name = id.as_str();
        let shown = wainwright_units::Quantity::show(usual / self.volts, self.notes.system());
        self.notes
            .assume_text(&["item", name, "idle_current"], shown, &super::run::usual());
        usual
    }
}

/// Share of each hour of the day.
fn hours(given: &Use, people: u32) -> [Ratio; 24] {
    let mut time = given.per_day.value().map_or(24.0, |time| time.hours());
    if given.per_person.value() == Some(&true) {
        time *= f64::from(people);
    }
    let all: Vec<u32> = (0..24).collect();
    let hours = given
        .hours
        .value()
        .filter(|hours| !hours.is_empty())
        .unwrap_or(&all);
    let mut day = [Ratio::ZERO; 24];
    let each = time / hours.len() as f64;
    for hour in hours {
        // Two people may use two things in the same hour, so a share may go over one.
        day[(*hour % 24) as usize] = Ratio::from_fraction(each);
    }
    day
}

/// Heat through the walls of a fridge of this room: straight between the classes \[W/K\].
fn conductance(room: Volume) -> Option<f64> {
    let class = |class| {
        let row = fridge(class)?.value;
        Some((
            (row.volume_low.litres() + row.volume_high.litres()) / 2.0,
            row.conductance,
        ))
    };
    let points = [
        class(FridgeClass::Small)?,
        class(FridgeClass::Middle)?,
        class(FridgeClass::Large)?,
    ];
    let litres = room.litres();
    let above = points
        .iter()
        .position(|(at, _)| litres <= *at)
        .unwrap_or(points.len() - 1)
        .max(1);
    let ((low, least), (high, most)) = (points[above - 1], points[above]);
    Some((least + (most - least) * (litres - low) / (high - low)).max(least / 2.0))
}
