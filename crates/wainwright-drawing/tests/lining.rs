//! What must hold on every lined surface and cutting plan: texts apart and on the sheet, true to scale, the right way
//! round, nothing of a plan left out on paper.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod common;

use common::reader::{Element, attribute, check, read};
use common::{Dice, clear};
use wainwright_drawing::cutting::{
    Bar, BarPiece, CutSheet, SheetCut, SheetPiece, bar_pages, bars, cut_sheet, sheet_pages,
};
use wainwright_drawing::lining::{Box2, Gap, Lined, Measure, Options, Piece, surface};
use wainwright_drawing::sheet::{Paper, Sheet};
use wainwright_drawing::{Picture, Style};

const ODD: [f64; 6] = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, 0.0, 1e300];

fn share(dice: &mut Dice) -> f64 {
    dice.below(1001) as f64 / 1000.0
}

/// Any rectangles, some beyond the surface, some without a size.
fn anywhere(dice: &mut Dice, width: f64, height: f64) -> Box2 {
    let at = |dice: &mut Dice, size: f64| (share(dice) * 1.3 - 0.15) * size;
    let size = |dice: &mut Dice, size: f64| share(dice).powi(3) * size;
    Box2::new(
        at(dice, width),
        at(dice, height),
        size(dice, width),
        size(dice, height),
    )
}

/// A surface without any sense.
fn senseless(seed: u64) -> Lined {
    let mut dice = Dice::new(seed);
    let (width_m, height_m) = (0.2 + 8.0 * share(&mut dice), 0.2 + 3.0 * share(&mut dice));
    let pieces = (0..dice.below(120)).map(|number| Piece {
        id: format!("R3-{number}"),
        number: number.to_string(),
        place: anywhere(&mut dice, width_m, height_m),
        cuts: (0..dice.below(3))
            .map(|_| anywhere(&mut dice, width_m, height_m))
            .collect(),
        words: format!("piece {number} <&>"),
        selected: dice.chance(3),
    });
    let pieces = pieces.collect();
    let mut rows = |most: f64| -> Vec<Vec<Measure>> {
        let rows = (0..dice.below(4)).map(|_| {
            let mut at = 0.0;
            let row = (0..dice.below(6)).map(|_| {
                let from_m = at;
                at = (at + share(&mut dice) * most).min(most);
                Measure {
                    from_m,
                    to_m: at,
                    text: ["7' 2-3/16\"", "1940 mm", "", "a rather long text"][dice.below(4)]
                        .into(),
                }
            });
            row.collect()
        });
        rows.collect()
    };
    let (across, up) = (rows(width_m), rows(height_m));
    Lined {
        width_m,
        height_m,
        mirrored: dice.chance(50),
        ribs: (0..dice.below(12))
            .map(|_| anywhere(&mut dice, width_m, height_m))
            .collect(),
        openings: (0..dice.below(6))
            .map(|number| Gap {
                place: anywhere(&mut dice, width_m, height_m),
                round: dice.chance(40),
                name: format!("Opening number {number}"),
            })
            .collect(),
        pieces,
        joints: vec![[(share(&mut dice), 0.0), (1.0, share(&mut dice))]],
        ripped: vec![[(0.0, 0.0), (width_m, 0.0)]],
        left_out: vec![anywhere(&mut dice, width_m, height_m)],
        done: dice.chance(30),
        caption: "Wall planks with a long name, in already on this side".into(),
        ends: ["front".into(), "rear".into()],
        across,
        up,
    }
}

/// A wall of planks, as they are laid.
fn planked(mirrored: bool) -> Lined {
    let mut lined = Lined {
        width_m: 3.6,
        height_m: 1.9,
        mirrored,
        ends: ["front".into(), "rear".into()],
        ..Lined::default()
    };
    for run in 0..15 {
        for half in 0..2 {
            let number = 2 * run + half + 1;
            lined.pieces.push(Piece {
                id: format!("R3-{number}"),
                number: number.to_string(),
                place: Box2::new(1.8 * half as f64, 0.125 * run as f64, 1.8, 0.125),
                ..Piece::default()
            });
        }
    }
    lined
}

