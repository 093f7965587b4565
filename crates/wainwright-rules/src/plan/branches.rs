//! Feeds that start at the bars: heavy gear with a fuse of its own, inverters,
//! and loads that go to fuse blocks. Not here: ways of blocks and banks
//! (`panel`), chargers.

use super::account::ObstacleKind;
use super::desk::Desk;
use super::draft::{Device, End, Guard, Laid, NewKind, Reach, end};
use super::limits;
use wainwright_model::{FieldExt, Kind, Spec};
use wainwright_reference::colour::ColourRole;
use wainwright_reference::limit::RatioLimit;
use wainwright_reference::protection::Family;
use wainwright_units::Length;

/// Gear that takes current through a pair of terminals.
#[derive(Debug, Clone)]
pub(super) struct Taker {
    pub(super) id: String,
    /// The terminal that wants a feed: its plus, or the inlet of what is
    /// wired before it.
    pub(super) plus: End,
    /// Rated current \[A\].
    pub(super) amps: f64,
    /// Rating its fuse needs at least \[A\].
    pub(super) least: f64,
    pub(super) role: ColourRole,
    /// Whether its plus and its minus have no wire yet.
    pub(super) loose: (bool, bool),
    /// Whether a switch may be put before it.
    pub(super) switchable: bool,
}

