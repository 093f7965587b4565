//! Results for fuses and breakers.

use crate::known::Known;
use wainwright_model::Id;
use wainwright_units::{Current, Ratio, Resistance, Temperature, Voltage};

/// How a device behaves after it has opened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reclose {
    /// A fuse: stays open until replaced.
    Fuse,
    /// A breaker that a person must reset.
    Manual,
    /// A breaker that closes again by itself.
    Automatic,
    /// A breaker held open while power is on.
    Held,
}

/// One fuse or breaker.
#[derive(Debug, Clone)]
pub struct DeviceResult {
    /// Item id.
    pub item: Id,
    /// Way of a fuse block or switch bank (from 1), 0 for a single device.
    pub way: usize,
    /// What people call it.
    pub label: String,
    /// Family id, as in the reference tables.
    pub family: String,
    /// Rated current.
    pub rating: Known<Current>,
    /// Most voltage it can open.
    pub volts_rating: Option<Known<Voltage>>,
    /// Most current it can open at system voltage.
    pub interrupt: Option<Known<Current>>,
    /// After opening.
    pub reclose: Reclose,
    /// Its resistance.
    pub resistance: Known<Resistance>,
    /// Air round it, when it is in a cabinet whose air is known.
    pub air: Option<Known<Temperature>>,
    /// Share of its rating that is left in that air: one where nothing says that it is hot there.
    pub warm_share: Ratio,
    /// Node on its supply side and on its other side.
    pub nodes: (usize, usize),
    /// Per state.
    pub states: Vec<DeviceInState>,
    /// The continuous current expected through it, and in which state.
    pub continuous_amps: Option<(Current, usize)>,
    /// Largest prospective fault current through it.
    pub largest_fault: Option<Current>,
    /// Conductors it is the smallest guard of (indices).
    pub guards: Vec<usize>,
    /// Path in the project file of its rating.
    pub rating_path: Vec<String>,
}

/// One device in one state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeviceInState {
    /// Current through it \[A\], without sign.
    pub amps: Current,
    /// That current as a share of its rating.
    pub share: Ratio,
}
