//! Results of the short-circuit study.

use wainwright_model::Id;
use wainwright_units::{Current, Duration, Temperature};

/// A short circuit at one live node.
#[derive(Debug, Clone)]
pub struct FaultResult {
    /// Node (index) where plus meets minus.
    pub node: usize,
    /// A terminal of that node to name it by.
    pub at: (Id, String),
    /// Conductors that end at this node (indices).
    pub wires: Vec<usize>,
    /// With every source at its strongest, straight to the source's minus.
    pub largest: FaultEnd,
    /// With weak source and hot conductors, back through the return conductor.
    pub smallest: FaultEnd,
}

/// One end of the range of a fault.
#[derive(Debug, Clone)]
pub struct FaultEnd {
    /// Current in the fault at its start.
    pub amps: Current,
    /// Devices that open, in order.
    pub openings: Vec<Opening>,
    /// When the fault is dead for certain; `None`: it may never be.
    pub cleared: Option<(Duration, Duration)>,
    /// Conductors that suffer most, worst first.
    pub stresses: Vec<Stress>,
    /// The device nearest the fault, which should have opened first.
    pub should_open: Option<usize>,
    /// Whether it certainly opens before every device behind it.
    pub selective: Option<bool>,
    /// The device that may open before it, when not selective.
    pub rival: Option<usize>,
    /// The fault comes back because a device closes again by itself.
    pub comes_back: bool,
    /// Current that may flow for ever, when nothing opens for certain.
    pub remaining: Option<Current>,
}

/// One device opening.
#[derive(Debug, Clone, PartialEq)]
pub struct Opening {
    /// Index into the assessment's devices.
    pub device: usize,
    /// Current through it at the start.
    pub amps: Current,
    /// Not before.
    pub earliest: Duration,
    /// Not after; `None` when not guaranteed.
    pub latest: Option<Duration>,
    /// The current is above what it can interrupt.
    pub beyond_interrupt: bool,
}

/// What a fault does to one conductor.
#[derive(Debug, Clone, PartialEq)]
pub struct Stress {
    /// Index into the assessment's wires.
    pub wire: usize,
    /// Current in it.
    pub amps: Current,
    /// Hottest the metal gets.
    pub hottest: Temperature,
    /// Whether its insulation survives.
    pub survives: bool,
    /// How long it bears that current by k²S²/I², heat loss left out; `None`
    /// where that is longer than the 5 s the equation holds for.
    pub stands: Option<Duration>,
}
