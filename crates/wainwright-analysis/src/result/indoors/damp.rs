//! Water in the walls and mould on them. Not here: what a side is made of.

use crate::known::Known;
use wainwright_model::{Id, Side};
use wainwright_units::{Length, Ratio, Temperature};

/// A year of damp, lived in on every day of it.
#[derive(Debug, Clone, PartialEq)]
pub struct DampResult {
    /// The climate.
    pub climate: Id,
    /// Air inside; in months that are warmer, that of outside.
    pub inside: Known<Temperature>,
    /// Humidity inside.
    pub humidity: Known<Ratio>,
    /// Mean air outside in each month, January first.
    pub outside: Vec<Temperature>,
    /// Humidity outside in each month, January first.
    pub outside_humidity: Known<Vec<Ratio>>,
    /// The coldest month, 1 is January.
    pub coldest: u32,
    /// Sides with a described build-up, in the order of the box.
    pub sides: Vec<DampSide>,
    /// Water at once from which on it runs off [g/m²].
    pub runs_off: f64,
    /// Water below which a place counts as dry [g/m²].
    pub counts_from: f64,
}

/// A side through a year.
#[derive(Debug, Clone, PartialEq)]
pub struct DampSide {
    /// Which.
    pub side: Side,
    /// Ways through it: between the ribs, then at them.
    pub ways: Vec<DampWay>,
    /// What would keep it dry inside, and free of mould; empty when it is.
    pub helps: Vec<DampHelp>,
}

/// One way through a side.
#[derive(Debug, Clone, PartialEq)]
pub struct DampWay {
    /// Which.
    pub kind: WayKind,
    /// Its share of the side.
    pub share: Ratio,
    /// Months, January first.
    pub months: Vec<DampMonth>,
    /// Most water at once [g/m²].
    pub peak: f64,
    /// Month at whose end that is, 1 is January.
    pub peak_month: Option<u32>,
    /// Where that water is, the wettest place first.
    pub places: Vec<Wet>,
    /// Water that is left when the year is over [g/m²].
    pub left: f64,
    /// Whether what is left is too little to count.
    pub dries: bool,
    /// Whether the peak runs off.
    pub runs_off: bool,
    /// Months in which water forms on the inner surface itself, 1 is January.
    pub surface_wet: Vec<u32>,
    /// The inner surface against mould.
    pub mould: Mould,
}

/// Which way through a side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum WayKind {
    /// Between ribs and battens.
    Between,
    /// At a batten.
    AtBatten,
    /// Around a metal rib.
    AtRib,
}

/// A month of one way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DampMonth {
    /// 1 is January.
    pub month: u32,
    /// Water that forms; below zero when it dries [g/m²].
    pub change: f64,
    /// Water that is there at its end [g/m²].
    pub stored: f64,
}

/// Water at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wet {
    /// Where.
    pub place: WetPlace,
    /// How much [g/m²].
    pub grams: f64,
}

/// Where water is; layers are those of the side, by their place in its list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WetPlace {
    /// On the outer surface.
    Outer,
    /// Inside a layer.
    In(usize),
    /// Between a layer and the next one inwards.
    After(usize),
    /// On the inner surface.
    Inner,
}

/// The inner surface in the coldest month, for days on end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mould {
    /// Temperature of the surface, behind furniture.
    pub temperature: Temperature,
    /// Humidity at it; above one where water forms.
    pub humidity: Ratio,
    /// How much of the difference of the airs lies outside of the surface (f_Rsi).
    pub factor: f64,
    /// What that must be; `None` when it is not colder outside.
    pub factor_needed: Option<f64>,
    /// Humidity of the room up to which this surface stays below the limit.
    pub humidity_allowed: Ratio,
    /// Highest humidity at a surface without mould.
    pub limit: Ratio,
    /// Whether it stays below the limit.
    pub holds: bool,
    /// Temperature of the open surface on the coldest night it is slept in.
    pub cold_night: Temperature,
    /// Whether water forms on it on that night.
    pub wet_on_cold_night: bool,
}

/// A change, and what it cures.
#[derive(Debug, Clone, PartialEq)]
pub struct DampHelp {
    /// What is changed.
    pub change: DampChange,
    /// Keeps water out of the side.
    pub cures_water: bool,
    /// Keeps mould off it.
    pub cures_mould: bool,
}

/// A change that helps against damp.
#[derive(Debug, Clone, PartialEq)]
pub enum DampChange {
    /// A foam layer this thick.
    Thickness {
        /// The layer.
        layer: Id,
        /// How thick at least.
        thickness: Length,
    },
    /// A foam layer over the ribs or battens, on their warm side.
    OverRibs {
        /// The layer whose foam it is reckoned with.
        like: Id,
        /// How thick at least.
        thickness: Length,
    },
    /// A layer that holds vapour back, on the warm side of the foam.
    VapourLayer {
        /// It goes before this layer of the side's list, counted from the outside; as many as there are: inside.
        before: usize,
        /// Still air that it must be worth at least [m].
        metres: f64,
    },
    /// Air inside no more humid than this.
    Humidity {
        /// At most.
        most: Ratio,
    },
}
