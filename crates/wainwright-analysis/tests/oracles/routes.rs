//! Routes against slower counting: wires at sampled points of a trunk, and
//! cutting lists against every way to cut.

use super::random::Dice;
use std::fmt::Write;
use wainwright_analysis::result::{Amount, Route, Thing};
use wainwright_analysis::{assess, catalogue, takeoff};
use wainwright_model::{Project, Spot, parse};

const PROJECTS: u64 = 200;
/// Points looked at along each trunk.
const SAMPLES: usize = 400;

fn read(text: &str) -> Project {
    let parsed = parse(text, catalogue());
    assert_eq!(parsed.problems, vec![], "{text}");
    parsed.project
}

fn metres(spot: Spot) -> [f64; 3] {
    [spot.from_front, spot.from_left, spot.above_floor].map(|length| length.metres())
}

fn apart(one: [f64; 3], other: [f64; 3]) -> f64 {
    let squares = (0..3).map(|axis| (one[axis] - other[axis]).powi(2));
    squares.sum::<f64>().sqrt()
}

/// A trailer with gear and trunks anywhere in it.
fn trailer(dice: &mut Dice) -> String {
    let mut text = String::from(
        "wainwright = 1\n[trailer]\ninside_length = \"3 m\"\ninside_width = \"1.8 m\"\ninside_height = \"1.9 m\"\n",
    );
    let place = |dice: &mut Dice| {
        format!(
            "{} mm, {} mm, {} mm",
            dice.roll(3000),
            dice.roll(1800),
            dice.roll(1900)
        )
    };
    let gear = 2 + dice.roll(6);
    for item in 0..gear {
        let spot = place(dice);
        let _ = writeln!(
            text,
            "[item.g{item}]\nkind = \"load\"\npower = \"9 W\"\nspot = \"{spot}\""
        );
    }
    for trunk in 0..dice.roll(4) {
        let corners = 2 + dice.roll(3);
        let corners: Vec<String> = (0..corners)
            .map(|_| format!("\"{}\"", place(dice)))
            .collect();
        let _ = writeln!(text, "[trunk.t{trunk}]\npath = [{}]", corners.join(", "));
    }
    for wire in 0..1 + dice.roll(10) {
        let (from, to) = (dice.roll(gear), dice.roll(gear));
        let _ = writeln!(
            text,
            "[wire.w{wire}]\nfrom = \"g{from}.+\"\nto = \"g{to}.-\"\nsize = \"2.5 mm2\""
        );
    }
    text
}

/// Whether a point lies on a leg of the route in this trunk.
fn passes(route: &Route, trunk: &str, point: [f64; 3]) -> bool {
    let legs = route.legs.iter();
    let own = legs.filter(|leg| leg.trunk.as_ref().is_some_and(|id| *id == *trunk));
    let mut stretches = own.flat_map(|leg| &leg.stretches);
    stretches.any(|stretch| {
        let (from, to) = (metres(stretch.from), metres(stretch.to));
        apart(from, point) + apart(point, to) < apart(from, to) + 1e-9
    })
}

#[test]
fn bundles_agree_with_counting_at_points() {
    let mut shared = 0;
    for seed in 0..PROJECTS {
        let text = trailer(&mut Dice::new(seed));
        let found = assess(&read(&text));
        let routes = found
            .routing
            .wires
            .iter()
            .filter_map(|wire| wire.route.as_ref());
        let routes: Vec<&Route> = routes.collect();
        for trunk in &found.routing.trunks {
            let (mut most, mut filled) = (0, 0);
            for sample in 0..SAMPLES {
                #[allow(clippy::cast_precision_loss, reason = "small numbers")]
                let mut along = (sample as f64 + 0.5) / SAMPLES as f64 * trunk.length.metres();
                let stretch = trunk.stretches.iter().find(|stretch| {
                    let inside = along <= stretch.length.metres();
                    along -= if inside { 0.0 } else { stretch.length.metres() };
                    inside
                });
                let Some(stretch) = stretch else { continue };
                let (from, to) = (metres(stretch.from), metres(stretch.to));
                let share = along / stretch.length.metres();
                let point = [0, 1, 2].map(|axis| from[axis] + share * (to[axis] - from[axis]));
                let count = routes
                    .iter()
                    .filter(|route| passes(route, trunk.id.as_str(), point))
                    .count();
                most = most.max(count);
                filled += usize::from(count > 0);
            }
            let fullest = trunk
                .fullest
                .as_ref()
                .map_or(0, |fullest| fullest.loaded as usize);
            let short = trunk
                .fullest
                .as_ref()
                .is_some_and(|fullest| (fullest.to - fullest.from) / trunk.length < 2.0 / 400.0);
            assert!(
                most == fullest || (short && most < fullest),
                "{text}\n{most} {fullest}"
            );
            #[allow(clippy::cast_precision_loss, reason = "small numbers")]
            let sampled = filled as f64 / SAMPLES as f64 * trunk.length.metres();
            // Each end of each filled part is off by at most one sample.
            let slip = trunk.length.metres() / 400.0 * 2.0 * (1.0 + routes.len() as f64);
            assert!((sampled - trunk.used.metres()).abs() <= slip, "{text}");
            shared += usize::from(fullest > 1);
        }
    }
    assert!(shared > 20, "{shared} trunks held several wires");
}