fn elements(picture: &Picture) -> Vec<Element> {
    check(&picture.svg(&Style::default()))
}

fn options(width: f64, height: f64) -> Options {
    Options {
        width,
        height,
        id_prefix: "w-".into(),
    }
}

fn paper(paper: Paper) -> Sheet {
    Sheet {
        paper,
        landscape: false,
        title: "Cutting".into(),
        subtitle: "A trailer".into(),
        number_text: "Sheet 1 of 1".into(),
        date_text: String::new(),
        note: String::new(),
    }
}

fn any_bars(seed: u64) -> Vec<Bar> {
    let mut dice = Dice::new(seed);
    let bars = (0..1 + dice.below(20)).map(|number| {
        let length_m = 0.5 + 4.0 * share(&mut dice);
        let mut left = length_m;
        let mut pieces = Vec::new();
        for piece in 0..dice.below(12) {
            let length_m = left * share(&mut dice) * 0.6;
            left -= length_m;
            pieces.push(BarPiece {
                mark: format!("R3-{}", 20 * number + piece),
                text: format!("{:.0} mm", length_m * 1000.0),
                length_m,
            });
        }
        Bar {
            head: format!("Board {number}: 12' from the shop"),
            note: "left over 1' 2-3/16\", keep it".into(),
            length_m,
            trim_m: 0.02,
            kerf_m: 0.003,
            pieces,
            offcut_m: left * share(&mut dice),
            offcut: "1' 2-3/16\"".into(),
            keep: dice.chance(50),
            words: "a board".into(),
        }
    });
    bars.collect()
}

fn any_sheet(seed: u64) -> CutSheet {
    let mut dice = Dice::new(seed);
    let (width_m, height_m) = (0.3 + 2.5 * share(&mut dice), 0.3 + 1.5 * share(&mut dice));
    CutSheet {
        head: format!("Sheet {seed}: 8' by 4' from the shop"),
        width_m,
        height_m,
        kerf_m: 0.003,
        pieces: (0..dice.below(40))
            .map(|number| SheetPiece {
                mark: format!("L2-{number}"),
                text: "14-3/8\" × 46\"".into(),
                place: anywhere(&mut dice, width_m, height_m),
            })
            .collect(),
        offcuts: (0..dice.below(5))
            .map(|_| anywhere(&mut dice, width_m, height_m))
            .collect(),
        cuts: (0..dice.below(40))
            .map(|number| SheetCut {
                of: anywhere(&mut dice, width_m, height_m),
                upright: dice.chance(50),
                setting_m: share(&mut dice) * width_m,
                words: format!("Part {number}: cut across it, fence at 14-3/8\", and keep both parts for later."),
            })
            .collect(),
        sizes: ["8'".into(), "4'".into()],
        words: "a sheet".into(),
    }
}

#[test]
fn texts_of_senseless_surfaces_are_clear() {
    for seed in 0..300 {
        let (width, height) = [(350.0, 420.0), (880.0, 470.0), (1160.0, 900.0)][seed as usize % 3];
        let picture = surface(&senseless(seed), &options(width, height));
        clear(&format!("seed {seed}"), &picture);
        elements(&picture);
        assert!(
            picture.width <= width + 1e-9,
            "seed {seed}: {}",
            picture.width
        );
    }
}

#[test]
fn every_plank_of_a_wall_has_its_number_on_a_phone_too() {
    for width in [350.0, 880.0] {
        let picture = surface(&planked(false), &options(width, 470.0));
        clear("planked", &picture);
        for number in 1..=30 {
            let number = number.to_string();
            let count = picture
                .texts
                .iter()
                .filter(|text| text.text == number)
                .count();
            assert_eq!(count, 1, "{number} at {width}");
        }
    }
}

