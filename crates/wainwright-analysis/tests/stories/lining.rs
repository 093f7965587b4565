//! Stories of the lining: a project in, surfaces, pieces, cutting plans and buying lines out. Expected figures are
//! worked out by hand from sizes and densities.

use super::read;
use std::collections::BTreeSet;
use wainwright_analysis::lining::{inputs, masses, study};
use wainwright_analysis::result::lining::{JobPlan, LiningResult, LiningWanted, PieceMark};
use wainwright_analysis::result::{Amount, Thing};
use wainwright_analysis::road;
use wainwright_model::Side;

const DEMO: &str = include_str!("../../../../examples/dark-sky.toml");
const METRIC: &str = include_str!("../../../../examples/dark-sky-metric.toml");

/// A box of 8 ft x 6 ft with ribs every 16 in, planks on its left wall and foam between the ribs.
const SMALL: &str = r#"
wainwright = 1
[project]
units = "us"
[trailer]
inside_length = "96 in"
inside_width = "72 in"
inside_height = "74 in"
rib_spacing = "16 in"
first_rib = "0 in"
rib_width = "1-1/2 in"
rib_depth = "1-1/2 in"
[tools]
can_rip = true
kerf = "1/8 in"
keep_from = "12 in"
[layer.planks]
on = ["left"]
order = 2
of = "planks"
material = "spruce"
thickness = "1/2 in"
width = "5-1/8 in"
gap = "0 in"
longest = "96 in"
narrowest = "2-1/2 in"
stagger = "12 in"
[stock.planks-8]
of = "plank"
material = "spruce"
length = "96 in"
width = "5-1/8 in"
thickness = "1/2 in"
price = 7.5
"#;

fn found(text: &str) -> LiningResult {
    study(&inputs(&read(text)))
}

/// Every demo, and small boxes with sheets and foam.
fn cases() -> Vec<(String, LiningResult)> {
    let mut texts = vec![DEMO.to_owned(), METRIC.to_owned(), SMALL.to_owned()];
    texts.push(SMALL.to_owned() + SHEETS + FOAM);
    texts.push(DEMO.replace("can_rip = false", "can_rip = true"));
    texts.push(METRIC.replace("done = [\"left\", \"right\", \"front\", \"rear\"]", ""));
    texts
        .into_iter()
        .map(|text| (text.clone(), found(&text)))
        .collect()
}

const SHEETS: &str = r#"
[layer.floor]
on = ["floor"]
order = 1
of = "sheets"
material = "plywood"
thickness = "1/2 in"
width = "48 in"
length = "96 in"
gap = "0 in"
[stock.ply]
of = "sheet"
material = "plywood"
length = "96 in"
width = "48 in"
thickness = "1/2 in"
price = 40
"#;

const FOAM: &str = r#"
[layer.foam]
on = ["left", "right"]
order = 1
of = "foam"
material = "xps"
thickness = "1-1/2 in"
width = "48 in"
length = "96 in"
gap = "0 in"
done = ["right"]
[stock.foam]
of = "foam"
material = "xps"
length = "96 in"
width = "48 in"
thickness = "1-1/2 in"
price = 25
"#;

#[test]
fn a_wall_of_one_plank_length_takes_one_plank_for_each_run() {
    let found = found(SMALL);
    // 74 in / 5-1/8 in = 14.4: fifteen runs of 96 in, one plank each, 15 x 7.50.
    let wall = found.surface(Side::Left).unwrap();
    assert_eq!(wall.layers[0].courses, 15);
    assert_eq!(wall.layers[0].pieces.len(), 15);
    let JobPlan::Bars(plan) = &found.jobs[0].plan else {
        panic!("no plan");
    };
    assert_eq!((plan.bars.len(), plan.proven), (15, true));
    assert!((plan.cost.unwrap() - 112.5).abs() < 1e-9);
    assert!(plan.kept.is_empty());
    // Spruce: 96 in x 74 in x 1/2 in at 445 kg/m3.
    let kilograms = 96.0 * 74.0 * 0.5 * 0.0254_f64.powi(3) * 445.0;
    let mass = wall.layers[0].mass.unwrap().kilograms();
    assert!((mass - kilograms).abs() < 1e-6, "{mass} {kilograms}");
}