#[test]
fn legs_hang_together_and_add_up() {
    for seed in 0..PROJECTS {
        let text = trailer(&mut Dice::new(seed));
        let found = assess(&read(&text));
        for wire in &found.routing.wires {
            let route = wire.route.as_ref().unwrap();
            let stretches: Vec<_> = route.legs.iter().flat_map(|leg| &leg.stretches).collect();
            for pair in stretches.windows(2) {
                assert!(
                    apart(metres(pair[0].to), metres(pair[1].from)) < 1e-9,
                    "{text}"
                );
            }
            let sum: f64 = stretches.iter().map(|s| s.length.metres()).sum();
            assert!((sum - route.bare.metres()).abs() < 1e-9, "{text}");
            if let (Some(first), Some(last)) = (stretches.first(), stretches.last()) {
                let straight = apart(metres(first.from), metres(last.to));
                assert!(route.bare.metres() + 1e-9 >= straight, "{text}");
            }
            let around: f64 = route.surroundings.iter().map(|s| s.length.metres()).sum();
            assert!((around - route.bare.metres()).abs() < 1e-9, "{text}");
            // Never further than along the three axes in the open, twice over:
            // the open counts double.
            let ends = [&wire.items.0, &wire.items.1].map(|id| {
                let at = text.find(&format!("[item.{id}]")).unwrap();
                let spot = text[at..].split("spot = \"").nth(1).unwrap();
                metres(Spot::parse(spot.split('"').next().unwrap()).unwrap())
            });
            let axes: f64 = (0..3)
                .map(|axis| (ends[0][axis] - ends[1][axis]).abs())
                .sum();
            assert!(route.bare.metres() <= 2.0 * axes + 1e-9, "{text}");
        }
    }
}

/// The longest sum of cuts that fits into the pieces, by trying everything.
fn best(cuts: &[f64], pieces: &mut [f64]) -> f64 {
    let Some((first, rest)) = cuts.split_first() else {
        return 0.0;
    };
    let mut most = best(rest, pieces);
    for piece in 0..pieces.len() {
        if pieces[piece] + 1e-9 >= *first {
            pieces[piece] -= first;
            most = most.max(first + best(rest, pieces));
            pieces[piece] += first;
        }
    }
    most
}

#[test]
fn proven_cutting_lists_use_as_much_as_any() {
    let (mut proven, mut used_some) = (0, 0);
    for seed in 0..200 {
        let mut dice = Dice::new(seed);
        let mut text = String::from(
            "wainwright = 1\n[item.a]\nkind = \"load\"\npower = \"1 W\"\n[item.b]\nkind = \"load\"\npower = \"1 W\"\n",
        );
        let cuts: Vec<f64> = (0..1 + dice.roll(6))
            .map(|_| 0.3 + dice.roll(40) as f64 / 10.0)
            .collect();
        let mut pieces: Vec<f64> = (0..dice.roll(3))
            .map(|_| 0.5 + dice.roll(60) as f64 / 10.0)
            .collect();
        for (index, cut) in cuts.iter().enumerate() {
            let _ = writeln!(
                text,
                "[wire.w{index}]\nfrom = \"a.+\"\nto = \"b.+\"\nsize = \"2.5 mm2\"\nlength = \"{cut:.1} m\""
            );
        }
        for (index, piece) in pieces.iter().enumerate() {
            let _ = writeln!(
                text,
                "[stock.s{index}]\nof = \"wire\"\nsize = \"2.5 mm2\"\nlength = \"{piece:.1} m\""
            );
        }
        let project = read(&text);
        let found = takeoff(&project, &assess(&project));
        let is_wire =
            |line: &&wainwright_analysis::result::Line| matches!(line.thing, Thing::Wire { .. });
        let line = found.lines.iter().find(is_wire).unwrap();
        let list = line.cuts.as_ref().unwrap();
        let mut made: Vec<String> = list.rest.iter().map(|cut| cut.wire.to_string()).collect();
        for piece in &list.pieces {
            let sum: f64 = piece.cuts.iter().map(|cut| cut.length.metres()).sum();
            assert!(sum <= piece.length.metres() + 1e-9, "{text}");
            assert!((piece.left.metres() + sum - piece.length.metres()).abs() < 1e-9);
            made.extend(piece.cuts.iter().map(|cut| cut.wire.to_string()));
        }
        made.sort();
        assert_eq!(
            made,
            (0..cuts.len()).map(|i| format!("w{i}")).collect::<Vec<_>>()
        );
        let Amount::Length(owned) = line.owned else {
            panic!("{text}")
        };
        let most = best(&cuts, &mut pieces);
        assert!(owned.metres() <= most + 1e-9, "{text}");
        if list.proven {
            proven += 1;
            assert!((owned.metres() - most).abs() < 1e-9, "{text}");
        }
        used_some += usize::from(owned.metres() > 0.0);
    }
    assert!(proven > 50 && used_some > 50, "{proven} {used_some}");
}
