//! Loss of capacity over time and cycles; the constants are measured and come from the caller.

use wainwright_units::{Duration, Ratio, Temperature};

/// Molar gas constant [J/(mol·K)].
const GAS: f64 = 8.314;

/// Reference temperature of the constants [K].
const REFERENCE_KELVINS: f64 = 298.15;

/// Loss by standing: k exp(−E/R (1/T − 1/298.15)) (c (s − 0.5)³ + d) √t.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CalendarAgeing {
    /// Share lost per square root of a second, k.
    pub per_root_second: f64,
    /// Activation energy E [J/mol].
    pub activation: f64,
    /// Weight of the state of charge, c.
    pub by_charge: f64,
    /// Its constant part, d.
    pub constant: f64,
}

/// Loss by use: (a C + b)(c (D − 0.6)³ + d) √n percent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CycleAgeing {
    /// Percent per rate, a.
    pub by_rate: f64,
    /// Percent at no rate, b.
    pub constant: f64,
    /// Weight of the depth, c.
    pub by_depth: f64,
    /// Its constant part, d.
    pub depth_constant: f64,
}

impl CalendarAgeing {
    /// Measured iron-phosphate cell of 3 Ah with graphite (Naumann 2018, read).
    pub const IRON_PHOSPHATE: CalendarAgeing = CalendarAgeing {
        per_root_second: 1.2571e-5,
        activation: 17_126.0,
        by_charge: 2.8575,
        constant: 0.60225,
    };

    /// Share of the capacity lost by standing at a state of charge and a temperature for a time.
    #[must_use]
    pub fn loss(self, charge: Ratio, temperature: Temperature, time: Duration) -> Ratio {
        let inverse = 1.0 / temperature.kelvins_absolute() - 1.0 / REFERENCE_KELVINS;
        let heat = (-self.activation / GAS * inverse).exp();
        let state = self.by_charge * (charge.fraction() - 0.5).powi(3) + self.constant;
        Ratio::from_fraction(self.per_root_second * heat * state * time.seconds().max(0.0).sqrt())
    }
}

impl CycleAgeing {
    /// Measured iron-phosphate cell of 3 Ah with graphite (Naumann 2018, read).
    pub const IRON_PHOSPHATE: CycleAgeing = CycleAgeing {
        by_rate: 0.0630,
        constant: 0.0971,
        by_depth: 4.0253,
        depth_constant: 1.0923,
    };

    /// Share of the capacity lost by full equivalent cycles of a depth at a rate [1/h].
    #[must_use]
    pub fn loss(self, rate: f64, depth: Ratio, cycles: f64) -> Ratio {
        let strain = self.by_rate * rate + self.constant;
        let swing = self.by_depth * (depth.fraction() - 0.6).powi(3) + self.depth_constant;
        Ratio::from_percent(strain * swing * cycles.max(0.0).sqrt())
    }
}
