//! Sizes for the sections of a draft: for each the choices that pass by
//! themselves, then the cheapest of them that also keep every drop within its
//! limit. Not here: the check of the whole (`check`).

use super::draft::{Device, Draft, Guard, Section};
use super::limits;
use super::measure::Measured;
use super::stock::Shed;
use wainwright_analysis::sizing::SizeBench;
use wainwright_model::Region;
use wainwright_reference::cost::{lug_cost, protection_cost, wire_cost};
use wainwright_reference::insulation::{Material, insulation};
use wainwright_reference::protection::{Family, interrupt_at, ratings};
use wainwright_units::{Current, Voltage, WireSize};

/// What a section gets.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Choice {
    pub(super) size: WireSize,
    pub(super) insulation: String,
    pub(super) family: Option<Family>,
    /// Rating of its fuse \[A\].
    pub(super) rating: Option<f64>,
    /// In cost units, owned stock left out.
    pub(super) cost: f64,
    /// Resistance of each of its wires \[Ω\], in their order.
    pub(super) ohms: Vec<f64>,
}

/// An item of the file that is not used.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Refused {
    /// Its id, or `id.way` for one way of a block.
    pub(super) key: String,
    /// Why, as the end of a sentence.
    pub(super) why: String,
}

impl Refused {
    pub(super) fn new(key: impl Into<String>, why: impl Into<String>) -> Self {
        Self {
            key: key.into(),
            why: why.into(),
        }
    }
}

/// Why nothing fits.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Unfit {
    /// An item of the file, or one way of it, does not fit its place, and why.
    Old(Refused),
    /// Nothing that is sold fits this section.
    Nothing(usize),
}

/// A fuse that may be fitted: family and rating where there is one, and the
/// current the wire must bear \[A\].
type Fuse = (Option<Family>, Option<f64>, f64);

/// Everything the choice depends on besides the draft.
pub(super) struct Chooser<'a> {
    pub(super) draft: &'a Draft,
    pub(super) bench: &'a SizeBench,
    pub(super) measured: &'a Measured,
    pub(super) region: Region,
    /// Nominal and highest voltage of the system \[V\].
    pub(super) volts: (f64, f64),
    pub(super) share: f64,
    /// What was chosen the last time.
    pub(super) last: Option<&'a [Choice]>,
}

/// A solved draft.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Solved {
    pub(super) choices: Vec<Choice>,
    /// No choices that pass cost less.
    pub(super) lower_bound: f64,
}

