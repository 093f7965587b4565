//! What a protection board does with its two switches.

use wainwright_units::{Current, Duration, Temperature, Voltage};

/// When the board opens a switch and closes it again.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thresholds {
    /// Highest cell: charging stops [V].
    pub over: Voltage,
    /// Highest cell: charging may go on [V].
    pub over_release: Voltage,
    /// Lowest cell: loads are cut off [V].
    pub under: Voltage,
    /// Lowest cell: loads may go on [V].
    pub under_release: Voltage,
    /// Both switches open above this [°C].
    pub hot: Temperature,
    /// They close again below this [°C].
    pub hot_release: Temperature,
    /// No charging below this [°C].
    pub cold: Temperature,
    /// Charging again above this [°C].
    pub cold_release: Temperature,
    /// How long a voltage must last before the board acts [s].
    pub delay: Duration,
}

/// What the board measures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Readings {
    /// Voltage of the highest cell [V].
    pub highest: Voltage,
    /// Voltage of the lowest cell [V].
    pub lowest: Voltage,
    /// Temperature of the cells [°C].
    pub temperature: Temperature,
    /// Current asked for, positive into the battery [A].
    pub current: Current,
    /// Time since the last reading [s].
    pub since: Duration,
}

/// State of the board.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Protection {
    over: bool,
    under: bool,
    hot: bool,
    cold: bool,
    over_for: Duration,
    under_for: Duration,
}

impl Protection {
    /// Both switches closed.
    pub const CLOSED: Protection = Protection {
        over: false,
        under: false,
        hot: false,
        cold: false,
        over_for: Duration::ZERO,
        under_for: Duration::ZERO,
    };

    /// Whether charge can go in.
    #[must_use]
    pub const fn can_charge(self) -> bool {
        !(self.over || self.hot || self.cold)
    }

    /// Whether loads are fed. When not, the terminals are dead: a solar controller that must see the
    /// battery's voltage to start cannot wake it up.
    #[must_use]
    pub const fn can_discharge(self) -> bool {
        !(self.under || self.hot)
    }

    /// Whether charging is off because a cell is too high.
    #[must_use]
    pub const fn over_voltage(self) -> bool {
        self.over
    }

    /// Whether the temperature forbids charging.
    #[must_use]
    pub const fn wrong_temperature(self) -> bool {
        self.hot || self.cold
    }

    /// The state after a reading.
    ///
    /// Over-voltage ends when the highest cell has fallen or current flows out; under-voltage ends
    /// when the lowest cell has recovered or a charger pushes current in.
    #[must_use]
    pub fn after(self, reading: Readings, limits: &Thresholds) -> Protection {
        let lasting = |for_now: Duration, beyond: bool| {
            if beyond {
                for_now + reading.since
            } else {
                Duration::ZERO
            }
        };
        let over_for = lasting(self.over_for, reading.highest >= limits.over);
        let under_for = lasting(self.under_for, reading.lowest <= limits.under);
        let trips = |time: Duration| time > Duration::ZERO && time >= limits.delay;
        let over_ends = reading.highest < limits.over_release || reading.current < Current::ZERO;
        let under_ends = reading.lowest > limits.under_release || reading.current > Current::ZERO;
        Protection {
            over: trips(over_for) || self.over && !over_ends,
            under: (self.under || trips(under_for)) && !under_ends,
            over_for,
            under_for,
            ..self
        }
        .warmed(reading.temperature, limits)
    }

    /// The state after a reading at which no voltage is near a threshold, when no voltage had
    /// opened a switch before.
    #[inline]
    pub(crate) fn after_calm(self, temperature: Temperature, limits: &Thresholds) -> Protection {
        Protection {
            over_for: Duration::ZERO,
            under_for: Duration::ZERO,
            ..self
        }
        .warmed(temperature, limits)
    }

    /// Whether a voltage has opened a switch.
    pub(crate) const fn open_for_voltage(self) -> bool {
        self.over || self.under
    }

    /// What the temperature does to the switches.
    #[inline]
    fn warmed(self, temperature: Temperature, limits: &Thresholds) -> Protection {
        Protection {
            hot: temperature >= limits.hot || self.hot && temperature > limits.hot_release,
            cold: temperature <= limits.cold || self.cold && temperature < limits.cold_release,
            ..self
        }
    }
}
