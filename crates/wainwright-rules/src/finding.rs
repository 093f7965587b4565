//! A finding: one thing that is wrong with one trailer, as data, with a
//! headline that is complete on its own. Not here: which things are wrong
//! (one file per rule) and what mends them (see [`crate::prove`]).

use crate::severity::Severity;
use wainwright_analysis::known::Basis;
use wainwright_analysis::{Ask, Assessment};
use wainwright_model::Id;
use wainwright_reference::{Mark, Source};
use wainwright_units::Ratio;

/// What a finding is about.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// A conductor.
    Wire(Id),
    /// A piece of gear.
    Item(Id),
    /// One terminal of a piece of gear.
    Terminal(Id, String),
    /// One way of a fuse block or switch bank, counted from 1.
    Way(Id, usize),
    /// An operating state (index into the assessment's states).
    State(usize),
    /// The wiring as a whole.
    System,
    /// The trailer as a whole, on the road.
    Trailer,
    /// A rating of trailer or tow vehicle, by its path in the file.
    Rating(String),
    /// A door, window or vent.
    Opening(Id),
    /// A weight that was taken.
    Weighing(Id),
    /// A layer of the lining.
    Layer(Id),
}

impl Subject {
    /// A short stable text for keys and links.
    pub fn key(&self) -> String {
        match self {
            Subject::Wire(id) => format!("wire.{}", id.as_str()),
            Subject::Item(id) => format!("item.{}", id.as_str()),
            Subject::Terminal(id, terminal) => format!("item.{}.{terminal}", id.as_str()),
            Subject::Way(id, way) => format!("item.{}.way-{way}", id.as_str()),
            Subject::State(index) => format!("state.{index}"),
            Subject::System => "system".to_string(),
            Subject::Trailer => "trailer".to_string(),
            Subject::Rating(path) => path.clone(),
            Subject::Opening(id) => format!("opening.{id}"),
            Subject::Weighing(id) => format!("weighing.{id}"),
            Subject::Layer(id) => format!("layer.{id}"),
        }
    }

    /// The subject of a protective device: its gear, or one way of it.
    pub fn device(item: &Id, way: usize) -> Self {
        if way == 0 {
            Subject::Item(item.clone())
        } else {
            Subject::Way(item.clone(), way)
        }
    }
}

/// A computed value or the limit it is held against.
#[derive(Debug, Clone, PartialEq)]
pub struct Amount {
    /// Symbol, for example `I` or `θ`.
    pub symbol: &'static str,
    /// Value in the base unit of its quantity.
    pub value: f64,
    /// As shown to people, with unit.
    pub text: String,
    /// Published source, for a limit that has one.
    pub source: Option<&'static Source>,
    /// Where the value came from.
    pub basis: Basis,
}

impl Amount {
    /// A computed value.
    pub fn computed(symbol: &'static str, value: f64, text: String) -> Self {
        Self {
            symbol,
            value,
            text,
            source: None,
            basis: Basis::Computed,
        }
    }

    /// A value with its basis; a published table also becomes the source.
    pub fn based(symbol: &'static str, value: f64, text: String, basis: &Basis) -> Self {
        let source = match basis {
            Basis::Table(source) => Some(*source),
            _ => None,
        };
        Self {
            symbol,
            value,
            text,
            source,
            basis: basis.clone(),
        }
    }
}

/// Whether a basis rests on a row that was written from memory, or on a
/// stand-in that no document backs.
pub fn rests_on_memory(basis: &Basis) -> bool {
    match basis {
        Basis::Table(source) => source.mark == Mark::Memory,
        Basis::Assumed(_) => true,
        Basis::Typed(_) | Basis::Part { .. } | Basis::Computed => false,
    }
}