#[test]
fn a_floor_of_two_rows_is_cut_from_two_sheets_without_waste_worth_more() {
    let found = found(&(SMALL.to_owned() + SHEETS));
    // 96 in x 72 in: one whole sheet and half of a second one. No plan can do with one.
    let job = found.jobs.iter().find(|job| job.width.is_none()).unwrap();
    let JobPlan::Sheets(plan) = &job.plan else {
        panic!("{:?}", job.plan);
    };
    assert_eq!((plan.sheets.len(), plan.proven), (2, true));
    assert!(plan.missing.is_empty());
    assert!((plan.cost.unwrap() - 80.0).abs() < 1e-9);
    let area = 96.0 * 72.0 * 0.0254_f64.powi(2);
    assert!((plan.pieces.square_metres() - area).abs() < 1e-9);
}

#[test]
fn a_strip_that_no_saw_at_hand_can_rip_is_planned_and_told() {
    let text = (SMALL.to_owned() + SHEETS).replace("can_rip = true", "can_rip = false");
    let found = found(&text);
    let job = found.jobs.iter().find(|job| job.width.is_none()).unwrap();
    let JobPlan::Sheets(plan) = &job.plan else {
        panic!("{:?}", job.plan);
    };
    // The second row is 24 in wide: one cut along the grain of a sheet.
    assert_eq!((plan.sheets.len(), plan.missing.len()), (2, 0));
    assert!(!job.can_rip && job.rips == 1, "{}", job.rips);
}

#[test]
fn foam_fills_what_the_ribs_leave_on_the_side_that_is_open() {
    let found = found(&(SMALL.to_owned() + FOAM));
    let left = found.surface(Side::Left).unwrap();
    let foam = &left.layers[0];
    // Ribs at 0, 16 .. 96 in: six bays, the two at the ends of the wall reach to half a rib.
    assert_eq!(foam.pieces.len(), 6);
    let net = (96.0 - 6.0 * 1.5) * 74.0 * 0.0254_f64.powi(2);
    let areas = foam.areas.unwrap();
    assert!((areas.pieces.square_metres() - net).abs() < 1e-9);
    let right = &found.surface(Side::Right).unwrap().layers[0];
    assert!(right.done && right.job.is_none());
    let job = &found.jobs[foam.job.unwrap()];
    assert_eq!(job.pieces, 6);
}

#[test]
fn pieces_cuts_ends_and_offcut_make_up_every_board() {
    for (_, found) in cases() {
        for job in &found.jobs {
            let JobPlan::Bars(plan) = &job.plan else {
                continue;
            };
            for bar in &plan.bars {
                let pieces: f64 = bar.pieces.iter().map(|(_, long)| long.metres()).sum();
                let rest = bar.kerf.metres() + bar.trim.metres() + bar.offcut.metres();
                let apart = pieces + rest - bar.length.metres();
                assert!(apart.abs() < 1e-9, "{apart} {bar:?}");
                // Between n pieces are n - 1 cuts, and one more frees the offcut.
                let cuts = bar.kerf.metres() / job.kerf.metres();
                assert!(cuts <= bar.pieces.len() as f64 + 0.5, "{bar:?}");
            }
            let taken: f64 = plan.bars.iter().map(|bar| bar.length.metres()).sum();
            let kept: f64 = plan.kept.iter().map(|one| one.metres()).sum();
            let all = plan.pieces.metres() + plan.lost.metres() + plan.waste.metres() + kept;
            assert!((taken - all).abs() < 1e-9 && (taken - plan.taken.metres()).abs() < 1e-9);
        }
    }
}

/// Grid of the cutting plans of a project [m].
fn step(text: &str) -> f64 {
    if text.contains("units = \"us\"") {
        0.0254 / 32.0
    } else {
        0.0005
    }
}

