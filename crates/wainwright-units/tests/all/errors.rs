//! What is not understood: column of the offending token, the token, and the advice.

use wainwright_units::{
    Airflow, Altitude, Angle, Charge, Current, Duration, Energy, Force, Length, Mass, Power,
    Quantity, QuantityError, Ratio, Resistance, Speed, Stiffness, Temperature, Voltage, Volume,
};

/// Typed text, column, found, words of the expectation, words of the advice (empty: none).
type Case<'a> = (&'a str, usize, &'a str, &'a str, &'a str);

#[track_caller]
fn refuses<Q: Quantity>(cases: &[Case<'_>]) {
    for (typed, column, found, expected, advice) in cases {
        let error = Q::parse(typed).expect_err(typed);
        assert_eq!(
            (error.column, error.found.as_str()),
            (*column, *found),
            "{typed}: {error}"
        );
        assert!(error.expected.contains(expected), "{typed}: {error}");
        match &error.hint {
            Some(hint) => assert!(
                !advice.is_empty() && hint.contains(advice),
                "{typed}: {error}"
            ),
            None => assert_eq!(*advice, "", "{typed}: {error}"),
        }
    }
}

#[test]
fn nothing_and_no_number() {
    refuses::<Length>(&[
        ("", 1, "nothing", "a length, for example 7' 3-5/8\"", ""),
        (" \t\u{a0} ", 1, "nothing", "a length", ""),
        ("long", 1, "long", "a length", ""),
        ("  long one", 3, "long", "a length", ""),
        ("NaN", 1, "NaN", "a length", ""),
        ("inf m", 1, "inf", "a length", ""),
        ("-inf m", 1, "-inf", "a length", ""),
        ("-", 1, "-", "a length", ""),
        ("m 5", 1, "m", "a length", ""),
        ("~5 m", 1, "~5", "a length", "alone"),
        (",5 m", 1, ",5", "a length", "0,5"),
        ("--5 m", 1, "--5", "a length", ""),
    ]);
}

#[test]
fn a_bare_number_lacks_its_unit() {
    refuses::<Length>(&[
        (
            "12",
            1,
            "12",
            "m, mm, cm, ft, in, yd",
            "for example 7' 3-5/8\"",
        ),
        ("  12  ", 3, "12", "a unit after the number", "for example"),
        ("-12", 1, "-12", "a unit after the number", "for example"),
        ("5/8", 1, "5/8", "a unit after the number", "for example"),
        ("7' 3", 4, "3", "a unit after the number: in", "type `3 in`"),
        ("5'6", 3, "6", "a unit after the number: in", "type `6 in`"),
        ("1 m 20", 5, "20", "cm, mm", "type `20 cm`"),
    ]);
    refuses::<Voltage>(&[("12", 1, "12", "V, mV, kV", "12.8 V")]);
    refuses::<Duration>(&[("2 h 30", 5, "30", "min, s", "type `30 min`")]);
}

#[test]
fn a_ratio_above_one_needs_percent() {
    refuses::<Ratio>(&[
        ("80", 1, "80", "a fraction from 0 to 1", "`80 %`"),
        ("1.01", 1, "1.01", "a fraction from 0 to 1", "`1.01 %`"),
        ("-0.1", 1, "-0.1", "a fraction from 0 to 1", "%"),
        ("1,250", 1, "1,250", "a fraction from 0 to 1", "%"),
        ("250 %", 1, "250 %", "a ratio from 0 % to 200 %", ""),
    ]);
}

#[test]
fn mistyped_and_foreign_units() {
    refuses::<Length>(&[
        ("12 fet", 4, "fet", "a unit of length", "did you mean `ft`?"),
        (
            "12 inchs",
            4,
            "inchs",
            "a unit of length",
            "did you mean `inch`?",
        ),
        ("7' 3 ni", 6, "ni", "a unit of length", "did you mean `in`?"),
        (
            "650 mm2",
            5,
            "mm2",
            "a unit of length",
            "unit of cross-section",
        ),
        ("12 kg", 4, "kg", "a unit of length", "unit of mass"),
        ("12 wombats", 4, "wombats", "a unit of length", ""),
        ("12 m/s", 4, "m/s", "a unit of length", "unit of speed"),
        ("12 m/w", 4, "m/w", "a unit of length", ""),
        ("12 ; m", 4, ";", "a unit of length", ""),
        ("10 AWG", 4, "AWG", "a unit of length", "unit of wire size"),
    ]);
    refuses::<Voltage>(&[
        (
            "12 vlots",
            4,
            "vlots",
            "a unit of voltage",
            "did you mean `volts`?",
        ),
        ("12 A", 4, "A", "a unit of voltage", "unit of current"),
        ("500 MV", 5, "MV", "a unit of voltage", "type `mV`"),
    ]);
    refuses::<Current>(&[
        (
            "60 W",
            4,
            "W",
            "a unit of current",
            "divided by the voltage",
        ),
        ("5 MA", 3, "MA", "a unit of current", "type `mA`"),
        (
            "100 amp hours",
            5,
            "amp hours",
            "a unit of current",
            "unit of charge",
        ),
    ]);
    refuses::<Power>(&[
        ("1500 VA", 6, "VA", "a unit of power", "apparent power"),
        ("2 hp", 3, "hp", "a unit of power", "rating plate"),
    ]);
    refuses::<Resistance>(&[("5 MΩ", 3, "MΩ", "a unit of resistance", "type `mΩ`")]);
    refuses::<Charge>(&[("1280 Wh", 6, "Wh", "a unit of charge", "nominal voltage")]);
    refuses::<Energy>(&[
        ("100 Ah", 5, "Ah", "a unit of energy", "nominal voltage"),
        ("5 mJ", 3, "mJ", "a unit of energy", "type `MJ`"),
    ]);
    refuses::<Temperature>(&[
        ("80 degrees", 4, "degrees", "°C, °F", "which degrees"),
        ("80°", 3, "°", "°C, °F", "which degrees"),
        ("300 K", 5, "K", "°C, °F", "subtract 273.15"),
    ]);
    refuses::<Angle>(&[("45 °C", 4, "°C", "a unit of angle", "unit of temperature")]);
    refuses::<Duration>(&[("20 m", 4, "m", "a unit of duration", "`min`")]);
    refuses::<Volume>(&[("12 oz", 4, "oz", "a unit of volume", "`fl oz`")]);
    refuses::<Mass>(&[("2 tons", 3, "tons", "a unit of mass", "three tons")]);
    refuses::<Speed>(&[("60 m", 4, "m", "a unit of speed", "unit of length")]);
    refuses::<Airflow>(&[("50 m", 4, "m", "a unit of airflow", "unit of length")]);
    refuses::<Altitude>(&[("5000 kg", 6, "kg", "a unit of altitude", "unit of mass")]);
    refuses::<Stiffness>(&[("150 N", 5, "N", "a unit of stiffness", "unit of force")]);
    refuses::<Force>(&[("80 lb", 4, "lb", "a unit of force", "`lbf`")]);
}

#[test]
fn commas_that_can_mean_two_things() {
    refuses::<Length>(&[
        (
            "1,200 m",
            1,
            "1,200",
            "only mean one thing",
            "`1200 m` or `1.2 m`",
        ),
        (
            "-1,250 m",
            2,
            "1,250",
            "only mean one thing",
            "`1250 m` or `1.25 m`",
        ),
        (
            "1,125 in",
            1,
            "1,125",
            "only mean one thing",
            "`1125 in` or `1.125 in`",
        ),
        (
            "1.200,5 m",
            1,
            "1.200,5",
            "a number such as",
            "point for decimals",
        ),
        (
            "1,2,3 m",
            1,
            "1,2,3",
            "a number such as",
            "point for decimals",
        ),
        (
            "1,20.5 m",
            1,
            "1,20.5",
            "a number such as",
            "point for decimals",
        ),
        (
            "1.2.3 m",
            1,
            "1.2.3",
            "a number such as",
            "point for decimals",
        ),
        (
            "0,200,000 mm",
            1,
            "0,200,000",
            "a number such as",
            "point for decimals",
        ),
        (
            "1,200.5,5 mm",
            1,
            "1,200.5,5",
            "a number such as",
            "point for decimals",
        ),
    ]);
    refuses::<Mass>(&[(
        "1,200 kg",
        1,
        "1,200",
        "only mean one thing",
        "`1200 kg` or `1.2 kg`",
    )]);
}

#[test]
fn fractions_and_blanks_inside_numbers() {
    refuses::<Length>(&[
        ("1 200 mm", 3, "200", "a fraction as in 3 5/8", "`1200`"),
        ("1 200 000 mm", 3, "200", "a fraction as in 3 5/8", "`1200`"),
        ("3 9/8 in", 3, "9/8", "a fraction below one", "3-5/8"),
        ("3-8/8 in", 3, "8/8", "a fraction below one", "3-5/8"),
        ("5/0 in", 3, "0", "above zero", "wire sizes"),
        ("3 5/0 in", 5, "0", "above zero", "wire sizes"),
        ("3-5 m", 2, "-5", "a unit", "range"),
        ("3.5 5/8 in", 5, "5/8", "a unit of length", ""),
        ("5/8/2 in", 4, "/2", "a unit of length", ""),
        ("1_200 mm", 2, "_", "a unit of length", ""),
        ("5. m", 2, ".", "a unit of length", ""),
    ]);
}

#[test]
fn text_after_the_value() {
    refuses::<Length>(&[
        ("5 m m", 5, "m", "nothing after the length", ""),
        ("5 m*m", 3, "m*m", "a unit of length", "did you mean `mm`?"),
        ("5 m .", 5, ".", "nothing after the length", ""),
        ("5 m long", 5, "long", "nothing after the length", ""),
        ("5 m to 6 m", 5, "to", "nothing after the length", "range"),
        ("5 m - 6 m", 5, "-", "nothing after the length", "range"),
        ("5 in in", 6, "in", "nothing after the length", ""),
        ("6 in 5 ft", 8, "ft", "a smaller unit after in", ""),
        ("5 ft 6 ft", 8, "ft", "a smaller unit after ft: in", ""),
        ("1 m 6 in", 7, "in", "a smaller unit after m: cm, mm", ""),
        ("5 ft 3 wombats", 8, "wombats", "a unit of length", ""),
        ("5 ft +3 in", 6, "+3", "nothing after the length", ""),
    ]);
    refuses::<Voltage>(&[
        ("12 V 5 mV", 6, "5", "nothing after the voltage", ""),
        ("12V-14V", 4, "-14V", "nothing after the voltage", "range"),
    ]);
}

#[test]
fn the_legal_range_is_told_in_the_typed_unit() {
    refuses::<Length>(&[
        ("101 m", 1, "101 m", "a length from -100 m to 100 m", ""),
        ("  -101 m", 3, "-101 m", "a length from -100 m to 100 m", ""),
        // 100 m is 328.084 ft and 3937.01 in; limits are rounded to the inside.
        ("400 ft", 1, "400 ft", "a length from -328 ft to 328 ft", ""),
        (
            "400' 3\"",
            1,
            "400' 3\"",
            "a length from -328 ft to 328 ft",
            "",
        ),
        ("5,000 in", 1, "5,000", "only mean one thing", "`5000 in`"),
        ("5000 in", 1, "5000 in", "from -3937 in to 3937 in", ""),
        (
            "200000 mm",
            1,
            "200000 mm",
            "from -100000 mm to 100000 mm",
            "",
        ),
        ("1e9 m", 1, "1e9 m", "from -100 m to 100 m", ""),
    ]);
    refuses::<Voltage>(&[
        ("-1 V", 1, "-1 V", "a voltage from 0 V to 1000 V", ""),
        (
            "1001 volts",
            1,
            "1001 volts",
            "a voltage from 0 V to 1000 V",
            "",
        ),
    ]);
    refuses::<Temperature>(&[("3000 F", 1, "3000 F", "from -130 °F to 2192 °F", "")]);
    refuses::<Energy>(&[(
        "2000 kWh",
        1,
        "2000 kWh",
        "an energy from 0 kWh to 1000 kWh",
        "",
    )]);
    refuses::<Mass>(&[(
        "30000 lb",
        1,
        "30000 lb",
        "a mass from 0 lb to 22040 lb",
        "",
    )]);
}

#[test]
fn numbers_beyond_a_float() {
    let nines = "9".repeat(190);
    let all_range = Voltage::parse(&format!("{nines} V")).unwrap_err();
    assert!(all_range.expected.contains("0 V to 1000 V"), "{all_range}");
    refuses::<Voltage>(&[
        ("1e999 V", 1, "1e999", "not so large", ""),
        (
            "1e99999999999999999999 V",
            1,
            "1e99999999999999999999",
            "not so large",
            "",
        ),
        ("1.5e400 V", 1, "1.5e400", "not so large", ""),
        ("1e308 kV", 1, "1e308 kV", "a voltage from 0 kV to 1 kV", ""),
    ]);
    assert_eq!(Voltage::parse("1e-999 V").map(Voltage::volts), Ok(0.0));
}

#[test]
fn long_texts_are_refused_unread() {
    let lengths = [201, 10_000, 1_000_000];
    for length in lengths {
        for filler in ["9", " ", "m", "'", "½", "5 ft ", "\u{10ffff}"] {
            let text: String = filler.chars().cycle().take(length).collect();
            let error = Length::parse(&text).unwrap_err();
            assert_eq!(error.column, 201);
            assert!(error.expected.contains("at most 200 characters"), "{error}");
            assert!(error.to_string().chars().count() < 300);
        }
    }
}

#[test]
fn columns_count_characters_not_bytes() {
    refuses::<Length>(&[
        ("½ ⅝ in", 3, "⅝", "a unit of length", ""),
        ("\u{a0}½ wömbat", 4, "wömbat", "a unit of length", ""),
        ("7′ 3½ ″x", 8, "x", "nothing after the length", ""),
    ]);
}

#[test]
fn the_whole_message() {
    let error: QuantityError = Voltage::parse("12 vlots").unwrap_err();
    assert_eq!(
        error.to_string(),
        "column 4: found `vlots`, expected a unit of voltage: V, mV, kV; did you mean `volts`?"
    );
}
