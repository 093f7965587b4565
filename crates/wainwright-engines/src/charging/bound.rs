//! Bounds of a setting, which of them bind, and the value between them. Not here: where they come
//! from.

use wainwright_units::{Current, Duration, Ratio, Resistance, Temperature, Voltage};

/// Why a setting may not be lower or higher.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reason {
    /// The chemistry's own lowest value.
    ChemistryLeast,
    /// The chemistry's own highest value.
    ChemistryMost,
    /// Below, the battery does not get full.
    Full,
    /// Below, the board never begins to even the cells out.
    Balance,
    /// Above, the fullest cell makes the board stop charging.
    CellTrip,
    /// Above, the whole pack makes the board stop charging.
    PackTrip,
    /// Above, loads may be damaged.
    LoadsTake,
    /// Below, loads no longer work.
    LoadsNeed,
    /// Float stays below absorption.
    Absorption,
    /// Loads that run all the time would keep the charger from ever seeing so little current.
    StandingLoads,
    /// The current takes that long to fall to the tail.
    Taper,
    /// Below, the emptiest cell makes the board cut off first.
    CellCutOff,
    /// Below, the whole pack makes the board cut off first.
    PackCutOff,
    /// Above, loads are cut off while there is charge left.
    Reserve,
    /// Nearer to the disconnect the battery's recovery switches the loads on again at once.
    Recovery,
    /// Above, loads come back late or never.
    BackBy,
    /// The device gives no more.
    Device,
    /// The cells or the board take no more.
    BatteryTakes,
    /// Its share of what the battery takes when several run together.
    Share,
    /// The board stops by itself at this temperature.
    BoardCold,
    /// Nothing below zero.
    Zero,
}

/// One end of a range and why.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bound<Q> {
    /// The value.
    pub value: Q,
    /// Why.
    pub reason: Reason,
}

/// What would have to be another way when no value is legal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ToChange {
    /// Thicker or shorter wire, with at the most this resistance out and back.
    WireBelow(Resistance),
    /// Cells evened out to within this much charge.
    CellsWithin(Ratio),
    /// A board that stops charging no lower than this cell voltage.
    BoardStopsAbove(Voltage),
    /// A board that cuts loads off no higher than this cell voltage.
    BoardCutsBelow(Voltage),
    /// Loads that take at least this voltage, or a regulator before them.
    LoadsThatTake(Voltage),
    /// Loads that work down to this voltage, or a regulator before them.
    LoadsThatWorkAt(Voltage),
    /// A smaller current through the device.
    CurrentBelow(Current),
    /// Less that runs all the time.
    StandingBelow(Current),
    /// Another chemistry, or another device: nothing here can be moved.
    Device,
}

/// A setting: the range, what binds it, the value to set.
#[derive(Debug, Clone, PartialEq)]
pub struct SetPoint<Q> {
    /// Value to set; `None` when the range is empty.
    pub advised: Option<Q>,
    /// Highest of the lower ends: the one that binds.
    pub low: Bound<Q>,
    /// Lowest of the upper ends: the one that binds.
    pub high: Bound<Q>,
    /// All lower ends.
    pub lows: Vec<Bound<Q>>,
    /// All upper ends.
    pub highs: Vec<Bound<Q>>,
    /// A lower end that is worth reaching but not needed; the advice goes as near as the range
    /// allows.
    pub wish: Option<Bound<Q>>,
    /// What to change when the range is empty.
    pub change: Option<ToChange>,
}

impl<Q: Number> SetPoint<Q> {
    /// The value in the range that is nearest to the usual one; `None` without ends.
    pub(super) fn nearest(usual: Q, lows: Vec<Bound<Q>>, highs: Vec<Bound<Q>>) -> Option<Self> {
        let above = |a: &Bound<Q>, b: &Bound<Q>| a.value.number().total_cmp(&b.value.number());
        let low = lows.iter().copied().max_by(above)?;
        let high = highs.iter().copied().min_by(above)?;
        let legal = low.value.number() <= high.value.number();
        let advised = match usual.number() {
            _ if !legal => None,
            usual if usual < low.value.number() => Some(low.value),
            usual if usual > high.value.number() => Some(high.value),
            _ => Some(usual),
        };
        Some(Self {
            advised,
            low,
            high,
            lows,
            highs,
            wish: None,
            change: None,
        })
    }

    /// The same with a lower end that is worth reaching: the advice goes up to it, or as near as the
    /// range allows.
    pub(super) fn wishing(mut self, wish: Option<Bound<Q>>) -> Self {
        self.wish = wish;
        if let (Some(wish), Some(advised)) = (wish, self.advised)
            && advised.number() < wish.value.number()
        {
            let reached = self.reaches(wish);
            self.advised = Some(if reached { wish.value } else { self.high.value });
        }
        self
    }

    /// The same with what to change, should the range be empty.
    pub(super) fn or_change(mut self, change: impl FnOnce(&Self) -> ToChange) -> Self {
        if self.advised.is_none() {
            self.change = Some(change(&self));
        }
        self
    }

    fn reaches(&self, wish: Bound<Q>) -> bool {
        wish.value.number() <= self.high.value.number()
    }

    /// The wish, if the range reaches it.
    #[must_use]
    pub fn wish_kept(&self) -> Option<Bound<Q>> {
        self.wish.filter(|wish| self.reaches(*wish))
    }

    /// Whether a value lies in the range; a rounding error is forgiven.
    #[must_use]
    pub fn allows(&self, value: Q) -> bool {
        let (low, high) = (self.low.value.number(), self.high.value.number());
        low - SLIP <= value.number() && value.number() <= high + SLIP
    }
}

/// Rounding that is forgiven when a value is compared with its bound.
pub(super) const SLIP: f64 = 1e-9;

pub(super) const fn bound<Q>(value: Q, reason: Reason) -> Bound<Q> {
    Bound { value, reason }
}

/// A quantity as a bare number in its base unit, to compare.
pub trait Number: Copy {
    /// The number.
    fn number(self) -> f64;
}

macro_rules! numbers {
    ($($name:ident: $get:ident;)+) => { $(
        impl Number for $name {
            fn number(self) -> f64 {
                self.$get()
            }
        }
    )+ };
}

numbers! {
    Voltage: volts;
    Current: amperes;
    Duration: seconds;
    Temperature: celsius;
}
