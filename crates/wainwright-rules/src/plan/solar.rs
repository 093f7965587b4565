//! Solar: strings of modules, their joint, a switch, the controller. Not
//! here: other chargers.

use super::account::ObstacleKind;
use super::desk::Desk;
use super::draft::{Device, End, Guard, Laid, NewKind, Reach, end};
use super::limits;
use wainwright_model::{FieldExt, Kind, SolarModule, Spec, Surrounding, SwitchStyle};
use wainwright_reference::colour::ColourRole;
use wainwright_reference::limit::RatioLimit;
use wainwright_reference::protection::Family;

/// Figures of a string of modules.
#[derive(Clone, Copy)]
struct Figures {
    /// Current into a short \[A\].
    short: f64,
    /// Voltage without load \[V\].
    open: f64,
    /// Voltage at rated power \[V\].
    best: f64,
}

impl Desk<'_> {
    /// Every solar controller and the modules that have no wire yet.
    pub(super) fn solar(&mut self) {
        let modules: Vec<String> = self
            .survey
            .of(Kind::SolarModule)
            .into_iter()
            .map(|(id, _)| id.to_string())
            .filter(|id| self.survey.is_untouched(id))
            .collect();
        let controllers: Vec<String> = self
            .survey
            .of(Kind::SolarController)
            .into_iter()
            .map(|(id, _)| id.to_string())
            .collect();
        for id in &controllers {
            self.charger(id, ("out+", "out-"), 'S');
        }
        let waiting: Vec<&String> = controllers
            .iter()
            .filter(|id| self.survey.is_loose(id, "pv+") && self.survey.is_loose(id, "pv-"))
            .collect();
        if modules.is_empty() {
            return;
        }
        if waiting.is_empty() {
            self.account.cannot(
                ObstacleKind::Missing,
                "There is no solar controller free: the modules must not be joined to the battery without one.",
                &[],
            );
            return;
        }
        let each = modules.len().div_ceil(waiting.len());
        let shares: Vec<(String, Vec<String>)> = waiting
            .iter()
            .zip(modules.chunks(each.max(1)))
            .map(|(id, share)| ((*id).clone(), share.to_vec()))
            .collect();
        for (controller, share) in shares {
            self.array(&controller, &share);
        }
    }

    /// The modules of one controller.
    fn array(&mut self, controller: &str, modules: &[String]) {
        let figures: Vec<Figures> = modules.iter().filter_map(|id| self.figures(id)).collect();
        let (Some(first), true) = (figures.first(), figures.len() == modules.len()) else {
            for id in modules {
                if self.figures(id).is_none() {
                    self.untold(id);
                }
            }
            return;
        };
        let charge = self.charge_voltage(controller);
        let series = ((charge * HEADROOM) / first.best.max(1.0)).ceil().max(1.0) as usize;
        let whole = modules.len() / series;
        if whole == 0 || !modules.len().is_multiple_of(series) {
            let label = self.survey.label(controller);
            self.account.cannot(
                ObstacleKind::Gear,
                format!(
                    "{label} charges at {charge:.1} V, which takes {series} of these modules in a \
                     string; {} do not make whole strings.",
                    modules.len(),
                ),
                &[controller],
            );
        }
        if whole == 0 {
            return;
        }
        let strings: Vec<&[String]> = modules.chunks_exact(series).collect();
        let open: f64 = figures.iter().take(series).map(|f| f.open).sum();
        let short = figures.iter().map(|f| f.short).fold(0.0, f64::max);
        self.wire_array(controller, &strings, short, open);
    }

    fn wire_array(&mut self, controller: &str, strings: &[&[String]], short: f64, open: f64) {
        let count = strings.len();
        let label = self.next('S');
        let name = self.survey.label(controller);
        let sum = short * count as f64 * limits::share(RatioLimit::SolarCurrent, 1.25);
        let volts = open * COLD;
        let insulation = self.solar_insulation(volts);
        let home = self.draft.section(
            &format!("{name}, modules"),
            Guard::Source(sum),
            insulation,
            sum,
        );
        let fused = count > limits::STRINGS_UNFUSED;
        let joints = (count > 1).then(|| {
            (
                self.splice("roof-plus", "Roof joint, plus"),
                self.splice("roof-minus", "Roof joint, minus"),
            )
        });
        for (number, string) in strings.iter().enumerate() {
            let (Some(top), Some(bottom)) = (string.first(), string.last()) else {
                continue;
            };
            let one = match fused {
                true => self.string_section(&name, short, volts, insulation),
                false => home,
            };
            let base = format!("{label}.{}", number + 1);
            for pair in string.windows(2) {
                let [above, below] = pair else { continue };
                let laid = roof(one, ColourRole::SolarPlus, Reach::Cut(self.room.beside()));
                let ends = (end(above, "-"), end(below, "+"));
                self.draft
                    .wire(&format!("{above}-{below}"), &format!("{base}s"), ends, laid);
            }
            let Some(((plus, minus), number)) = joints.as_ref().map(|j| (j.clone(), number + 1))
            else {
                continue;
            };
            let mut start = end(top, "+");
            if fused {
                let title = "Solar string fuse";
                start = self.fuse_named(
                    &format!("{top}-fuse"),
                    title,
                    one,
                    start,
                    ColourRole::SolarPlus,
                );
            }
            let laid = roof(
                one,
                ColourRole::SolarPlus,
                Reach::Assumed(self.room.charger()),
            );
            let ends = (start, end(&plus, &number.to_string()));
            self.draft
                .wire(&format!("{top}-plus"), &format!("{base}+"), ends, laid);
            let laid = roof(
                one,
                ColourRole::SolarMinus,
                Reach::Assumed(self.room.charger()),
            );
            let ends = (end(bottom, "-"), end(&minus, &number.to_string()));
            self.draft
                .wire(&format!("{bottom}-minus"), &format!("{base}-"), ends, laid);
        }
        let (from, back) = match (&joints, strings.first()) {
            (Some((plus, minus)), _) => {
                let last = (count + 1).to_string();
                (end(plus, &last), end(minus, &last))
            }
            (None, Some(only)) => {
                let (Some(top), Some(bottom)) = (only.first(), only.last()) else {
                    return;
                };
                (end(top, "+"), end(bottom, "-"))
            }
            (None, None) => return,
        };
        self.down(controller, home, &label, (from, back), volts);
        if fused {
            self.account.decide(
                format!("Each of the {count} strings of solar modules has a fuse."),
                "Three strings or more: the others together push more into a shorted one than its leads bear.",
                "NFPA 70 690.9",
                &[controller],
            );
        }
    }

    /// From the roof through a switch to the controller, and back.
    fn down(
        &mut self,
        controller: &str,
        section: usize,
        label: &str,
        ends: (End, End),
        volts: f64,
    ) {
        let kind = NewKind::Switch {
            section,
            style: SwitchStyle::Battery,
            volts,
        };
        let words = "solar module roof";
        let switch = self.adopt(&[Kind::Switch], words).unwrap_or_else(|| {
            self.draft.item(
                &format!("{controller}-switch"),
                "Solar switch",
                kind,
                self.room.hub,
            )
        });
        self.account.decide(
            "A switch parts the solar modules from their controller.",
            "Modules give voltage whenever there is light; most controllers want the battery joined first and parted last.",
            "NFPA 70 690.13",
            &[controller],
        );
        let laid = roof(
            section,
            ColourRole::SolarPlus,
            Reach::Assumed(self.room.roof()),
        );
        let run = (ends.0, end(&switch, "in"));
        self.draft.wire(
            &format!("{controller}-roof-plus"),
            &format!("{label}+"),
            run,
            laid,
        );
        let near = Laid::open(
            section,
            ColourRole::SolarPlus,
            Reach::Cut(self.room.beside()),
        );
        let run = (end(&switch, "out"), end(controller, "pv+"));
        self.draft.wire(
            &format!("{controller}-pv-plus"),
            &format!("{label}c+"),
            run,
            near,
        );
        let laid = roof(
            section,
            ColourRole::SolarMinus,
            Reach::Assumed(self.room.roof()),
        );
        let run = (ends.1, end(controller, "pv-"));
        self.draft.wire(
            &format!("{controller}-roof-minus"),
            &format!("{label}-"),
            run,
            laid,
        );
    }

    /// One string with its own fuse.
    fn string_section(
        &mut self,
        name: &str,
        short: f64,
        volts: f64,
        insulation: &'static str,
    ) -> usize {
        let able = limits::families(volts);
        let least = short * limits::share(RatioLimit::SolarProtection, 1.56);
        let small = able.iter().any(|family| {
            Self::smallest_rating(*family, least).is_some_and(|rating| rating <= least * 2.0)
        });
        let (families, marked) = match small {
            true => (able, None),
            false => (vec![Family::Breaker], Some(volts.ceil())),
        };
        let device = Device {
            item: String::new(),
            way: 0,
            families,
            fixed: None,
            old: false,
            barred: Vec::new(),
            marked,
        };
        let section = self
            .draft
            .section(name, Guard::Own(device), insulation, short);
        self.least(section, least);
        section
    }

    fn splice(&mut self, base: &str, label: &str) -> String {
        self.adopt(&[Kind::Splice], label)
            .unwrap_or_else(|| self.draft.item(base, label, NewKind::Splice, None))
    }

    /// Automotive wire is made for 60 V.
    fn solar_insulation(&self, volts: f64) -> &'static str {
        let usual = limits::insulation(self.survey.region(), true);
        let most = wainwright_reference::insulation::insulation(usual);
        match most.is_some_and(|class| class.voltage.value.volts() >= volts) {
            true => usual,
            false => "boat-105",
        }
    }

    fn figures(&self, id: &str) -> Option<Figures> {
        let Spec::SolarModule(module) = &self.survey.project.items.get(id)?.spec else {
            return None;
        };
        let short = self.survey.amps(id, "+")?;
        let best = best_volts(module)?;
        let open = module
            .open_voltage
            .value()
            .map_or(best / SHAPE, |v| v.volts());
        Some(Figures { short, open, best })
    }

    fn charge_voltage(&self, controller: &str) -> f64 {
        match self
            .survey
            .project
            .items
            .get(controller)
            .map(|item| &item.spec)
        {
            Some(Spec::SolarController(spec)) => spec
                .charge_voltage
                .value()
                .map_or(self.highest, |v| v.volts()),
            _ => self.highest,
        }
    }
}

fn best_volts(module: &SolarModule) -> Option<f64> {
    let given = module.best_voltage.value().map(|v| v.volts());
    let by_power = || match (module.power.value(), module.best_current.value()) {
        (Some(power), Some(amps)) => Some(power.watts() / amps.amperes().max(1e-9)),
        _ => None,
    };
    let by_open = || module.open_voltage.value().map(|v| v.volts() * SHAPE);
    given.or_else(by_power).or_else(by_open)
}

/// A wire over the roof, in the hot cavity.
fn roof(section: usize, role: ColourRole, reach: Reach) -> Laid {
    let mut laid = Laid::open(section, role, reach);
    laid.runs = Some(Surrounding::Cavity);
    laid
}

/// A controller needs the modules this far above its charging voltage when
/// they are hot: judgement.
const HEADROOM: f64 = 1.15;
/// Modules give this much more without load when they are cold: judgement,
/// 0.3 % per kelvin down to -15 °C.
const COLD: f64 = 1.12;
/// Best over open voltage of a usual silicon module: judgement.
const SHAPE: f64 = 0.83;
