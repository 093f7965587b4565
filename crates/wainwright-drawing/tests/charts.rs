//! What must hold on courses, years and combinations: texts apart and on the sheet, areas where the figures are,
//! nothing said by colour alone, the same bytes.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod common;

use common::clear;
use common::reader::{Element, attribute, check};
use wainwright_drawing::chart::{
    Cell, Course, Lane, Mark, MonthColumn, TradeOff, Year, course, trade_off, year,
};
use wainwright_drawing::{Picture, Style, Tone};

fn read(picture: &Picture) -> Vec<Element> {
    check(&picture.svg(&Style::default()))
}

fn of_class<'e>(elements: &'e [Element], class: &str) -> Vec<&'e Element> {
    elements
        .iter()
        .filter(|element| attribute(element, "class") == Some(class))
        .collect()
}

fn number(element: &Element, name: &str) -> f64 {
    attribute(element, name).unwrap().parse().unwrap()
}

/// So many days from 16 h of the first to 10 h of the last.
fn trip(days: usize) -> Course {
    let mut counts = vec![24; days];
    counts[0] = 8;
    counts[days - 1] = 10;
    let hours: usize = counts.iter().sum();
    let clock = |hour: usize| (hour + 16) % 24;
    let middle = |hour: usize| 0.5 + 0.4 * (hour as f64 / 9.0).sin();
    let on = |from: usize, to: usize| (0..hours).map(|hour| (from..to).contains(&hour)).collect();
    Course {
        span: (0.0, 1.0),
        marks: [0.0, 0.5, 1.0]
            .map(|at| Mark::new(at, format!("{:.0} %", at * 100.0)))
            .to_vec(),
        bands: (0..hours)
            .map(|hour| [middle(hour) - 0.1, middle(hour), middle(hour) + 0.1])
            .collect(),
        limits: vec![
            Mark::new(0.2, "stops here"),
            Mark::new(0.21, "too near to be written"),
        ],
        night: (0..hours)
            .map(|hour| clock(hour) < 6 || clock(hour) >= 19)
            .collect(),
        days: counts
            .iter()
            .enumerate()
            .map(|(at, count)| {
                let number = at + 1;
                (
                    *count,
                    vec![
                        format!("{number}"),
                        format!("Day {number}"),
                        format!("Day {number}, Oct {number}"),
                    ],
                )
            })
            .collect(),
        lanes: vec![
            Lane {
                name: "Driving".into(),
                class: "driving",
                on: on(0, 4),
            },
            Lane {
                name: "Shore".into(),
                class: "shore",
                on: on(20, 44),
            },
            Lane {
                name: "Tap".into(),
                class: "tap",
                on: on(0, 0),
            },
        ],
        tone: None,
    }
}

fn months(to: impl Fn(usize) -> f64) -> Vec<MonthColumn> {
    (0..12)
        .map(|at| MonthColumn {
            from: 0.0,
            to: to(at),
            mark: (at == 3).then_some(0.1),
            text: at.to_string(),
            tone: Tone::Calm,
        })
        .collect()
}

fn combinations(columns: usize, rows: usize) -> TradeOff {
    let cell = |at: usize| {
        let (column, row) = (at % columns, at / columns);
        Cell {
            column,
            row,
            figure: ">99".into(),
            word: "too few".into(),
            mark: if at == 1 { "now" } else { "" }.into(),
            tone: Tone::Bad,
            best: at == 2,
            now: at == 1,
            words: format!("{column} and {row}"),
        }
    };
    TradeOff {
        across: "Number of modules".into(),
        upwards: "Batteries".into(),
        columns: (0..columns).map(|at| at.to_string()).collect(),
        rows: (1..=rows).map(|at| at.to_string()).collect(),
        cells: (0..columns * rows).map(cell).collect(),
    }
}

