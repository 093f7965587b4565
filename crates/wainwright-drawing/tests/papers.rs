//! Overviews, sheets, labels and cards: texts apart and on the sheet, nothing
//! forgotten, sizes on paper, the same bytes.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod common;

use common::clear;
use common::nonsense::senseless as scene;
use common::overview::{card, grid, item, labels, overview, ratios, senseless, sheet};
use common::reader::{attribute, check};
use common::scenes::camper;
use wainwright_drawing::legend::{CardOptions, Corner, Order, fuse_card};
use wainwright_drawing::scene::{self, View};
use wainwright_drawing::sheet::{
    Fold, LabelGrid, Paper, Ratio, WireLabel, label_sheets, picture_sheet, scene_sheet,
};
use wainwright_drawing::single_line::{self, Branch, SingleLine};
use wainwright_drawing::{BlockKind, Picture, Style, TextBox};

fn line(line: &SingleLine, width: f64) -> Picture {
    let options = single_line::Options {
        width,
        ..single_line::Options::default()
    };
    single_line::draw(line, &options)
}

fn find<'a>(picture: &'a Picture, text: &str) -> &'a TextBox {
    let known = picture.texts.iter().find(|known| known.text == text);
    known.unwrap_or_else(|| panic!("no text {text:?}"))
}

#[test]
fn overviews_are_clear_and_complete() {
    for width in [320.0, 366.0, 760.0, 1200.0] {
        let picture = line(&overview(), width);
        clear(&format!("overview {width}"), &picture);
        check(&picture.svg(&Style::default()));
        for text in [
            "Main switch",
            "Plus bus bar",
            "Inverter",
            "60 A",
            "14 AWG · 9 ft",
            "Fuse block",
        ] {
            find(&picture, text);
        }
    }
    for seed in 0..300 {
        let width = [320.0, 600.0, 900.0][seed as usize % 3];
        let picture = line(&senseless(seed), width);
        clear(&format!("seed {seed}"), &picture);
        check(&picture.svg(&Style::default()));
    }
}

#[test]
fn sources_are_above_the_bus_and_circuits_below() {
    let picture = line(&overview(), 760.0);
    let y = |text: &str| find(&picture, text).rect.y;
    let order = [
        "Solar controller",
        "House battery",
        "Main switch",
        "Shunt",
        "Plus bus bar",
        "Inverter",
        "Fuse block",
        "Water pump",
    ];
    for pair in order.windows(2) {
        assert!(y(pair[0]) < y(pair[1]), "{pair:?}");
    }
    let x = |text: &str| find(&picture, text).rect.x;
    assert!(
        x("60 A") < x("10 A"),
        "circuits of the block are behind its fuse"
    );
}

#[test]
fn an_endless_chain_of_blocks_ends() {
    let mut branch = Branch {
        through: Vec::new(),
        wire: String::new(),
        end: item(BlockKind::Load, "end", "Lamp", ""),
        branches: Vec::new(),
    };
    for depth in 0..200 {
        branch = Branch {
            through: Vec::new(),
            wire: String::new(),
            end: item(BlockKind::FuseBlock, &format!("b{depth}"), "Block", ""),
            branches: vec![branch],
        };
    }
    let deep = SingleLine {
        branches: vec![branch],
        ..SingleLine::default()
    };
    let picture = line(&deep, 366.0);
    assert!(picture.width < 4000.0);
    clear("deep", &picture);
}