#[test]
fn pieces_dust_and_offcuts_fit_every_sheet() {
    let mut sheets = 0;
    for (text, found) in cases() {
        let step = step(&text);
        for job in &found.jobs {
            let JobPlan::Sheets(plan) = &job.plan else {
                continue;
            };
            for sheet in &plan.sheets {
                sheets += 1;
                let whole = sheet.width.metres() * sheet.height.metres();
                let pieces = sheet.pieces.iter().map(|piece| piece.place.area());
                let rests = sheet.offcuts.iter().map(|rest| rest.area());
                let used: f64 = pieces.chain(rests).map(|area| area.square_metres()).sum();
                let lengths: f64 = sheet.cuts.iter().map(|cut| cut.length.metres()).sum();
                let dust = whole - used;
                // The saw cut is rounded up to the grid of the plan.
                let most = lengths * (job.kerf.metres() / step - 1e-6).ceil() * step;
                assert!((-1e-9..=most + 1e-9).contains(&dust), "{dust} {most}");
            }
        }
    }
    assert!(sheets > 4, "{sheets}");
}

#[test]
fn numbers_on_the_plans_are_those_on_the_surfaces_and_none_twice() {
    for (_, found) in cases() {
        let mut planned: Vec<PieceMark> = Vec::new();
        for job in &found.jobs {
            planned.extend(job.marks());
            if let JobPlan::Sheets(plan) = &job.plan {
                planned.extend(&plan.missing);
            }
        }
        let open = found.layers().filter(|(_, layer)| !layer.done);
        let laid: Vec<PieceMark> = open
            .flat_map(|(_, layer)| layer.pieces.iter().map(|piece| piece.mark))
            .collect();
        let set: BTreeSet<PieceMark> = laid.iter().copied().collect();
        assert_eq!(set.len(), laid.len());
        assert_eq!(planned.len(), laid.len());
        assert_eq!(planned.into_iter().collect::<BTreeSet<_>>(), set);
        let texts: BTreeSet<String> = laid.iter().map(ToString::to_string).collect();
        assert_eq!(texts.len(), laid.len());
    }
}

#[test]
fn each_piece_on_a_plan_is_as_long_as_on_its_surface() {
    for (text, found) in cases() {
        let step = step(&text);
        for job in &found.jobs {
            if let JobPlan::Bars(plan) = &job.plan {
                for (mark, length) in plan.bars.iter().flat_map(|bar| &bar.pieces) {
                    let own = found.piece(*mark).unwrap().length.metres();
                    let over = length.metres() - own;
                    assert!((-1e-8..step).contains(&over), "{mark} {over}");
                }
            }
        }
    }
}

#[test]
fn a_side_that_is_done_is_laid_and_not_cut() {
    let found = found(DEMO);
    let job = found.jobs.iter().find(|job| job.width.is_some()).unwrap();
    let sides: BTreeSet<Side> = job.marks().iter().map(|mark| mark.side).collect();
    assert_eq!(sides, BTreeSet::from([Side::Right, Side::Roof]));
    let left = found.surface(Side::Left).unwrap();
    let planks = left
        .layers
        .iter()
        .find(|layer| layer.layer.as_str() == "wall-planks");
    assert!(planks.is_some_and(|layer| layer.done && !layer.pieces.is_empty()));
    let done = DEMO.replace(
        "stagger = \"12 in\"\ndone = [\"left\", \"front\"]",
        "stagger = \"12 in\"\ndone = [\"left\", \"front\", \"right\"]",
    );
    assert_ne!(done, DEMO);
    let less = self::found(&done);
    let job = less.jobs.iter().find(|job| job.width.is_some()).unwrap();
    assert!(job.marks().iter().all(|mark| mark.side == Side::Roof));
    let roof = found.surface(Side::Roof).unwrap();
    assert_eq!(job.pieces, roof.layers.last().unwrap().pieces.len());
}