#[test]
fn a_surface_is_true_to_scale_and_the_right_way_round() {
    for mirrored in [false, true] {
        let elements = elements(&surface(&planked(mirrored), &options(880.0, 470.0)));
        let mm: f64 = attribute(&elements[0], "data-mm-per-unit")
            .unwrap()
            .parse()
            .unwrap();
        let body = |id: &str| {
            let at = elements
                .iter()
                .position(|e| attribute(e, "data-id") == Some(id))
                .unwrap();
            let is_body = |e: &&Element| attribute(e, "class") == Some("body");
            let body = elements[at..].iter().find(is_body).unwrap();
            ["x", "y", "width", "height"]
                .map(|key| attribute(body, key).unwrap().parse::<f64>().unwrap())
        };
        let (first, second, last) = (body("R3-1"), body("R3-2"), body("R3-30"));
        // Every number is rounded to a tenth of a unit.
        assert!((first[2] * mm - 1800.0).abs() <= 0.06 * mm, "{first:?}");
        assert!((first[3] * mm - 125.0).abs() <= 0.06 * mm, "{first:?}");
        assert_eq!(first[0] < second[0], !mirrored);
        assert!(last[1] < first[1], "the last run is on top");
    }
}

#[test]
fn unfinished_surfaces_and_plans_are_drawn() {
    for odd in ODD {
        let mut lined = planked(false);
        lined.pieces[0].place.x_m = odd;
        lined.pieces[1].place.width_m = odd;
        lined.openings.push(Gap {
            place: Box2::new(odd, 0.2, 0.3, odd),
            round: true,
            name: "Vent".into(),
        });
        lined.ripped.push([(odd, 0.0), (0.0, odd)]);
        lined.across = vec![vec![Measure {
            from_m: odd,
            to_m: 1.0,
            text: "1 m".into(),
        }]];
        clear("odd surface", &surface(&lined, &options(odd, 400.0)));
        lined.width_m = odd;
        let picture = surface(&lined, &options(400.0, odd));
        clear("odd size", &picture);
        elements(&picture);
        let mut boards = any_bars(3);
        boards[0].length_m = odd;
        boards[0].offcut_m = odd;
        if let Some(piece) = boards.iter_mut().flat_map(|bar| &mut bar.pieces).next() {
            piece.length_m = odd;
        }
        elements(&bars(&boards, odd));
        let mut sheet = any_sheet(7);
        sheet.kerf_m = odd;
        elements(&cut_sheet(&sheet, 400.0, 300.0));
        sheet.width_m = odd;
        elements(&cut_sheet(&sheet, odd, odd));
    }
}

#[test]
fn texts_of_any_boards_are_clear_and_every_board_is_named() {
    for seed in 0..100 {
        for width in [350.0, 900.0] {
            let boards = any_bars(seed);
            let picture = bars(&boards, width);
            clear(&format!("seed {seed}"), &picture);
            elements(&picture);
            for bar in &boards {
                assert!(
                    picture.texts.iter().any(|text| text.text == bar.head),
                    "{}",
                    bar.head
                );
            }
        }
    }
}

#[test]
fn pieces_of_a_board_are_true_to_scale_with_saw_cuts_between() {
    let piece = |mark: &str, length_m: f64| BarPiece {
        mark: mark.into(),
        text: String::new(),
        length_m,
    };
    let board = Bar {
        length_m: 2.4,
        trim_m: 0.02,
        kerf_m: 0.1,
        pieces: vec![piece("a", 1.2), piece("b", 0.5)],
        offcut_m: 0.48,
        ..Bar::default()
    };
    let elements = elements(&bars(&[board], 492.0));
    let of = |class: &str| -> Vec<[f64; 2]> {
        let with = elements
            .iter()
            .filter(|e| attribute(e, "class") == Some(class));
        with.map(|e| ["x", "width"].map(|key| attribute(e, key).unwrap().parse().unwrap()))
            .collect()
    };
    // 480 px for 2.4 m: 200 px for a metre, from 6 px on; 1 cm is squared off at either end.
    assert_eq!(of("cut-piece"), [[8.0, 240.0], [268.0, 100.0]]);
    assert_eq!(of("offcut"), [[388.0, 96.0]]);
}