#[test]
fn cards_are_clear_and_ways_are_where_they_are_mounted() {
    for width in [280.0, 366.0, 560.0, f64::NAN] {
        for count in 0..=12 {
            let mut card = card();
            card.ways.truncate(count);
            let options = CardOptions {
                width,
                ..CardOptions::default()
            };
            let picture = fuse_card(&card, &options);
            clear(&format!("card {width} {count}"), &picture);
            check(&picture.svg(&Style::default()));
            assert_eq!(
                picture
                    .texts
                    .iter()
                    .filter(|text| text.text.parse::<u8>().is_ok())
                    .count(),
                count
            );
        }
    }
    let at = |first: Corner, order: Order, number: &str| {
        let card = wainwright_drawing::legend::FuseCard {
            first,
            order,
            ..card()
        };
        let rect = find(&fuse_card(&card, &CardOptions::default()), number).rect;
        (rect.x < 280.0, rect.y < 220.0)
    };
    use Corner::{BottomLeft, BottomRight, TopLeft, TopRight};
    use Order::{AcrossRows, DownColumns};
    // (left, above) of way 1, and of way 12, which is opposite to it.
    for (first, left, above) in [
        (TopLeft, true, true),
        (TopRight, false, true),
        (BottomLeft, true, false),
        (BottomRight, false, false),
    ] {
        for order in [DownColumns, AcrossRows] {
            assert_eq!(at(first, order, "1"), (left, above), "{first:?}");
            assert_eq!(at(first, order, "12"), (!left, !above), "{first:?}");
        }
        assert_eq!(at(first, AcrossRows, "2"), (!left, above), "{first:?}");
        assert_eq!(at(first, DownColumns, "2"), (left, above), "{first:?}");
    }
}

#[test]
fn the_largest_scale_that_fits_is_used_and_is_true_on_paper() {
    let options = scene::Options::default();
    let mut list = ratios();
    let scale = |paper: Paper, list: &[Ratio]| {
        let printed = scene_sheet(
            &sheet(paper, true),
            &camper(),
            &View::plan(),
            &options,
            list,
        );
        clear("sheet", &printed.picture);
        printed
    };
    let printed = scale(Paper::Letter, &list);
    let chosen = printed.ratio.unwrap();
    let text = list[chosen].text.clone();
    find(&printed.picture, &text);
    assert!(
        chosen > 0,
        "the largest of the list is too large for this sheet"
    );
    let larger = scale(Paper::Letter, &list[..chosen]);
    assert_eq!(larger.ratio, None, "no larger one fits");
    let real = list[chosen].real_per_paper;
    let elements = check(&printed.picture.svg(&Style::default()));
    assert_eq!(attribute(&elements[0], "width"), Some("279.4mm"));
    assert_eq!(attribute(&elements[0], "height"), Some("215.9mm"));
    // The battery is 21 in long: on paper 21 in / ratio, at 96 units per inch.
    let at = elements
        .iter()
        .position(|e| attribute(e, "data-id") == Some("bat"))
        .unwrap();
    let body = elements[at..]
        .iter()
        .find(|e| attribute(e, "class") == Some("body"))
        .unwrap();
    let width: f64 = attribute(body, "width").unwrap().parse().unwrap();
    assert!((width - 21.0 / real * 96.0).abs() < 0.06, "{width}");
    list.reverse();
    let again = scale(Paper::Letter, &list).ratio.unwrap();
    assert_eq!(
        list[again].text, text,
        "the order of the list does not matter"
    );
    let none = scale(
        Paper::A4,
        &[Ratio {
            real_per_paper: 2.0,
            text: "1:2".into(),
        }],
    );
    assert_eq!(none.ratio, None);
    find(&none.picture, "not to scale");
    assert_eq!(
        scale(
            Paper::A4,
            &[Ratio {
                real_per_paper: f64::NAN,
                text: String::new()
            }]
        )
        .ratio,
        None
    );
}

#[test]
fn any_drawing_fits_on_a_sheet() {
    for seed in 0..60 {
        let options = scene::Options::default();
        let picture = scene::draw(&scene(seed), &View::plan(), &options);
        for (paper, landscape) in [(Paper::Letter, false), (Paper::A4, true)] {
            let done = picture_sheet(&sheet(paper, landscape), &picture, "no scale");
            clear(&format!("sheet {seed}"), &done);
            check(&done.svg(&Style::default()));
        }
    }
}

