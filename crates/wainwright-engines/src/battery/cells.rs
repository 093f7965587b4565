//! Where a trip gets open voltage and resistance from: the pack's own tables, as they are.
//! A faster form of the same curves is in `grid`.

use super::flow::lesser;
use super::pack::{Direction, Pack};
use wainwright_units::{Ratio, Temperature};

/// Halvings that bring a share of charge or of a current to the last bit.
const HALVINGS: u32 = 64;

/// Rise per cell below which nothing near a threshold needs a closer look [V].
const QUIET_VOLTS: f64 = 0.1;

/// Open voltages of the fullest cell and of the others [V].
#[derive(Debug, Clone, Copy)]
pub(crate) struct Ends {
    pub highest: f64,
    pub lowest: f64,
}

/// Charges between which no threshold is near, and the rise over the pack's resistance [V] up to
/// which that holds.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Quiet {
    pub from: f64,
    pub to: f64,
    pub rise: f64,
}

/// How a charge goes on through an hour.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Hold {
    /// Charge per ampere.
    pub gain: f64,
    /// Resistance [Ω].
    pub ohms: f64,
    /// Charge above which the voltage rises no more: full for a battery that gases, none for others,
    /// whose curve goes on as steeply as it ends.
    pub top: f64,
}

/// Voltages that must not be reached [V].
#[derive(Debug, Clone, Copy)]
pub(crate) struct Bounds {
    /// Lowest set point of a charger, of the pack.
    pub set_point: f64,
    /// Over-voltage of a cell.
    pub over: f64,
    /// Under-voltage of a cell.
    pub under: f64,
}

/// A battery that a trip can ask.
pub(crate) trait Cells {
    /// A state of charge, looked up.
    type Spot<'s>: Copy
    where
        Self: 's;
    /// A temperature, looked up.
    type Warmth: Copy;

    /// Cells in series.
    fn series(&self) -> f64;
    /// Resistance of terminals, links and board [Ω].
    fn connections(&self) -> f64;
    /// Looks up a state of charge, beginning where the last one was found.
    fn spot(&self, charge: f64, near: &mut usize) -> Self::Spot<'_>;
    /// Looks up a cell temperature [°C].
    fn warmth(&self, celsius: f64) -> Self::Warmth;
    /// Open voltage of the pack [V].
    fn open(&self, spot: Self::Spot<'_>, direction: Direction) -> f64;
    /// Resistance of the pack [Ω].
    fn ohms(&self, spot: Self::Spot<'_>, warmth: Self::Warmth, direction: Direction) -> f64;
    /// Open voltages of the fullest and of the other cells.
    fn ends(&self, charge: f64, direction: Direction) -> Ends;
    /// The highest charge from one to another, up to which the fullest cell stays below a voltage
    /// while charging; the first of them when nowhere.
    fn rises(&self, from: f64, to: f64, limit: f64) -> f64 {
        halved(0.0, to - from, |up| {
            self.ends(from + up, Direction::Charging).highest < limit
        }) + from
    }
    /// The lowest charge from one down to another, down to which the other cells stay above a
    /// voltage while discharging; the first of them when nowhere.
    fn falls(&self, from: f64, to: f64, limit: f64) -> f64 {
        from - halved(0.0, from - to, |down| {
            self.ends(from - down, Direction::Discharging).lowest > limit
        })
    }
    /// Where nothing near a threshold needs a closer look.
    fn quiet(&self) -> Quiet;
    /// Largest current up to `most` at which the terminals end the hour at the set point or below.
    fn held(&self, charge: f64, hold: Hold, set_point: f64, most: f64) -> f64;
}

/// The pack itself, the fullest cell ahead of the others by a share of the charge.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Plain<'a> {
    pub pack: Pack<'a>,
    pub ahead: f64,
}

impl Plain<'_> {
    fn cell(&self, charge: f64, direction: Direction) -> f64 {
        self.pack.cell_voltage(charge, direction)
    }
}

impl Cells for Plain<'_> {
    type Spot<'s>
        = f64
    where
        Self: 's;
    type Warmth = Temperature;

    fn series(&self) -> f64 {
        f64::from(self.pack.series)
    }

    fn connections(&self) -> f64 {
        self.pack.connections.ohms()
    }

    fn spot(&self, charge: f64, _: &mut usize) -> f64 {
        charge
    }

    fn warmth(&self, celsius: f64) -> Temperature {
        Temperature::from_celsius(celsius)
    }

    fn open(&self, spot: f64, direction: Direction) -> f64 {
        let ends = self.ends(spot, direction);
        (self.series() - 1.0) * ends.lowest + ends.highest
    }

    fn ohms(&self, spot: f64, warmth: Temperature, direction: Direction) -> f64 {
        let charge = Ratio::from_fraction(spot);
        self.pack.resistance(charge, warmth, direction).ohms()
    }

    fn ends(&self, charge: f64, direction: Direction) -> Ends {
        Ends {
            highest: self.cell(charge + self.ahead, direction),
            lowest: self.cell(charge, direction),
        }
    }

    /// Nowhere: this form always looks.
    fn quiet(&self) -> Quiet {
        Quiet {
            from: f64::INFINITY,
            to: f64::NEG_INFINITY,
            rise: 0.0,
        }
    }

    fn held(&self, charge: f64, hold: Hold, set_point: f64, most: f64) -> f64 {
        let terminal = |amperes: f64| {
            let after = lesser(charge + hold.gain * amperes, hold.top);
            self.open(after, Direction::Charging) + amperes * hold.ohms
        };
        halved(0.0, most, |amperes| terminal(amperes) <= set_point)
    }
}

/// Where nothing is near a bound, looked for at these states of charge, between which all voltages
/// are straight.
pub(crate) fn quiet_between(cells: &impl Cells, points: &[f64], bounds: Bounds) -> Quiet {
    let rise = QUIET_VOLTS * cells.series();
    let calm_in = |charge: f64| {
        let open = cells.open(cells.spot(charge, &mut 0), Direction::Charging);
        let highest = cells.ends(charge, Direction::Charging).highest;
        open < bounds.set_point - rise && highest < bounds.over - QUIET_VOLTS
    };
    let calm_out = |charge: f64| {
        cells.ends(charge, Direction::Discharging).lowest > bounds.under + QUIET_VOLTS
    };
    let up = points.iter().take_while(|charge| calm_in(**charge));
    let down = points.iter().rev().take_while(|charge| calm_out(**charge));
    Quiet {
        from: down.last().copied().unwrap_or(f64::INFINITY),
        to: up.last().copied().unwrap_or(f64::NEG_INFINITY),
        rise,
    }
}

/// The highest value from `low` to `high` at which a condition holds that holds at first and then
/// no more; `low` when it holds nowhere.
pub(crate) fn halved(low: f64, high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    if holds(high) {
        return high;
    }
    let (mut low, mut high) = (low, high);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if holds(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}