impl Chooser<'_> {
    /// A choice for every section.
    pub(super) fn solve(&self, shed: &Shed) -> Result<Solved, Unfit> {
        let count = self.draft.sections.len();
        let mut ladders: Vec<Vec<Choice>> = vec![Vec::new(); count];
        let mut rated: Vec<f64> = vec![0.0; count];
        let mut left = shed.clone();
        for wave in 0..WAVES {
            for (index, section) in self.draft.sections.iter().enumerate() {
                if wave_of(section) != wave {
                    continue;
                }
                let ladder = self.ladder(index, section, &rated, &ladders, &left)?;
                if let (Some(first), true) = (ladder.first(), !section.wires.is_empty()) {
                    let last = self.last.and_then(|last| last.get(index)?.rating);
                    rated[index] = first.rating.unwrap_or(0.0).max(last.unwrap_or(0.0));
                    left.take(self, section, first);
                }
                ladders[index] = ladder;
            }
        }
        let (places, lower_bound) = self.places(&ladders);
        let choices = ladders
            .iter()
            .zip(&places)
            .map(|(ladder, place)| ladder.get(*place).cloned().unwrap_or_else(nothing))
            .collect();
        Ok(Solved {
            choices,
            lower_bound,
        })
    }

    /// Choices of a section that pass by themselves, cheapest first; then
    /// each thicker one.
    fn ladder(
        &self,
        index: usize,
        section: &Section,
        rated: &[f64],
        ladders: &[Vec<Choice>],
        shed: &Shed,
    ) -> Result<Vec<Choice>, Unfit> {
        if section.wires.is_empty() {
            return Ok(Vec::new());
        }
        let wished = self.ladder_for(index, section, rated, ladders, shed, section.wish);
        let eased = match wished {
            Err(_) if section.wish > 0.0 => {
                self.ladder_for(index, section, rated, ladders, shed, 0.0)
            }
            found => found,
        };
        match eased {
            Err(_) if section.most.is_finite() => {
                let open = Section {
                    most: f64::INFINITY,
                    ..section.clone()
                };
                self.ladder_for(index, &open, rated, ladders, shed, 0.0)
            }
            found => found,
        }
    }

    /// The same for one least rating of the fuse \[A\].
    fn ladder_for(
        &self,
        index: usize,
        section: &Section,
        rated: &[f64],
        ladders: &[Vec<Choice>],
        shed: &Shed,
        wish: f64,
    ) -> Result<Vec<Choice>, Unfit> {
        let amps = self.amps(index, section);
        let fuses: Vec<Fuse> = match &section.guard {
            Guard::Own(device) => self.fuses(index, section, device, amps.max(wish))?,
            Guard::Sum(parts) => {
                let sum = parts.iter().filter_map(|part| rated.get(*part)).sum();
                vec![(None, None, sum)]
            }
            Guard::Source(most) => vec![(None, None, most.max(amps))],
            Guard::Existing(known) => vec![(None, None, known.unwrap_or(amps).max(amps))],
            Guard::As(_) => vec![(None, None, 0.0)],
        };
        let least = match &section.guard {
            Guard::As(other) => {
                let last = self.last.and_then(|last| last.get(*other));
                let main = last.or(ladders.get(*other).and_then(|ladder| ladder.first()));
                section
                    .floor
                    .max(main.map_or(0.0, |c| limits::area(c.size)))
            }
            _ => section.floor,
        };
        let mut found: Vec<Choice> = Vec::new();
        for class in self.classes(section, shed) {
            for size in limits::sizes(self.region) {
                if limits::area(size) < least - 1e-9 {
                    continue;
                }
                let Some((bears, cool, ohms)) = self.tried(section, size, &class, amps) else {
                    continue;
                };
                let fits = fuses.iter().filter(|fuse| bears >= fuse.2 - 1e-9 && cool);
                for (family, rating, _) in fits {
                    let mut choice = Choice {
                        size,
                        insulation: class.clone(),
                        family: *family,
                        rating: *rating,
                        cost: 0.0,
                        ohms: ohms.clone(),
                    };
                    choice.cost = self.cost(section, &choice, shed);
                    found.push(choice);
                }
            }
        }
        found.sort_by(|a, b| {
            let metal = limits::area(a.size).total_cmp(&limits::area(b.size));
            a.cost.total_cmp(&b.cost).then(metal)
        });
        match found.is_empty() {
            false => Ok(found),
            true => Err(match &section.guard {
                Guard::Own(device) if device.old => Unfit::Old(Refused::new(
                    device_key(device),
                    format!(
                        "no wire that is sold bears its rating where {} is",
                        section.name
                    ),
                )),
                _ => Unfit::Nothing(index),
            }),
        }
    }

    /// Current a section is made for \[A\].
    fn amps(&self, index: usize, section: &Section) -> f64 {
        let found = self.measured.sections.get(index);
        found.map_or(section.rated, |m| m.amps).max(section.rated)
    }

    /// Fuses that carry the load and can open the short circuit: family,
    /// rating, and what the wire must bear.
    fn fuses(
        &self,
        index: usize,
        section: &Section,
        device: &Device,
        amps: f64,
    ) -> Result<Vec<Fuse>, Unfit> {
        let measured = self.measured.sections.get(index);
        let lasting = measured.map_or(0.0, |m| m.through) * limits::FUSE_ROOM;
        let hours = measured.map_or(0.0, |m| m.hours) / self.share;
        let fault = measured.map_or(0.0, |m| m.fault);
        let least = section.least.max(lasting).max(hours).max(amps);
        let mut found = Vec::new();
        let mut why = match device.fixed {
            Some(rating) => format!("it is rated {rating} A, {least:.0} A are needed"),
            None => format!("its family has no rating of {least:.0} A or more"),
        };
        for family in device
            .families
            .iter()
            .filter(|f| !device.barred.contains(f))
        {
            let volts = Voltage::from_volts(self.volts.0);
            let able =
                interrupt_at(*family, volts).is_some_and(|most| most.value.amperes() >= fault);
            if device.way == 0 && device.marked.is_none() && !able {
                let most = interrupt_at(*family, volts).map_or(0.0, |most| most.value.amperes());
                why = format!("it can open {most:.0} A, a short circuit may drive {fault:.0} A");
                continue;
            }
            let all: Vec<f64> = match device.fixed {
                Some(rating) => vec![rating],
                None => ratings(*family)
                    .into_iter()
                    .map(|r| r.value.amperes())
                    .collect(),
            };
            let old = device.fixed.is_some();
            let fits = all
                .into_iter()
                .filter(|rating| *rating >= least - 1e-9 && (old || *rating <= section.most));
            found.extend(
                fits.take(RATINGS)
                    .map(|rating| (Some(*family), Some(rating), rating)),
            );
        }
        match (found.is_empty(), device.old) {
            (false, _) => Ok(found),
            (true, true) => Err(Unfit::Old(Refused::new(device_key(device), why))),
            (true, false) => Err(Unfit::Nothing(index)),
        }
    }

    /// Insulations to try: the section's own, and those in the shed.
    fn classes(&self, section: &Section, shed: &Shed) -> Vec<String> {
        let mut classes = vec![section.insulation.to_string()];
        if !self.bears_enough(section) {
            classes.push(HOTTER.to_string());
        }
        for class in shed.classes() {
            let fits = insulation(&class).is_some_and(|found| {
                let foam = section.wires.iter().any(|w| {
                    let wire = self.draft.wires.get(*w);
                    wire.is_some_and(|wire| self.bench.in_foam(&wire.id))
                });
                let volts =
                    insulation(section.insulation).map_or(0.0, |own| own.voltage.value.volts());
                let enough = found.voltage.value.volts() >= self.volts.1.min(volts);
                enough && !(foam && found.material == Material::Pvc)
            });
            if fits && !classes.contains(&class) {
                classes.push(class);
            }
        }
        classes
    }

    /// Whether the thickest wire with the section's own insulation bears what
    /// is asked for.
    fn bears_enough(&self, section: &Section) -> bool {
        let asked = section.least.max(section.wish).max(section.rated);
        asked <= HEAVY
    }

    /// What all wires of a section bear in this size \[A\], whether they stay
    /// cool enough for terminals, and what each resists \[Ω\].
    fn tried(
        &self,
        section: &Section,
        size: WireSize,
        class: &str,
        amps: f64,
    ) -> Option<(f64, bool, Vec<f64>)> {
        let mut bears = f64::INFINITY;
        let mut cool = true;
        let mut ohms = Vec::new();
        for wire in &section.wires {
            let wire = self.draft.wires.get(*wire)?;
            let load = Current::from_amperes(amps);
            let tried = self.bench.try_wire(&wire.id, size, class, load)?;
            bears = bears.min(tried.bears.amperes());
            cool &= tried
                .temperature
                .is_some_and(|hot| hot.celsius() <= limits::TERMINALS_BEAR);
            ohms.push(tried.resistance.ohms());
        }
        Some((bears, cool, ohms))
    }

    /// Cost of a section's wires, lugs and fuse; what is in the shed costs
    /// nothing as far as it reaches.
    fn cost(&self, section: &Section, choice: &Choice, shed: &Shed) -> f64 {
        let per_metre = wire_cost(choice.size).map_or(UNLISTED, |c| c.value);
        let lug = lug_cost(choice.size).map_or(UNLISTED, |c| c.value);
        let bought = shed.to_buy(self, section, choice);
        let wires = bought * per_metre + 2.0 * lug * section.wires.len() as f64;
        let Guard::Own(device) = &section.guard else {
            return wires;
        };
        if device.old {
            return wires;
        }
        let (Some(family), Some(rating)) = (choice.family, choice.rating) else {
            return wires;
        };
        let price = protection_cost(family).map(|c| c.value);
        let holder = price.map_or(UNLISTED, |p| p.holder);
        let fuse = match shed.has_fuse(family, rating) {
            true => 0.0,
            false => price.map_or(UNLISTED, |p| p.fuse),
        };
        wires + fuse + if device.way == 0 { holder } else { 0.0 }
    }
}

/// Sections that depend on others come after them.
const WAVES: usize = 3;
fn wave_of(section: &Section) -> usize {
    match section.guard {
        Guard::Own(_) | Guard::Source(_) | Guard::Existing(_) => 0,
        Guard::Sum(_) => 1,
        Guard::As(_) => 2,
    }
}

/// Insulation for currents that the usual one does not bear in any size that
/// is sold.
const HOTTER: &str = "silicone";
/// Above this current \[A\] it is tried as well: judgement.
const HEAVY: f64 = 250.0;
/// Most ratings of one family that are tried, the smallest first.
const RATINGS: usize = 2;
/// Cost units of what the tables do not list.
const UNLISTED: f64 = 100.0;

/// How a check names a fuse of the file, or one way of a block.
pub(super) fn device_key(device: &Device) -> String {
    match device.way {
        0 => device.item.clone(),
        way => format!("{}.{way}", device.item),
    }
}

fn nothing() -> Choice {
    Choice {
        size: WireSize::Metric(wainwright_units::CrossSection::from_square_millimetres(1.0)),
        insulation: String::new(),
        family: None,
        rating: None,
        cost: 0.0,
        ohms: Vec::new(),
    }
}