impl Desk<'_> {
    /// Every inverter, each from the bar through a fuse of its own.
    pub(super) fn inverters(&mut self) {
        let share = limits::share(RatioLimit::InverterProtection, 1.25);
        for (id, item) in self.survey.of(Kind::Inverter) {
            let Some(amps) = self.survey.amps(id, "+") else {
                self.untold(id);
                continue;
            };
            let Spec::Inverter(_) = &item.spec else {
                continue;
            };
            let taker = Taker {
                id: id.to_string(),
                plus: self.survey.inlet(id, "+"),
                amps,
                least: amps,
                role: ColourRole::PlusMain,
                loose: self.loose(id),
                switchable: false,
            };
            let usual = self.room.near();
            let section = self.own_feed(&taker, 'I', usual);
            if let Some(found) = section.and_then(|index| self.draft.sections.get_mut(index)) {
                found.wish = amps * share;
            }
        }
    }

    /// Every load and outlet.
    pub(super) fn loads(&mut self) {
        let takers = self.takers();
        let (heavy, light): (Vec<Taker>, Vec<Taker>) = takers
            .into_iter()
            .partition(|taker| taker.amps > self.options.own_feed_above);
        for taker in &heavy {
            if taker.loose.0 {
                let label = self.survey.label(&taker.id);
                self.account.decide(
                    format!("{label} has a feed of its own from the bar."),
                    format!(
                        "It takes {:.0} A; above {:.0} A the way of a fuse block is run hard.",
                        taker.amps, self.options.own_feed_above
                    ),
                    "Judgement of this project",
                    &[&taker.id],
                );
            }
            let usual = self.room.load();
            self.own_feed(taker, 'L', usual);
        }
        self.panels(light);
    }

    /// Loads and outlets that lack a wire.
    fn takers(&mut self) -> Vec<Taker> {
        let mut takers = Vec::new();
        for (id, item) in self.survey.project.items.iter() {
            let id = id.as_str();
            let (continuous, critical, surge) = match &item.spec {
                Spec::Load(load) => (
                    load.continuous.value().copied().unwrap_or(false),
                    load.critical.value().copied().unwrap_or(false),
                    load.surge.value().map_or(0.0, |amps| amps.amperes()),
                ),
                Spec::Outlet(outlet) => (
                    outlet.continuous.value().copied().unwrap_or(false),
                    true,
                    0.0,
                ),
                _ => continue,
            };
            let loose = self.loose(id);
            if loose == (false, false) {
                continue;
            }
            let Some(amps) = self.survey.amps(id, "+") else {
                self.untold(id);
                continue;
            };
            let share = self.continuous_share();
            let lasting = if continuous { amps / share } else { amps };
            takers.push(Taker {
                id: id.to_string(),
                plus: self.survey.inlet(id, "+"),
                amps,
                least: (lasting * limits::FUSE_ROOM).max(surge / limits::START),
                role: self.role(id),
                loose,
                switchable: self.is_switched(id) || (!continuous && !critical),
            });
        }
        takers
    }

    /// A feed from the bar: fuse within a short lead of it, wire, return.
    pub(super) fn own_feed(&mut self, taker: &Taker, letter: char, usual: Length) -> Option<usize> {
        if taker.loose == (false, false) {
            return None;
        }
        let id = &taker.id;
        let label = self.next(letter);
        let both = self.placed(id, &self.bar_id(true));
        let reach = self.room.reach(both, usual);
        if !taker.loose.0 {
            return self.return_only(taker, &label, reach);
        }
        let words = format!("{id} {}", self.survey.label(id));
        let families = limits::families(self.highest);
        let begun = self.begun_at(&taker.plus);
        let guard = match &begun {
            Some(fuse) => Guard::Own(self.old_device(fuse.clone(), families)),
            None => self.fuse(&words, families),
        };
        let branch = taker.amps <= BRANCH;
        let insulation = limits::insulation(self.survey.region(), branch);
        let section = self
            .draft
            .section(&self.survey.label(id), guard, insulation, taker.amps);
        self.least(section, taker.least);
        let from = self.stud(true)?;
        let name = format!("{} fuse", self.survey.label(id));
        let start = self.fuse_named(&format!("{id}-fuse"), &name, section, from, taker.role);
        if begun.is_none() {
            let laid = Laid::apart(section, taker.role, reach);
            let ends = (start, taker.plus.clone());
            self.draft
                .wire(&format!("{id}-plus"), &format!("{label}+"), ends, laid);
        }
        self.back(section, id, &label, reach, false);
        Some(section)
    }

    /// The fuse of the file that a feed was begun with, when its inlet is what
    /// wants a wire.
    pub(super) fn begun_at(&self, plus: &End) -> Option<String> {
        let fuse = matches!(self.survey.kind(&plus.0), Kind::Fuse | Kind::Breaker);
        fuse.then(|| plus.0.clone())
    }

    /// The return of a load, where it has none.
    pub(super) fn back(
        &mut self,
        section: usize,
        id: &str,
        label: &str,
        reach: Reach,
        together: bool,
    ) {
        if !self.survey.is_loose(id, "-") {
            return;
        }
        let Some(to) = self.stud(false) else { return };
        let laid = match together {
            true => Laid::together(section, ColourRole::Minus, reach),
            false => Laid::apart(section, ColourRole::Minus, reach),
        };
        self.draft.wire(
            &format!("{id}-minus"),
            &format!("{label}-"),
            (end(id, "-"), to),
            laid,
        );
    }

    /// Gear whose plus is wired and whose return is missing: as thick as its
    /// plus wire.
    pub(super) fn return_only(
        &mut self,
        taker: &Taker,
        label: &str,
        reach: Reach,
    ) -> Option<usize> {
        let insulation = limits::insulation(self.survey.region(), taker.amps <= BRANCH);
        let known = self.guard_rating(&taker.id);
        let section = self.draft.section(
            &self.survey.label(&taker.id),
            Guard::Existing(known),
            insulation,
            taker.amps,
        );
        if let Some(size) = self.thickest_at(&taker.id, "+")
            && let Some(found) = self.draft.sections.get_mut(section)
        {
            found.floor = size;
        }
        self.back(section, &taker.id, label, reach, true);
        Some(section)
    }

    /// A fuse of a section at the end of a short lead; returns its far side.
    pub(super) fn fuse_at(&mut self, base: &str, label: &str, section: usize, from: End) -> End {
        if self.draft.device(section).is_none() {
            let families = limits::families(self.highest);
            let guard = self.fuse(base, families);
            if let Some(found) = self.draft.sections.get_mut(section) {
                found.guard = guard;
            }
        }
        self.fuse_named(base, label, section, from, ColourRole::PlusMain)
    }

    /// As `fuse_at`, with the colour of the circuit.
    pub(super) fn fuse_named(
        &mut self,
        base: &str,
        label: &str,
        section: usize,
        from: End,
        role: ColourRole,
    ) -> End {
        let known = self.draft.device(section).map(|d: &Device| d.item.clone());
        let fuse = match known {
            Some(id) if !id.is_empty() => id,
            _ => {
                let spot = self.spot(&from.0);
                let id = self
                    .draft
                    .item(base, label, NewKind::Fuse { section }, spot);
                self.name_fuse(section, &id);
                id
            }
        };
        let laid = Laid::open(section, role, Reach::Cut(self.room.lead()));
        let count = self.circuits;
        self.draft.wire(
            &format!("{fuse}-lead"),
            &format!("F{count}"),
            (from, end(&fuse, "in")),
            laid,
        );
        end(&fuse, "out")
    }

    /// Raises the least rating of a section's fuse.
    pub(super) fn least(&mut self, section: usize, amps: f64) {
        if let Some(found) = self.draft.sections.get_mut(section) {
            found.least = found.least.max(amps);
        }
    }

    /// Which terminals of two-terminal gear have no wire.
    pub(super) fn loose(&self, id: &str) -> (bool, bool) {
        let plus = self.survey.inlet(id, "+");
        (
            self.survey.is_loose(&plus.0, &plus.1),
            self.survey.is_loose(id, "-"),
        )
    }

    /// Says that a figure is missing.
    pub(super) fn untold(&mut self, id: &str) {
        let label = self.survey.label(id);
        self.account.cannot(
            ObstacleKind::Missing,
            format!("{label} is left out: what it takes or gives has not been typed."),
            &[id],
        );
    }

    /// Share of a fuse's rating that may flow for hours.
    pub(super) fn continuous_share(&self) -> f64 {
        let limit = &self.survey.assessment.limits.continuous_share;
        limit.value.fraction().clamp(0.1, 1.0)
    }

    /// Families that are marked for the highest voltage, or plug-in fuses
    /// that must be bought so marked.
    pub(super) fn block_family(&self) -> (Family, Option<f64>) {
        let able = limits::families(self.highest).contains(&Family::Blade);
        (Family::Blade, (!able).then(|| self.highest.ceil()))
    }

    /// Whether this is what people switch by hand, whatever else it is.
    fn is_switched(&self, id: &str) -> bool {
        matches!(
            self.role(id),
            ColourRole::Lighting | ColourRole::Pump | ColourRole::Blower
        )
    }

    /// What the plus wire of a load is for, for its colour.
    fn role(&self, id: &str) -> ColourRole {
        let words = self.survey.tokens(id);
        let has = |names: &[&str]| {
            words
                .iter()
                .any(|word| names.iter().any(|name| word.starts_with(name)))
        };
        if has(&LIGHTS) {
            ColourRole::Lighting
        } else if has(&["pump"]) {
            ColourRole::Pump
        } else if has(&["fan", "blower", "vent"]) {
            ColourRole::Blower
        } else if has(&["monitor", "gauge", "display"]) {
            ColourRole::Instrument
        } else {
            ColourRole::Other
        }
    }

    /// Rating of the smallest fuse before the plus of gear \[A\].
    fn guard_rating(&self, id: &str) -> Option<f64> {
        let wires = self.survey.assessment.wires.iter();
        wires
            .filter(|w| {
                [&w.from, &w.to]
                    .iter()
                    .any(|e| e.0.as_str() == id && e.1 == "+")
            })
            .flat_map(|wire| &wire.guards)
            .filter_map(|guard| self.survey.assessment.devices.get(guard.device?))
            .map(|device| device.rating.value.amperes())
            .reduce(f64::max)
    }

    /// Nominal metal of the thickest wire at a terminal \[mm²\].
    fn thickest_at(&self, id: &str, terminal: &str) -> Option<f64> {
        let wires = self.survey.assessment.wires.iter();
        wires
            .filter(|w| {
                [&w.from, &w.to]
                    .iter()
                    .any(|e| e.0.as_str() == id && e.1 == terminal)
            })
            .map(|wire| limits::area(wire.size.value))
            .reduce(f64::max)
    }
}

/// Words that lights are named by.
const LIGHTS: [&str; 3] = ["light", "lamp", "led"];

/// Up to this current \[A\] wire of the branch kind is used: judgement.
const BRANCH: f64 = 60.0;
