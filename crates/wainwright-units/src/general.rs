//! Durations and ratios.

use crate::definition::{Definition, Refused, Step, Unit};
use crate::quantity::{accessors, linear, quantity};

quantity! {
    /// Length of time. Base unit second \[s\].
    Duration, "duration", from_seconds, seconds, "seconds",
    legal 0.0 to 315_360_000.0, examples ["20 min", "150 ms", "3 h", "2 h 30 min"], DURATION
}
quantity! {
    /// A share or factor without unit, as a fraction of one.
    Ratio, "ratio", from_fraction, fraction, "ones",
    legal 0.0 to 2.0, examples ["80 %", "0.8"], RATIO
}

linear!(Duration, Ratio);

accessors! {
    Duration:
    from_milliseconds, milliseconds, "milliseconds", 1.0, 1000.0;
    from_minutes, minutes, "minutes", 60.0, 1.0;
    from_hours, hours, "hours", 3600.0, 1.0;
}
accessors! { Ratio: from_percent, percent, "percent", 1.0, 100.0; }

impl Ratio {
    /// The whole.
    pub const ONE: Ratio = Ratio(1.0);
}

const DURATION_STEPS: &[Step] = &[
    Step::digits(172_800.0, "d", 4),
    Step::digits(7200.0, "h", 4),
    Step::digits(120.0, "min", 4),
    Step::digits(1.0, "s", 4),
    Step::digits(0.0, "ms", 3),
];

static DURATION: Definition = Definition::same_in_both(
    &[
        Unit::new(&["s", "sec", "secs", "second", "seconds"], 1.0, 1.0).grouped(1),
        Unit::new(&["ms", "msec", "millisecond", "milliseconds"], 1.0, 1000.0)
            .thousands()
            .prefixed_m(),
        Unit::new(&["min", "mins", "minute", "minutes"], 60.0, 1.0).grouped(1),
        Unit::new(&["h", "hr", "hrs", "hour", "hours"], 3600.0, 1.0).grouped(1),
        Unit::new(&["d", "day", "days"], 86_400.0, 1.0).grouped(1),
    ],
    DURATION_STEPS,
)
.refusing(&[Refused {
    spellings: &["m"],
    hint: "m is metres; type minutes as `min`",
}]);

const RATIO_STEPS: &[Step] = &[Step::digits(0.0, "%", 3)];

static RATIO: Definition = Definition::same_in_both(
    &[Unit::new(&["%", "percent", "per cent", "pct"], 1.0, 100.0)],
    RATIO_STEPS,
)
.bare_up_to(1.0);
