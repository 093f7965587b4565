//! Gates of a protective device and the band between them.
//! Which gates a kind of fuse has is published data and is given by the caller.

use std::fmt;
use wainwright_units::{Duration, Ratio};

/// One published line: at this multiple of the rating, not before `earliest` and by `latest`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gate {
    /// Current over rating.
    pub multiple: Ratio,
    /// Time that the device carries this at least [s]; `None` when nothing is published.
    pub earliest: Option<Duration>,
    /// Time by which it has opened [s]; `None` when it need not open.
    pub latest: Option<Duration>,
}

/// All gates of a device, by rising multiple.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OpeningCurve {
    /// The gates; their multiples rise and their times fall.
    pub gates: Vec<Gate>,
}

/// What is promised at one current.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Band {
    /// Does not open before this [s]; `None`: does not open.
    pub earliest: Option<Duration>,
    /// Has opened by this [s]; `None`: may never open.
    pub latest: Option<Duration>,
}

/// What is wrong with a curve.
#[derive(Debug, Clone, PartialEq)]
pub struct CurveError {
    /// Place in the list of gates, from zero.
    pub gate: usize,
    /// What was found.
    pub found: String,
    /// What was expected.
    pub expected: &'static str,
}

impl fmt::Display for CurveError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            out,
            "opening curve, gate {}: found {}, expected {}; correct the gate from the data sheet",
            self.gate + 1,
            self.found,
            self.expected
        )
    }
}

impl std::error::Error for CurveError {}

/// One end of a straight piece: multiple, seconds.
type Point = (f64, f64);

impl OpeningCurve {
    /// Band at a multiple of the rating (current over rating, sign ignored).
    pub fn band(&self, multiple: f64) -> Band {
        let multiple = multiple.abs();
        let below = |gate: &&Gate| gate.multiple.fraction() <= multiple;
        if multiple.is_nan() || !self.gates.first().is_some_and(|gate| below(&gate)) {
            return Band::default();
        }
        let seconds = |time: f64| time.is_finite().then(|| Duration::from_seconds(time));
        Band {
            earliest: self.earliest(multiple).and_then(seconds),
            latest: self.latest(multiple).and_then(seconds),
        }
    }

    /// Lowest multiple at which opening is promised; `None` when it is promised nowhere.
    pub fn opens_from(&self) -> Option<f64> {
        self.gates
            .iter()
            .find(|gate| gate.latest.is_some())
            .map(|gate| gate.multiple.fraction())
    }

    /// Highest multiple published below [`Self::opens_from`]: the current that the device may carry
    /// for ever by design.
    pub fn carries(&self) -> Option<f64> {
        let silent = self.gates.iter().take_while(|gate| gate.latest.is_none());
        silent.last().map(|gate| gate.multiple.fraction())
    }

    /// Refuses gates that do not rise, times that do not fall, and latest before earliest.
    ///
    /// # Errors
    /// The first gate that is wrong, with what was expected there.
    pub fn check(&self) -> Result<(), CurveError> {
        let mut last: Option<&Gate> = None;
        let (mut low, mut high) = (f64::INFINITY, f64::INFINITY);
        for (index, gate) in self.gates.iter().enumerate() {
            let wrong = |found: f64, expected| {
                Err(CurveError {
                    gate: index,
                    found: found.to_string(),
                    expected,
                })
            };
            let multiple = gate.multiple.fraction();
            let above = last.map_or(0.0, |last| last.multiple.fraction());
            if !(multiple.is_finite() && multiple > above) {
                return wrong(multiple, "a multiple above the one before");
            }
            if let Some(earliest) = gate.earliest.map(Duration::seconds) {
                if !(earliest >= 0.0 && earliest <= low) {
                    return wrong(earliest, "an earliest time not above the one before");
                }
                low = earliest;
            }
            match gate.latest.map(Duration::seconds) {
                Some(latest) if !(latest > 0.0 && latest <= high) => {
                    return wrong(
                        latest,
                        "a latest time above zero and not above the one before",
                    );
                }
                Some(latest) if gate.earliest.is_some_and(|e| e.seconds() > latest) => {
                    return wrong(latest, "a latest time not before the earliest");
                }
                Some(latest) => high = latest,
                None => {}
            }
            last = Some(gate);
        }
        Ok(())
    }

    /// `None`: opens at no time. Above the last gate the energy I²t of that gate is kept.
    fn earliest(&self, multiple: f64) -> Option<f64> {
        let (left, right) = self.around(multiple, |gate| match (gate.earliest, gate.latest) {
            (Some(earliest), _) => Some(earliest.seconds()),
            (None, Some(_)) => Some(0.0),
            (None, None) => None,
        });
        match (left, right) {
            // Only gates that promise nothing lie below; the next gate's time is a lower bound.
            (None, right) => right.map(|point| point.1),
            (Some(left), None) => Some(left.1 * (left.0 / multiple).powi(2)),
            (Some(left), Some(right)) => Some(between(left, right, multiple)),
        }
    }

    /// `None`: may never open. Above the last gate its time is kept.
    fn latest(&self, multiple: f64) -> Option<f64> {
        let (left, right) = self.around(multiple, |gate| gate.latest.map(Duration::seconds));
        match (left, right) {
            (None, _) => None,
            (Some(left), None) => Some(left.1),
            (Some(left), Some(right)) => Some(between(left, right, multiple)),
        }
    }

    /// The two neighbours, among gates that state a time, of a multiple.
    fn around(
        &self,
        multiple: f64,
        time: impl Fn(&Gate) -> Option<f64>,
    ) -> (Option<Point>, Option<Point>) {
        let mut left = None;
        for gate in &self.gates {
            let Some(seconds) = time(gate) else { continue };
            let point = (gate.multiple.fraction(), seconds);
            if gate.multiple.fraction() > multiple {
                return (left, Some(point));
            }
            left = Some(point);
        }
        (left, None)
    }
}

/// Time on the straight line between two points in logarithms; zero if it is zero at either end.
/// Written as a power of the multiple over the left one, so that it is exact at the left gate.
fn between(left: Point, right: Point, multiple: f64) -> f64 {
    if left.1 <= 0.0 || right.1 <= 0.0 {
        return 0.0;
    }
    let steepness = (right.1 / left.1).ln() / (right.0 / left.0).ln();
    left.1 * (multiple / left.0).powf(steepness)
}