/// One thing that is wrong.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Id of the rule.
    pub rule: &'static str,
    /// How bad.
    pub severity: Severity,
    /// What it is about. The first one names the finding for good: it stays
    /// the same while the finding is only partly mended.
    pub subjects: Vec<Subject>,
    /// Complete on its own: what, where, how bad, against which limit.
    pub headline: String,
    /// Further sentences.
    pub detail: Vec<String>,
    /// The computed value.
    pub value: Option<Amount>,
    /// The limit it is held against.
    pub limit: Option<Amount>,
    /// (limit − value) / limit, signed so that negative means over the limit.
    pub margin: Option<Ratio>,
    /// Paths in the project file of values nobody gave and that were used here.
    pub assumptions: Vec<Vec<String>>,
    /// The limit rests on a row written from memory or on a stand-in.
    pub from_memory: bool,
    /// The number to show the working of.
    pub ask: Option<Ask>,
}

impl Finding {
    /// A finding with nothing but its name, place and headline.
    pub fn new(
        rule: &'static str,
        severity: Severity,
        subject: Subject,
        headline: impl Into<String>,
    ) -> Self {
        Self {
            rule,
            severity,
            subjects: vec![subject],
            headline: headline.into(),
            detail: Vec::new(),
            value: None,
            limit: None,
            margin: None,
            assumptions: Vec::new(),
            from_memory: false,
            ask: None,
        }
    }

    /// A key that stays the same while the finding stands: the rule and its
    /// first subject. Further subjects may come and go with partial mends.
    pub fn key(&self) -> String {
        match self.subjects.first() {
            Some(subject) => format!("{}:{}", self.rule, subject.key()),
            None => self.rule.to_string(),
        }
    }

    /// Adds a further subject, once.
    #[must_use]
    pub fn also(mut self, subject: Subject) -> Self {
        if !self.subjects.contains(&subject) {
            self.subjects.push(subject);
        }
        self
    }

    /// Adds a sentence.
    #[must_use]
    pub fn note(mut self, sentence: impl Into<String>) -> Self {
        self.detail.push(sentence.into());
        self
    }

    /// Sets value and limit; more of the value is worse.
    #[must_use]
    pub fn over(self, value: Amount, limit: Amount) -> Self {
        let margin = share(limit.value - value.value, limit.value);
        self.measured(value, limit, margin)
    }

    /// Sets value and limit; less of the value is worse.
    #[must_use]
    pub fn under(self, value: Amount, limit: Amount) -> Self {
        let margin = share(value.value - limit.value, limit.value);
        self.measured(value, limit, margin)
    }

    fn measured(mut self, value: Amount, limit: Amount, margin: Option<Ratio>) -> Self {
        self.from_memory |= rests_on_memory(&limit.basis);
        self.value = Some(value);
        self.limit = Some(limit);
        self.margin = margin;
        self
    }

    /// Says that the judgement rests on a row written from memory.
    #[must_use]
    pub fn memory(mut self, from_memory: bool) -> Self {
        self.from_memory |= from_memory;
        self
    }

    /// The number whose working explains the finding.
    #[must_use]
    pub fn asking(mut self, ask: Ask) -> Self {
        self.ask = Some(ask);
        self
    }

    /// Lists the stand-in values used for one element of the project, such
    /// as `["wire", "fridge-pos"]`.
    #[must_use]
    pub fn assuming(mut self, assessment: &Assessment, element: &[&str]) -> Self {
        let under = |path: &&Vec<String>| {
            path.len() >= element.len() && path.iter().zip(element).all(|(a, b)| a == b)
        };
        for assumed in &assessment.assumptions {
            let paths = std::iter::once(&assumed.path).chain(&assumed.also);
            for path in paths.filter(under) {
                if !self.assumptions.contains(path) {
                    self.assumptions.push(path.clone());
                }
            }
        }
        self
    }
}

/// `part / whole`, where that means something.
fn share(part: f64, whole: f64) -> Option<Ratio> {
    (whole.abs() > 1e-12 && part.is_finite()).then(|| Ratio::from_fraction(part / whole))
}
