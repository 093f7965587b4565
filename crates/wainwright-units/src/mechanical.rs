//! Mass, force, torque, stiffness and speed.

use crate::definition::{Definition, Refused, Show, Step, Unit};
use crate::quantity::{accessors, linear, quantity};

quantity! {
    /// Mass. Base unit kilogram \[kg\]. Its pull is a [`Force`].
    Mass, "mass", from_kilograms, kilograms, "kilograms",
    legal 0.0 to 10_000.0, examples ["70 lb", "35 kg", "5 lb 4 oz"], MASS
}
quantity! {
    /// Force. Base unit newton \[N\].
    Force, "force", from_newtons, newtons, "newtons",
    legal -100_000.0 to 100_000.0, examples ["350 N", "2 kN", "80 lbf"], FORCE
}
quantity! {
    /// Torque, as terminal screws are tightened. Base unit newton metre [N·m].
    Torque, "torque", from_newton_metres, newton_metres, "newton metres",
    legal 0.0 to 10_000.0, examples ["2 N·m", "18 in-lb", "12 ft-lb"], TORQUE
}

quantity! {
    /// Stiffness of a spring. Base unit newton per metre [N/m].
    Stiffness, "stiffness", from_newtons_per_metre, newtons_per_metre, "newtons per metre",
    legal 0.0 to 10_000_000.0, examples ["150 N/mm", "850 lbf/in"], STIFFNESS
}
quantity! {
    /// Speed along the road. Base unit metre per second [m/s].
    Speed, "speed", from_metres_per_second, metres_per_second, "metres per second",
    legal 0.0 to 60.0, examples ["60 mph", "90 km/h"], SPEED
}

quantity! {
    /// Air moved in a time. Base unit cubic metre per hour [m³/h].
    Airflow, "airflow", from_cubic_metres_per_hour, cubic_metres_per_hour, "cubic metres per hour",
    legal 0.0 to 100_000.0, examples ["50 cfm", "85 m3/h"], AIRFLOW
}

linear!(Mass, Force, Torque, Stiffness, Speed, Airflow);

accessors! {
    Speed:
    from_kilometres_per_hour, kilometres_per_hour, "kilometres per hour", 1.0, 3.6;
    from_miles_per_hour, miles_per_hour, "miles per hour", 0.447_04, 1.0;
}
accessors! { Airflow: from_litres_per_second, litres_per_second, "litres per second", 3.6, 1.0; }
accessors! { Mass: from_pounds, pounds, "pounds", 0.453_592_37, 1.0; }

/// Inch pound-force [N·m]: 0.0254 m · 0.45359237 kg · 9.80665 m/s².
const NEWTON_METRES_PER_INCH_POUND: f64 = 0.0254 * NEWTONS_PER_POUND;
/// Pound-force \[N\].
const NEWTONS_PER_POUND: f64 = 0.453_592_37 * crate::arithmetic::STANDARD_GRAVITY;

static MASS: Definition = Definition {
    units: &[
        Unit::new(
            &["kg", "kilogram", "kilograms", "kgs", "kilo", "kilos"],
            1.0,
            1.0,
        ),
        Unit::new(&["lb", "lbs", "pound", "pounds"], 0.453_592_37, 1.0)
            .grouped(1)
            .thousands(),
        Unit::new(&["oz", "ounce", "ounces"], 0.453_592_37, 16.0)
            .grouped(1)
            .thousands(),
        Unit::new(&["g", "gram", "grams"], 1.0, 1000.0).thousands(),
        Unit::new(&["t", "tonne", "tonnes"], 1000.0, 1.0),
    ],
    refused: &[
        Refused {
            spellings: &["ton", "tons"],
            hint: "there are three tons; type the mass in lb or kg",
        },
        Refused {
            spellings: &["lbf", "N", "kN"],
            hint: "that is a force; type the mass in lb or kg",
        },
    ],
    bare_up_to: None,
    us: Show::Steps(&[Step::digits(0.45, "lb", 4), Step::digits(0.0, "oz", 3)]),
    metric: Show::Steps(&[Step::digits(1.0, "kg", 4), Step::digits(0.0, "g", 3)]),
};

const FORCE_STEPS: &[Step] = &[Step::digits(10_000.0, "kN", 4), Step::digits(0.0, "N", 4)];

static FORCE: Definition = Definition::same_in_both(
    &[
        Unit::new(&["N", "newton", "newtons"], 1.0, 1.0),
        Unit::new(&["kN", "kilonewton", "kilonewtons"], 1000.0, 1.0),
        Unit::new(&["lbf", "pound-force"], NEWTONS_PER_POUND, 1.0).thousands(),
        Unit::new(&["kgf"], crate::arithmetic::STANDARD_GRAVITY, 1.0),
    ],
    FORCE_STEPS,
)
.refusing(&[
    Refused {
        spellings: &["lb", "lbs", "pound", "pounds"],
        hint: "lb is a mass here; type a force as `lbf`",
    },
    Refused {
        spellings: &["kg"],
        hint: "kg is a mass; type a force as `N` or `kgf`",
    },
]);

const TORQUE_STEPS: &[Step] = &[Step::digits(0.0, "N·m", 3)];

static TORQUE: Definition = Definition::same_in_both(
    &[
        Unit::new(
            &["N·m", "newton metre", "newton metres", "newton meters"],
            1.0,
            1.0,
        ),
        Unit::new(
            &[
                "in·lb",
                "lb·in",
                "in·lbs",
                "inch pound",
                "inch pounds",
                "in·lbf",
                "lbf·in",
            ],
            NEWTON_METRES_PER_INCH_POUND,
            1.0,
        )
        .thousands(),
        Unit::new(
            &[
                "ft·lb",
                "lb·ft",
                "ft·lbs",
                "foot pound",
                "foot pounds",
                "ft·lbf",
                "lbf·ft",
            ],
            12.0 * NEWTON_METRES_PER_INCH_POUND,
            1.0,
        )
        .thousands(),
    ],
    TORQUE_STEPS,
);

static STIFFNESS: Definition = Definition::same_in_both(
    &[
        Unit::new(&["N/mm", "kN/m"], 1000.0, 1.0),
        Unit::new(&["N/m"], 1.0, 1.0),
        Unit::new(&["lbf/in", "lb/in"], NEWTONS_PER_POUND, 0.0254),
    ],
    &[Step::digits(0.0, "N/mm", 4)],
);

static SPEED: Definition = Definition {
    units: &[
        Unit::new(&["km/h", "kph", "kmh"], 1.0, 3.6),
        Unit::new(&["mph", "mi/h"], 0.447_04, 1.0),
        Unit::new(&["m/s"], 1.0, 1.0),
    ],
    refused: &[],
    bare_up_to: None,
    us: Show::Steps(&[Step::digits(0.0, "mph", 3)]),
    metric: Show::Steps(&[Step::digits(0.0, "km/h", 3)]),
};

static AIRFLOW: Definition = Definition {
    units: &[
        Unit::new(&["m3/h", "m³/h", "m^3/h"], 1.0, 1.0),
        // A cubic foot is 0.3048³ m³, an hour 60 minutes.
        Unit::new(&["cfm", "cu ft/min"], 0.028_316_846_592 * 60.0, 1.0),
        Unit::new(&["L/s"], 3.6, 1.0),
    ],
    refused: &[],
    bare_up_to: None,
    us: Show::Steps(&[Step::digits(0.0, "cfm", 3)]),
    metric: Show::Steps(&[Step::digits(0.0, "m³/h", 3)]),
};
