//! The equations of a step in bare numbers: [V], [Ω], [A], [h], [Ah], [Wh]. Shared by single steps
//! and by trips; where open voltage and resistance come from is in `pack`, `cells` and `grid`.

use super::pack::Pack;
use super::step::WhenFull;

/// A pack at one instant.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Instant {
    pub open: f64,
    pub ohms: f64,
}

/// What a step needs of a pack and what never changes.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Store {
    pub ampere_hours: f64,
    pub coulombic: f64,
    /// Charge per ampere-hour [1/Ah], and ampere-hours to put in for one that is kept.
    pub per_ampere_hour: f64,
    pub per_kept: f64,
    /// Charge that an ampere brings in an hour [1/Ah].
    pub gain: f64,
}

/// What flowed; positive into the battery.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Flow {
    pub amperes: f64,
    pub terminal: f64,
    pub charge: f64,
    pub bus: f64,
    pub stored: f64,
    pub heat: f64,
    pub lost: f64,
    pub flowed: f64,
}

impl Store {
    pub(crate) fn of(pack: &Pack<'_>) -> Store {
        Store {
            ampere_hours: pack.capacity.ampere_hours(),
            coulombic: pack.coulombic.fraction(),
            per_ampere_hour: 1.0 / pack.capacity.ampere_hours(),
            per_kept: 1.0 / pack.coulombic.fraction(),
            gain: pack.coulombic.fraction() / pack.capacity.ampere_hours(),
        }
    }

    /// Charge that still goes in [Ah].
    #[inline]
    pub(crate) fn room(self, charge: f64) -> f64 {
        above_zero(1.0 - charge) * self.ampere_hours
    }
}

/// Current at which the battery gives a power; no number that is finite when it cannot.
#[inline(always)]
pub(crate) fn current_out(now: Instant, watts: f64) -> f64 {
    let root = now.open * now.open - 4.0 * now.ohms * watts;
    if root < 0.0 {
        return f64::INFINITY;
    }
    // The same as (u − √root) / 2R, without taking two near numbers from each other.
    2.0 * watts / (now.open + root.sqrt())
}

/// Current that a power pushes in; zero for a power below zero.
#[inline(always)]
pub(crate) fn current_in(now: Instant, watts: f64) -> f64 {
    let watts = above_zero(watts);
    let root = now.open * now.open + 4.0 * now.ohms * watts;
    2.0 * watts / (now.open + root.sqrt())
}

/// Current that brings the terminals to a set point; zero above it.
#[inline(always)]
pub(crate) fn held_current(now: Instant, set_point: f64) -> f64 {
    let headroom = set_point - now.open;
    if headroom <= 0.0 {
        0.0
    } else if now.ohms > 0.0 {
        headroom / now.ohms
    } else {
        f64::INFINITY
    }
}

/// Current that a nearly full lead-acid battery takes, with its time constant [h]; zero for none.
#[inline(always)]
pub(crate) fn accepted(store: Store, charge: f64, constant: f64) -> f64 {
    if constant > 0.0 {
        store.room(charge) / constant
    } else {
        f64::INFINITY
    }
}

/// Current that fills the battery in so many hours, when it refuses more.
#[inline(always)]
pub(crate) fn refused(store: Store, charge: f64, hours: f64, when_full: WhenFull) -> f64 {
    if when_full == WhenFull::Refuse && hours > 0.0 {
        store.room(charge) * store.per_kept / hours
    } else {
        f64::INFINITY
    }
}

/// Charges with a current for a time.
#[inline(always)]
pub(crate) fn put(now: Instant, store: Store, charge: f64, amperes: f64, hours: f64) -> Flow {
    let put_in = amperes * hours;
    let kept = lesser(put_in * store.coulombic, store.room(charge));
    let terminal = now.open + amperes * now.ohms;
    Flow {
        amperes,
        terminal,
        charge: charge + kept * store.per_ampere_hour,
        bus: put_in * terminal,
        stored: kept * now.open,
        heat: put_in * amperes * now.ohms,
        lost: (put_in - kept) * now.open,
        flowed: 1.0,
    }
}

/// Discharges with a current for a time, or until the lowest charge; a current that is no finite
/// number or above the largest cuts the battery off.
#[inline(always)]
pub(crate) fn take(
    now: Instant,
    store: Store,
    charge: f64,
    lowest: f64,
    (asked, most): (f64, f64),
    hours: f64,
) -> Flow {
    let broke = !(asked.is_finite() && asked <= most);
    let amperes = if broke { 0.0 } else { asked };
    let left = above_zero(charge - lowest) * store.ampere_hours;
    let wanted = amperes * hours;
    let taken = lesser(wanted, left);
    let flowed = match (broke, wanted > left) {
        (true, _) => 0.0,
        (false, true) => left / wanted,
        (false, false) => 1.0,
    };
    let terminal = now.open - amperes * now.ohms;
    Flow {
        amperes: -amperes,
        terminal,
        charge: charge - taken * store.per_ampere_hour,
        bus: -taken * terminal,
        stored: -taken * now.open,
        heat: taken * amperes * now.ohms,
        lost: 0.0,
        flowed,
    }
}

/// The value, or zero when it is below.
#[inline(always)]
pub(crate) fn above_zero(value: f64) -> f64 {
    if value > 0.0 { value } else { 0.0 }
}

/// The lower of two numbers.
#[inline(always)]
pub(crate) fn lesser(one: f64, two: f64) -> f64 {
    if one < two { one } else { two }
}
