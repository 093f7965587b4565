//! What the fault study reports, as plain data. Indexes refer to the caller's lists.

use crate::protection::Band;
use wainwright_units::{Current, Duration, Temperature, Voltage};

/// Results of all cases, in the caller's order.
#[derive(Debug, Clone, PartialEq)]
pub struct Study {
    /// One for each case.
    pub cases: Vec<CaseOutcome>,
}

/// One case with strong and with weak sources.
#[derive(Debug, Clone, PartialEq)]
pub struct CaseOutcome {
    /// The caller's number for the place.
    pub place: usize,
    /// With the network of largest currents: interrupt ratings, heat.
    pub largest: Outcome,
    /// With the network of smallest currents: does the device open at all?
    pub smallest: Outcome,
}

/// What one fault does in one network.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// Through the short in the first instant [A].
    pub current: Current,
    /// Between the two nodes without the short [V].
    pub open_circuit: Voltage,
    /// The ways from the sources to the fault.
    pub paths: Vec<SourcePath>,
    /// Devices that open when each takes its latest time, in that order.
    pub openings: Vec<Opening>,
    /// Devices that are not in `openings` and may nevertheless open while the fault lasts, ascending.
    pub may_open_too: Vec<usize>,
    /// Whether and when the fault ends.
    pub clearing: Clearing,
    /// Whether a device that opened closes again by itself, so that the fault comes back.
    pub comes_back: bool,
    /// Every listed conductor that carries fault current, by index.
    pub stresses: Vec<Stress>,
}

/// One way from sources to the fault and back.
#[derive(Debug, Clone, PartialEq)]
pub struct SourcePath {
    /// Branches of the sources that feed through the same devices, ascending.
    pub sources: Vec<usize>,
    /// Devices on the way, nearest to the fault first; empty when nothing protects it. The first is
    /// the one that should open.
    pub devices: Vec<Duty>,
    /// Whether the first provably opens before all others on this way.
    pub selectivity: Selectivity,
}

/// What one device sees in the first instant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Duty {
    /// Index of the device.
    pub device: usize,
    /// Through it [A], without sign.
    pub current: Current,
    /// When it opens if that current stays.
    pub band: Band,
    /// Whether the current is above its interrupt rating; `None` when the rating is not known.
    pub above_interrupt: Option<bool>,
}

/// Order of opening on one way, by the bands at the currents of the first instant. Where several
/// sources feed a fault it holds for certain when it is proven on all of its ways: otherwise a device
/// on another way may open first and change the currents.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Selectivity {
    /// No device on the way.
    Unprotected,
    /// One device, so no question.
    Single,
    /// The device nearest to the fault opens before any other by the published bands.
    Proven,
    /// The bands do not prove it.
    NotProven {
        /// The nearest device, by index, that may open first.
        upstream: usize,
    },
}

/// One opening of the slow course of events.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Opening {
    /// Index of the device.
    pub device: usize,
    /// Through it just before [A], without sign.
    pub current: Current,
    /// When it opens if all devices take their earliest times [s]; `None` when the fault is over by then.
    pub earliest: Option<Duration>,
    /// When it opens if all devices take their latest times [s].
    pub latest: Duration,
    /// Whether the current just before is above its interrupt rating; `None` when not known.
    pub above_interrupt: Option<bool>,
}

/// End of a fault.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Clearing {
    /// Nothing feeds it: less than 1 mA.
    NoCurrent,
    /// It ends for certain.
    Cleared {
        /// Not before this [s].
        earliest: Duration,
        /// By this [s].
        latest: Duration,
    },
    /// It may end, but nothing promises that.
    Uncertain {
        /// Not before this [s].
        earliest: Duration,
        /// What may flow for ever [A].
        remaining: Current,
    },
    /// It does not end.
    Never {
        /// What flows for ever [A].
        remaining: Current,
    },
}

/// How a conductor was judged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// Up to 5 s of current: energy against k²S².
    Adiabatic,
    /// Longer: highest temperature with heat loss against the short-circuit limit.
    WithLoss,
    /// Never cleared: settled temperature against the continuous limit.
    Settled,
}

/// What one conductor goes through, in the worst course of events.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stress {
    /// Index of the conductor.
    pub conductor: usize,
    /// Highest current in it [A], without sign.
    pub current: Current,
    /// ∫I²dt [A²·s]; infinite when never cleared.
    pub let_through: f64,
    /// k²S² [A²·s].
    pub withstand: f64,
    /// Time during which it carries fault current; `None`: for ever.
    pub lasts: Option<Duration>,
    /// Highest temperature of the conductor [°C]; 1083 °C or more when it melts.
    pub hottest: Temperature,
    /// Which rule was applied.
    pub basis: Basis,
    /// Whether it reaches the melting point of copper.
    pub melts: bool,
    /// Whether it keeps within the limit of that rule.
    pub survives: bool,
}
