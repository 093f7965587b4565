//! What colours mean in the schematic. Not here: the colours themselves.

use super::Shown;
use std::collections::BTreeMap;
use wainwright_analysis::result::{ConsumerResult, WireResult};
use wainwright_drawing::Tone;
use wainwright_rules::{Severity, Subject};

/// Currents below this count as none [A].
const NO_CURRENT: f64 = 1e-3;

/// What colours mean.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Colour {
    /// What is wrong.
    #[default]
    Findings,
    /// How hot, from the air around to the limit of the insulation.
    Temperature,
    /// Voltage lost, as a share of what a whole circuit may lose.
    Drop,
    /// Current, as a share of what the wire bears for ever.
    Loading,
}

impl Colour {
    /// All of them, in the order they are offered.
    pub const ALL: [Self; 4] = [Self::Findings, Self::Temperature, Self::Drop, Self::Loading];

    /// As in an address.
    pub fn id(self) -> &'static str {
        match self {
            Self::Findings => "findings",
            Self::Temperature => "temperature",
            Self::Drop => "drop",
            Self::Loading => "loading",
        }
    }

    /// For people.
    pub fn words(self) -> &'static str {
        match self {
            Self::Findings => "Findings",
            Self::Temperature => "Temperature",
            Self::Drop => "Voltage drop",
            Self::Loading => "Loading",
        }
    }

    /// The colour meant by a word; findings for any other.
    pub fn named(word: Option<&str>) -> Self {
        Self::ALL
            .into_iter()
            .find(|c| Some(c.id()) == word)
            .unwrap_or_default()
    }
}

/// Works out how each thing fares.
pub struct Tones<'a> {
    shown: Shown<'a>,
    worst: BTreeMap<String, Severity>,
    count: BTreeMap<String, usize>,
}

impl<'a> Tones<'a> {
    /// For one drawing.
    pub fn of(shown: &Shown<'a>) -> Self {
        let mut tones = Self {
            shown: *shown,
            worst: BTreeMap::new(),
            count: BTreeMap::new(),
        };
        for finding in &shown.study.findings {
            // The first subject is what is wrong; others only take part.
            if let Some(key) = finding.subjects.first().and_then(key) {
                let worst = tones.worst.entry(key.clone()).or_insert(finding.severity);
                *worst = (*worst).min(finding.severity);
                *tones.count.entry(key).or_default() += 1;
            }
        }
        tones
    }

    /// How a wire fares.
    pub fn wire(&self, wire: &WireResult) -> Tone {
        let there = self.shown.state.and_then(|state| wire.states.get(state));
        let off = there.is_none_or(|there| there.amps.amperes().abs() < NO_CURRENT);
        let Some(there) = there else {
            return self.judged(&format!("wire.{}", wire.id), false);
        };
        match self.shown.colour {
            Colour::Findings => self.judged(&format!("wire.{}", wire.id), off),
            _ if off => Tone::Off,
            Colour::Temperature => {
                let air = wire.air.value.celsius();
                Tone::Scale((there.temperature.celsius() - air) / (wire.limit.celsius() - air))
            }
            Colour::Drop => Tone::Scale(self.drop_share(there.drop.volts())),
            Colour::Loading => {
                Tone::Scale(there.amps.amperes().abs() / wire.ampacity.in_force.amperes())
            }
        }
    }

    fn drop_share(&self, drop_volts: f64) -> f64 {
        let system = self.shown.assessment.system_volts.as_ref();
        let limit = self.shown.assessment.limits.drop_critical.value.fraction();
        system.map_or(0.0, |system| {
            drop_volts.abs() / (system.value.volts() * limit)
        })
    }

    /// How a block fares.
    pub fn item(&self, id: &str, gear: Option<&ConsumerResult>) -> Tone {
        let there = self.shown.state.and_then(|state| gear?.states.get(state));
        let off = there.is_some_and(|there| !there.on);
        match self.shown.colour {
            Colour::Findings => self.judged(&format!("item.{id}"), off),
            _ if off => Tone::Off,
            _ => Tone::Calm,
        }
    }

    /// Number of findings, for the corner of a block.
    pub fn badge(&self, id: &str) -> Option<String> {
        let count = self.count.get(&format!("item.{id}"));
        count
            .filter(|_| self.shown.colour == Colour::Findings)
            .map(ToString::to_string)
    }

    fn judged(&self, key: &str, off: bool) -> Tone {
        match self.worst.get(key) {
            Some(Severity::Danger | Severity::Warning) => Tone::Bad,
            Some(Severity::Caution) => Tone::Watch,
            Some(Severity::Notice) | None if off => Tone::Off,
            Some(Severity::Notice) | None => Tone::Calm,
        }
    }
}

/// The drawn thing a subject belongs to.
fn key(subject: &Subject) -> Option<String> {
    match subject {
        Subject::Wire(id) => Some(format!("wire.{id}")),
        Subject::Item(id) | Subject::Terminal(id, _) | Subject::Way(id, _) => {
            Some(format!("item.{id}"))
        }
        Subject::State(_)
        | Subject::System
        | Subject::Trailer
        | Subject::Rating(_)
        | Subject::Opening(_)
        | Subject::Weighing(_)
        | Subject::Layer(_) => None,
    }
}