#[test]
fn texts_are_clear_in_every_width_and_length() {
    for width in [0.0, 340.0, 356.0, 700.0, 1000.0] {
        for days in [2, 4, 8, 20, 121] {
            let picture = course(&trip(days), width);
            clear(&format!("{days} days, {width} wide"), &picture);
            read(&picture);
        }
        for limit in [None, Some(Mark::new(0.05, "accepted: 5 of 100 trips"))] {
            let chart = Year {
                span: (0.0, 1.0),
                marks: vec![Mark::new(0.0, "0"), Mark::new(1.0, "100")],
                months: months(|at| if at % 2 == 0 { 1.0 } else { 0.0 }),
                limit,
                about: Some(10),
            };
            let picture = year(&chart, width);
            clear(&format!("year {width} wide"), &picture);
            read(&picture);
        }
        for (columns, rows) in [(1, 1), (4, 4), (9, 5), (12, 9)] {
            let picture = trade_off(&combinations(columns, rows), width);
            clear(&format!("{columns} by {rows}, {width} wide"), &picture);
            read(&picture);
        }
    }
}

#[test]
fn nights_lanes_and_the_line_are_where_the_hours_are() {
    let chart = trip(3);
    let elements = read(&course(&chart, 1000.0));
    // 42 hours; the first night is from 19 h to 6 h, so from hour 3 to 14.
    let nights = of_class(&elements, "night");
    assert_eq!(nights.len(), 2);
    let bed = of_class(&elements, "lane-bed")[0];
    let (left, wide) = (number(bed, "x"), number(bed, "width"));
    let hour = wide / 42.0;
    assert!((number(nights[0], "x") - left - 3.0 * hour).abs() < 0.2);
    assert!((number(nights[0], "width") - 11.0 * hour).abs() < 0.2);
    let driving = of_class(&elements, "lane driving");
    assert!((number(driving[0], "width") - 4.0 * hour).abs() < 0.2);
    assert!(
        of_class(&elements, "lane tap").is_empty(),
        "a lane without hours is left out"
    );
    let line = attribute(of_class(&elements, "middle-line")[0], "d").unwrap();
    assert_eq!(line.matches(['M', 'L']).count(), 42);
}

#[test]
fn months_are_drawn_as_high_as_they_are_and_the_own_one_is_framed() {
    let chart = Year {
        span: (0.0, 1.0),
        months: months(|at| at as f64 / 11.0),
        about: Some(4),
        ..Year::default()
    };
    let elements = read(&year(&chart, 700.0));
    let bars = of_class(&elements, "fill");
    let high: Vec<f64> = bars.iter().map(|bar| number(bar, "height")).collect();
    assert_eq!(high.len(), 12);
    assert!(
        (high[11] - 130.0).abs() < 0.1 && (high[5] - 130.0 * 5.0 / 11.0).abs() < 0.1,
        "{high:?}"
    );
    let frame = of_class(&elements, "about")[0];
    let (from, wide) = (number(frame, "x"), number(frame, "width"));
    let middle = number(bars[3], "x") + number(bars[3], "width") / 2.0;
    assert!(from < middle && middle < from + wide);
}

#[test]
fn every_cell_says_in_words_how_it_fares() {
    let chart = combinations(4, 3);
    let picture = trade_off(&chart, 700.0);
    let said = |text: &str| {
        picture
            .texts
            .iter()
            .filter(|known| known.text == text)
            .count()
    };
    assert_eq!((said("too few"), said(">99"), said("now")), (12, 12, 1));
    let elements = read(&picture);
    assert_eq!(of_class(&elements, "cell bad best").len(), 1);
    assert_eq!(of_class(&elements, "cell bad now").len(), 1);
}

#[test]
fn what_makes_no_sense_is_drawn_all_the_same() {
    let mut chart = trip(2);
    chart.bands[3] = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY];
    chart.span = (f64::NAN, f64::NAN);
    read(&course(&chart, f64::NAN));
    read(&course(&Course::default(), 300.0));
    let mut odd = Year {
        months: months(|_| f64::NAN),
        ..Year::default()
    };
    odd.months.extend(months(|_| 1.0));
    assert_eq!(of_class(&read(&year(&odd, 400.0)), "fill").len(), 12);
    let mut cells = combinations(2, 2);
    cells.cells[0].column = 99;
    assert_eq!(of_class(&read(&trade_off(&cells, 400.0)), "body").len(), 3);
    read(&trade_off(&TradeOff::default(), 400.0));
}

#[test]
fn the_same_course_gives_the_same_bytes() {
    let bytes = || course(&trip(8), 1000.0).svg(&Style::default());
    assert_eq!(bytes(), bytes());
}
