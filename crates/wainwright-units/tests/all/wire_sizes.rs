//! Wire sizes as people type them, and what is refused.

use wainwright_units::{Awg, CrossSection, WireSize};

fn awg(number: i8) -> WireSize {
    WireSize::Awg(Awg::new(number).unwrap())
}

fn sae(number: i8) -> WireSize {
    WireSize::Sae(Awg::new(number).unwrap())
}

fn metric(square_millimetres: f64) -> WireSize {
    WireSize::Metric(CrossSection::from_square_millimetres(square_millimetres))
}

#[test]
fn sizes_that_are_understood() {
    let cases = [
        ("10 AWG", awg(10)),
        ("10AWG", awg(10)),
        ("10 awg", awg(10)),
        ("AWG 10", awg(10)),
        ("awg10", awg(10)),
        (" 10  AWG ", awg(10)),
        ("1 AWG", awg(1)),
        ("36 AWG", awg(36)),
        ("1/0 AWG", awg(0)),
        ("2/0 AWG", awg(-1)),
        ("2/0AWG", awg(-1)),
        ("2⁄0 AWG", awg(-1)),
        ("AWG 4/0", awg(-3)),
        ("0 AWG", awg(0)),
        ("00 AWG", awg(-1)),
        ("0000 AWG", awg(-3)),
        ("23 AWG", awg(23)),
        ("10 SAE", sae(10)),
        ("SAE 10", sae(10)),
        ("2/0 sae", sae(-1)),
        ("16 mm2", metric(16.0)),
        ("16 mm²", metric(16.0)),
        ("16mm2", metric(16.0)),
        ("2.5 mm²", metric(2.5)),
        ("2,5 mm2", metric(2.5)),
        ("1/2 mm2", metric(0.5)),
        ("1 1/2 mm2", metric(1.5)),
        ("16 sq mm", metric(16.0)),
    ];
    for (typed, size) in cases {
        assert_eq!(WireSize::parse(typed), Ok(size), "{typed}");
    }
}

/// Typed text, column, found, and words that the advice must contain (empty: no advice).
#[test]
fn sizes_that_are_refused() {
    let cases = [
        ("", 1, "nothing", ""),
        ("   ", 1, "nothing", ""),
        ("10", 1, "10", "`10 AWG`"),
        ("2/0", 1, "2/0", "`2/0 AWG`"),
        ("10 awgg", 4, "awgg", "did you mean `AWG`?"),
        ("10 AGW", 4, "AGW", "did you mean `AWG`?"),
        ("awgg 10", 1, "awgg", "did you mean `AWG`?"),
        ("10 ASE", 4, "ASE", "did you mean `SAE`?"),
        ("#10", 1, "#10", "which gauge"),
        ("10 ga", 4, "ga", "which gauge"),
        ("10 gauge", 4, "gauge", "which gauge"),
        ("37 AWG", 1, "37", ""),
        ("5/0 AWG", 1, "5/0", "kcmil"),
        ("-1 AWG", 1, "-1", ""),
        ("10.5 AWG", 1, "10.5", ""),
        ("10/2 AWG", 1, "10/2", "`10 AWG`"),
        ("AWG", 4, "nothing", ""),
        ("AWG ten", 5, "ten", ""),
        ("AWG 99", 5, "99", ""),
        ("10 AWG red", 8, "red", ""),
        ("AWG 10 red", 8, "red", ""),
        ("16 mm", 4, "mm", "diameter"),
        ("10 V", 4, "V", "unit of voltage"),
        ("10 ft", 4, "ft", "unit of length"),
        ("10 xyz", 4, "xyz", ""),
        ("5000 mm2", 1, "5000 mm2", ""),
        ("99999999999999999999 AWG", 1, "99999999999999999999", ""),
    ];
    for (typed, column, found, advice) in cases {
        let error = WireSize::parse(typed).unwrap_err();
        assert_eq!(
            (error.column, error.found.as_str()),
            (column, found),
            "{typed}: {error}"
        );
        match &error.hint {
            Some(hint) => assert!(
                !advice.is_empty() && hint.contains(advice),
                "{typed}: {error}"
            ),
            None => assert_eq!(advice, "", "{typed}: {error}"),
        }
    }
}

#[test]
fn every_gauge_is_shown_as_it_can_be_typed() {
    for gauge in Awg::all() {
        for size in [WireSize::Awg(gauge), WireSize::Sae(gauge)] {
            assert_eq!(WireSize::parse(&size.to_string()), Ok(size));
        }
    }
    assert_eq!(metric(2.5).to_string(), "2.5 mm²");
    assert_eq!(awg(-3).to_string(), "4/0 AWG");
}

#[test]
fn gauges_are_ordered_from_thin_to_thick() {
    let sizes: Vec<Awg> = Awg::all().collect();
    for pair in sizes.windows(2) {
        assert!(pair[0] < pair[1] && pair[0].area() < pair[1].area());
        assert_eq!(pair[0].thicker(), Some(pair[1]));
        assert_eq!(pair[1].thinner(), Some(pair[0]));
    }
    assert_eq!(sizes.first().and_then(|thinnest| thinnest.thinner()), None);
    assert_eq!(sizes.last().and_then(|thickest| thickest.thicker()), None);
    assert_eq!((Awg::new(37), Awg::new(-4)), (None, None));
}

#[test]
fn equal_numbers_of_different_kinds_differ() {
    assert_ne!(awg(10), sae(10));
}