#[test]
fn texts_of_any_sheets_are_clear() {
    for seed in 0..150 {
        for (width, height) in [(350.0, 400.0), (900.0, 520.0)] {
            let picture = cut_sheet(&any_sheet(seed), width, height);
            clear(&format!("seed {seed} {width}"), &picture);
            elements(&picture);
            assert!(picture.width <= width + 1e-9 && picture.height <= height + 1e-9);
        }
    }
}

#[test]
fn every_cut_of_a_usual_sheet_has_its_number_even_at_its_very_edge() {
    // A sheet of 2.44 m by 1.22 m: two trims of 3 mm, then strips of 200 mm, each cut once across.
    let cut = |of: Box2, upright: bool, setting_m: f64| SheetCut {
        of,
        upright,
        setting_m,
        words: String::new(),
    };
    let mut cuts = vec![
        cut(Box2::new(0.0, 0.0, 2.44, 1.22), true, 2.434),
        cut(Box2::new(0.0, 0.0, 2.434, 1.22), false, 1.214),
    ];
    for strip in 0..5 {
        let low = 0.203 * strip as f64;
        cuts.push(cut(Box2::new(0.0, low, 2.434, 1.214 - low), false, 0.2));
        cuts.push(cut(Box2::new(0.0, low, 2.434, 0.2), true, 1.7));
    }
    let many = cuts.len();
    let sheet = CutSheet {
        width_m: 2.44,
        height_m: 1.22,
        kerf_m: 0.003,
        cuts,
        ..CutSheet::default()
    };
    for (width, height) in [(346.0, 420.0), (620.0, 420.0)] {
        let picture = cut_sheet(&sheet, width, height);
        clear("usual sheet", &picture);
        for number in 1..=many {
            let number = number.to_string();
            let count = picture
                .texts
                .iter()
                .filter(|text| text.text == number)
                .count();
            assert_eq!(count, 1, "{number} at {width}");
        }
    }
}

#[test]
fn nothing_of_a_plan_is_left_out_on_paper() {
    for seed in 0..40 {
        for kind in [Paper::Letter, Paper::A4] {
            let boards = any_bars(seed);
            let pages = bar_pages(
                &paper(kind),
                &boards,
                &["Wear eye and ear protection.".into()],
            );
            let said: String = pages.iter().map(said).collect::<Vec<_>>().join(" ");
            for piece in boards.iter().flat_map(|bar| &bar.pieces) {
                assert!(
                    said.contains(&piece.mark) && said.contains(&piece.text),
                    "{piece:?}"
                );
            }
            let cut = any_sheet(seed);
            let pages_of_sheet = sheet_pages(&paper(kind), std::slice::from_ref(&cut), &[]);
            let said: String = pages_of_sheet
                .iter()
                .map(self::said)
                .collect::<Vec<_>>()
                .join(" ");
            for piece in &cut.pieces {
                assert!(said.contains(&piece.mark), "{piece:?}");
            }
            for number in 0..cut.cuts.len() {
                assert!(said.contains(&format!("Part {number}:")), "cut {number}");
            }
            for (number, page) in pages.iter().chain(&pages_of_sheet).enumerate() {
                clear(&format!("seed {seed} page {number}"), page);
                elements(page);
            }
        }
    }
}

fn said(picture: &Picture) -> String {
    read(&picture.svg(&Style::default())).1
}

#[test]
fn same_surface_same_bytes() {
    for seed in 0..20 {
        let text = || surface(&senseless(seed), &options(700.0, 500.0)).svg(&Style::default());
        assert_eq!(text(), text());
    }
}