#[test]
fn labels_fill_sheets_in_order_and_stay_in_their_cells() {
    let sheets = label_sheets(&grid(), &labels(52));
    assert_eq!(sheets.len(), 2, "three are used up, 40 to a sheet");
    for sheet in &sheets {
        clear("labels", sheet);
        check(&sheet.svg(&Style::default()));
    }
    let count = |name: &str| {
        sheets
            .iter()
            .flat_map(|s| &s.texts)
            .filter(|t| t.text == name)
            .count()
    };
    for number in 1..=52 {
        assert_eq!(
            count(&format!("W{number}")),
            2,
            "a flag is read from both sides"
        );
    }
    // The first free cell is the fourth: 15 + 3 * (45 + 2) mm from the left.
    let first = find(&sheets[0], "W1").rect;
    let mm = |units: f64| units * 25.4 / 96.0;
    assert!(mm(first.x) > 156.0 && mm(first.right()) < 201.0 && mm(first.y) > 15.0);
    let upright = find(&sheets[0], "W1").rect;
    let turned = sheets[0]
        .texts
        .iter()
        .filter(|t| t.text == "W1")
        .nth(1)
        .unwrap()
        .rect;
    let fold = (15.0 + 12.0) / 25.4 * 96.0;
    assert!(
        (upright.bottom() - fold + turned.y - fold).abs() < 1e-6,
        "mirrored at the fold"
    );
}

#[test]
fn senseless_grids_and_labels_are_harmless() {
    let long = WireLabel {
        name: "a very very long name of one wire".into(),
        lines: vec!["and a line that no label of this world could ever hold in full".into(); 9],
    };
    for (width, height) in [(10.0, 6.0), (45.0, 24.0), (4.0, 4.0), (90.0, 8.0)] {
        for fold in [Fold::Flag, Fold::Flat] {
            let grid = LabelGrid {
                cell_width_mm: width,
                cell_height_mm: height,
                fold,
                ..grid()
            };
            for sheet in label_sheets(&grid, &[long.clone(), WireLabel::default()]) {
                clear(&format!("{width} {height}"), &sheet);
            }
        }
    }
    for width in [f64::NAN, -5.0, 0.0, 1e9] {
        let grid = LabelGrid {
            cell_width_mm: width,
            ..grid()
        };
        assert!(label_sheets(&grid, &labels(3)).is_empty());
    }
    let nothing = LabelGrid {
        columns: 0,
        ..grid()
    };
    assert!(label_sheets(&nothing, &labels(3)).is_empty());
    assert!(label_sheets(&grid(), &[]).is_empty());
}

#[test]
fn same_input_same_bytes() {
    let style = Style::default();
    assert_eq!(
        line(&overview(), 700.0).svg(&style),
        line(&overview(), 700.0).svg(&style)
    );
    let card = || fuse_card(&card(), &CardOptions::default()).svg(&style);
    assert_eq!(card(), card());
    let labels = || label_sheets(&grid(), &labels(5)).pop().unwrap().svg(&style);
    assert_eq!(labels(), labels());
}

/// The first thing in a source's line is drawn nearest to the source, and the
/// first in a circuit's line nearest to the bar.
#[test]
fn what_is_in_a_line_is_drawn_in_its_order() {
    use common::overview::item;
    let two = || {
        vec![
            item(BlockKind::Fuse, "first", "Fuse", "AAA"),
            item(BlockKind::Switch, "second", "Switch", "BBB"),
        ]
    };
    let at = |drawn: &SingleLine, text: &str| find(&line(drawn, 760.0), text).rect.x;
    let feed = single_line::Feed {
        source: item(BlockKind::Battery, "battery", "Battery", ""),
        wire: "2 AWG".into(),
        through: two(),
    };
    let sources = SingleLine {
        sources: vec![feed],
        main: Vec::new(),
        bus: "Bar".into(),
        branches: Vec::new(),
    };
    assert!(
        at(&sources, "BBB") < at(&sources, "AAA"),
        "the source is at the right"
    );
    let branch = Branch {
        through: two(),
        wire: "16 AWG".into(),
        end: item(BlockKind::Load, "lamp", "Lamp", ""),
        branches: Vec::new(),
    };
    let circuits = SingleLine {
        sources: Vec::new(),
        branches: vec![branch],
        ..sources
    };
    assert!(
        at(&circuits, "AAA") < at(&circuits, "BBB"),
        "the bar is at the left"
    );
}