#[test]
fn layers_to_come_weigh_on_the_road_what_area_thickness_and_density_say() {
    let project = read(DEMO);
    // Planks of spruce, 3/8 in, 445 kg/m3, an eighth of an inch left at edges and openings.
    let kilograms = |square_inches: f64| square_inches * 0.375 * 0.0254_f64.powi(3) * 445.0;
    let right = kilograms(143.75 * 74.75 - 32.25 * 66.0);
    let roof = kilograms(143.75 * 71.75 - 14.25 * 14.25);
    let found = masses(&project);
    let sum: f64 = found.iter().map(|layer| layer.mass.kilograms()).sum();
    assert!((sum - right - roof).abs() < 1e-9, "{sum} {right} {roof}");
    let bare = read(&without_layers(DEMO));
    let (with, without) = (road::study(&project), road::study(&bare));
    for (one, other) in with.states.iter().zip(&without.states) {
        let added = one.mass.kilograms() - other.mass.kilograms();
        let fill = one.kind == wainwright_analysis::result::road::RoadStateKind::Fills;
        let expected = if fill { right + roof } else { 0.0 };
        assert!(
            (added - expected).abs() < 1e-9,
            "{added} {expected} {:?}",
            one.kind
        );
    }
    // The lining study weighs the same pieces.
    let laid = study(&inputs(&project)).mass_to_come.kilograms();
    assert!((laid - sum).abs() < 1e-6, "{laid} {sum}");
}

/// The text without its layers.
fn without_layers(text: &str) -> String {
    let mut kept = String::new();
    let mut inside = false;
    for line in text.lines() {
        if line.starts_with('[') {
            inside = line.starts_with("[layer.");
        }
        if !inside {
            kept.push_str(line);
            kept.push('\n');
        }
    }
    kept
}

#[test]
fn what_is_bought_is_the_plan_less_the_shed_with_spares() {
    let project = read(DEMO);
    let takeoff = wainwright_analysis::takeoff(&project, &wainwright_analysis::assess(&project));
    let lumber = |feet: f64| {
        let line = takeoff.lines.iter().find(|line| {
            matches!(&line.thing, Thing::Plank { length, .. } if (length.feet() - feet).abs() < 1e-9)
        });
        line.unwrap()
    };
    // Four 8 ft planks lie in the shed: they are used before any is bought.
    let short = lumber(8.0);
    assert_eq!(short.owned, Amount::Pieces(4));
    assert_eq!(short.aisle.as_deref(), Some("lumber"));
    let long = lumber(12.0);
    let (Amount::Pieces(needed), Amount::Pieces(more), Amount::Pieces(buy)) =
        (long.needed, long.more, long.buy)
    else {
        panic!("{long:?}");
    };
    assert_eq!(buy, needed + more);
    assert!((long.cost.unwrap() - 10.9 * f64::from(buy)).abs() < 1e-9);
    let found = study(&inputs(&project));
    let screws = takeoff
        .lines
        .iter()
        .find(|line| line.thing == Thing::LiningScrew);
    let count = u32::try_from(found.supplies.fasteners).unwrap();
    assert_eq!(screws.unwrap().needed, Amount::Pieces(count));
    let sum: f64 = takeoff.lines.iter().filter_map(|line| line.cost).sum();
    assert!((sum - takeoff.cost).abs() < 1e-6);
}

#[test]
fn enough_spares_make_running_short_unlikely_and_perfect_planks_have_no_odds() {
    let found = found(DEMO);
    let short = found
        .jobs
        .iter()
        .find_map(|job| job.short.as_ref())
        .unwrap();
    let (spares, with) = short.spares.unwrap();
    assert!(spares > 0 && with < short.accepted && with < short.share);
    let perfect = self::found(SMALL);
    assert!(perfect.jobs.iter().all(|job| job.short.is_none()));
}

#[test]
fn an_answer_holds_until_something_it_rests_on_changes() {
    let before = inputs(&read(DEMO));
    assert_eq!(before, inputs(&read(&format!("# one line more\n{DEMO}"))));
    let other = DEMO.replace("price = 10.9", "price = 11.9");
    assert_ne!(before, inputs(&read(&other)));
}

#[test]
fn an_unknown_material_is_told_and_has_no_mass() {
    let found = found(&SMALL.replace("spruce", "moonwood"));
    let path = ["layer", "planks", "material"].map(str::to_owned).to_vec();
    let told = found
        .missing
        .iter()
        .any(|missing| missing.path == path && missing.wanted == LiningWanted::KnownMaterial);
    assert!(told, "{:?}", found.missing);
    let layer = &found.surface(Side::Left).unwrap().layers[0];
    assert!(layer.mass.is_none() && layer.pieces.len() == 15);
}
