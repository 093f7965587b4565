//! Stories of a better layout, and of the workings behind the numbers.

use super::{close, read};
use wainwright_analysis::result::road::{ProofOfBest, RatingKind, RoadResult};
use wainwright_analysis::road::{self, LayoutOptions, NoLayout};
use wainwright_analysis::{Ask, Working, assess, working};
use wainwright_model::{Id, Project, Spot};

/// A bare trailer with its axle 3 m behind the ball, 15 % on it, and a tank at the front wall. Empty it is right,
/// full it is far too heavy in front.
const TANK: &str = r#"
wainwright = 1
[project]
units = "metric"
region = "US"
[trailer]
inside_length = "4 m"
inside_width = "2 m"
inside_height = "1.8 m"
ball_to_front = "1 m"
ball_to_axle = "3 m"
axles = 1
track = "2 m"
floor_height = "0.5 m"
empty_mass = "500 kg"
empty_tongue = "75 kg"
empty_centre_height = "0.9 m"
[item.water]
kind = "tank"
holds = "fresh"
mass = "10 kg"
capacity = "120 L"
size = "0.6 m x 0.6 m x 0.4 m"
spot = "0 m, 0.7 m, 0 m"
[item.switch]
kind = "switch"
mass = "0.1 kg"
size = "50 mm x 50 mm x 50 mm"
spot = "0.1 m, 0 m, 1 m"
"#;

fn look(text: &str) -> (Project, RoadResult) {
    let project = read(text);
    let found = road::study(&project);
    (project, found)
}

#[test]
fn a_tank_at_the_front_is_carried_to_where_both_fills_are_right() {
    let (project, found) = look(TANK);
    let worst = found.worst.unwrap();
    assert!(found.states[worst.highest_share].share.fraction() > 0.15);
    let better = road::better_layout(&project, &found, &LayoutOptions::default()).unwrap();
    assert!(!better.kept_before && better.kept_after);
    assert_eq!(better.moves.len(), 1, "the switch is not worth the work");
    assert_eq!(better.moves[0].item.as_str(), "water");
    assert_eq!(better.proof, ProofOfBest::Best);
    assert!(
        better
            .after
            .iter()
            .all(|state| (0.10..=0.15).contains(&state.share.fraction()))
    );
    // What is offered is what the study says of the text with the spot typed in.
    let spot = (better.moves[0].item.clone(), better.moves[0].to);
    let there = road::road_with(&project, &[spot]);
    let fills: Vec<_> = there
        .fill_states()
        .map(|(_, state)| state.clone())
        .collect();
    assert_eq!(better.after, fills);
    // It still stands on the floor and in the box.
    assert!(there.outside.is_empty() && there.overlaps.is_empty());
    close(better.moves[0].to.above_floor.metres(), 0.0, 1e-9);
}

#[test]
fn what_must_stay_stays() {
    let (project, found) = look(&TANK.replace("capacity", "stays = true\ncapacity"));
    let nothing = road::better_layout(&project, &found, &LayoutOptions::default());
    assert!(matches!(nothing, Err(NoLayout::NothingMoves)));
    let (project, found) = look("wainwright = 1\n");
    let unknown = road::better_layout(&project, &found, &LayoutOptions::default());
    assert!(matches!(unknown, Err(NoLayout::TrailerNotKnown)));
    let (project, found) = look(TANK);
    let only = LayoutOptions {
        only: Some(vec![Id::new("switch").unwrap()]),
        ..LayoutOptions::default()
    };
    let switch = road::better_layout(&project, &found, &only).unwrap();
    assert!(
        switch
            .moves
            .iter()
            .all(|step| step.item.as_str() == "switch")
    );
}

#[test]
fn nothing_is_carried_before_a_door_or_into_another_thing() {
    // A wall of shelves that stays over the whole right half, a door that sweeps 0.8 m of the left one.
    let (project, found) = look(&format!(
        "{TANK}[item.shelf]\nkind = \"furniture\"\nmass = \"40 kg\"\nstays = true\nsize = \"3 m x 0.6 m x 1 m\"\n\
         spot = \"1 m, 1.4 m, 0 m\"\n[opening.door]\nwall = \"left\"\nspot = \"1.2 m, 0 m, 0 m\"\n\
         size = \"0.8 m x 0 m x 1.7 m\"\nswing = \"in\"\n"
    ));
    let better = road::better_layout(&project, &found, &LayoutOptions::default()).unwrap();
    let spots: Vec<_> = better
        .moves
        .iter()
        .map(|step| (step.item.clone(), step.to))
        .collect();
    let there = road::road_with(&project, &spots);
    assert!(there.overlaps.is_empty(), "{:?}", there.overlaps);
    assert!(there.blocked.is_empty() && better.blocked_after.is_empty());
}

#[test]
fn what_is_stacked_or_hangs_stays_and_the_rest_keeps_its_lane() {
    // A pot on a chest, a lamp of 6 kg that hangs in the middle, a box against the left wall.
    let thing = |id: &str, size: &str, spot: &str| {
        format!(
            "[item.{id}]\nkind = \"furniture\"\nmass = \"6 kg\"\nsize = \"{size}\"\nspot = \"{spot}\"\n"
        )
    };
    let (project, found) = look(&format!(
        "{TANK}{}{}{}{}",
        thing("chest", "0.5 m x 0.5 m x 0.5 m", "3.4 m, 1.3 m, 0 m"),
        thing("pot", "0.2 m x 0.2 m x 0.2 m", "3.5 m, 1.4 m, 0.5 m"),
        thing("lamp", "0.2 m x 0.2 m x 0.2 m", "3 m, 0.9 m, 1.2 m"),
        thing("box", "0.4 m x 0.4 m x 0.4 m", "3 m, 0 m, 0 m"),
    ));
    let better = road::better_layout(&project, &found, &LayoutOptions::default()).unwrap();
    assert!(better.kept_after);
    for step in &better.moves {
        let (id, from_left) = (step.item.as_str(), step.to.from_left.metres());
        assert!(["water", "box"].contains(&id), "{id} moved");
        let allowed: &[f64] = if id == "water" { &[0.7] } else { &[0.0, 1.6] };
        assert!(
            allowed.iter().any(|lane| (from_left - lane).abs() < 1e-9),
            "{id}: {from_left}"
        );
    }
}

fn last(working: &Working) -> (&str, &str) {
    let step = working.steps.last().unwrap();
    (step.symbol, step.result.as_str())
}

#[test]
fn every_number_of_the_study_has_its_working() {
    let text = format!(
        "{TANK}held = \"bolted\"\nheld_count = 2\nheld_size = \"6 mm\"\n[vehicle]\nfront_axle = \"1000 kg\"\n\
         rear_axle = \"900 kg\"\nwheelbase = \"2.5 m\"\nball_overhang = \"1 m\"\nrear_axle_rating = \"1200 kg\"\n"
    );
    let project = read(&text);
    let found = assess(&project);
    let worst = found.road.worst.unwrap();
    let ask = |ask: Ask| working(&project, &found, &ask);
    // Full: 500 + 130.1 kg; ball 75 + 130 · (1 − 1.3/3) + 0.1 · (1 − 1.125/3) = 148.73 kg; 23.6 %.
    let state = worst.highest_share;
    let share = ask(Ask::TongueShare { state }).unwrap();
    let symbols: Vec<_> = share.steps.iter().map(|step| step.symbol).collect();
    assert_eq!(symbols, ["W", "T", "s"]);
    assert_eq!(last(&share), ("s", "23.6 %"));
    assert_eq!(share.steps[1].result, "148.7 kg");
    assert!(share.steps[1].inputs.iter().any(|input| {
        input.symbol == "water" && input.value == "130 kg · (1 − 1.3 m / 3 m) = 73.67 kg"
    }));
    // 900 + 148.73 · 3.5 / 2.5 = 1108.2; 91.8 left of 1200.
    let rating = RatingKind::VehicleRearAxle;
    let margin = ask(Ask::RoadMargin { rating, state }).unwrap();
    assert_eq!(margin.steps[0].formula, "F = R0 + T · (l + o) / l");
    assert_eq!(last(&margin), ("M", "91.78 kg"));
    let damping = ask(Ask::Damping {
        state,
        planned: false,
    });
    assert_eq!(last(&damping.unwrap()).0, "ζ");
    let zone = ask(Ask::AllowedZone {
        item: "water".to_owned(),
    });
    let zone = zone.unwrap();
    let symbols: Vec<_> = zone.steps.iter().map(|step| step.symbol).collect();
    assert_eq!(symbols, ["x1", "x2", "a1", "a2"]);
    // 0.1 kg bolted twice: F 0.8 g of it.
    let held = ask(Ask::TieDown {
        item: "switch".to_owned(),
    });
    assert_eq!(last(&held.unwrap()).0, "M");
    // Numbers that do not exist have no working.
    assert_eq!(ask(Ask::TongueShare { state: 99 }), None);
    assert_eq!(
        ask(Ask::TieDown {
            item: "nobody".to_owned()
        }),
        None
    );
    let rating = RatingKind::Combination;
    assert_eq!(ask(Ask::RoadMargin { rating, state }), None);
}

/// A small generator of its own, so that the layouts are the same everywhere (Knuth's constants, memory).
struct Dice(u64);

impl Dice {
    fn share(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        #[allow(clippy::cast_precision_loss, reason = "53 bits")]
        let share = (self.0 >> 11) as f64 / (1_u64 << 53) as f64;
        share
    }
}

/// What the search minimises, without the price of moving: nothing when a limit is broken.
fn cost(found: &RoadResult, options: &LayoutOptions) -> Option<f64> {
    let band = found.aims.tongue.as_ref()?;
    let states: Vec<_> = found.fill_states().map(|(_, state)| state).collect();
    let kept = |share| band.low.value <= share && share <= band.high.value;
    let free = found.overlaps.iter().all(|overlap| overlap.stowed)
        && found.outside.iter().all(|one| one.wholly)
        && found.blocked.is_empty();
    if !free || !states.iter().all(|state| kept(state.share)) {
        return None;
    }
    let each = states.iter().map(|state| {
        state.yaw_inertia_kg_m2
            + options.for_difference * state.side_difference().abs().kilograms()
            + options.for_height * state.centre.z.metres()
    });
    #[allow(clippy::cast_precision_loss, reason = "a few states")]
    Some(each.sum::<f64>() / states.len() as f64)
}

/// Oracle: things of the example put at random into their lanes, ten thousand times.
#[test]
fn no_random_layout_of_the_example_is_better() {
    const LAYOUTS: usize = 10_000;
    let project = read(include_str!("../../../../examples/dark-sky.toml"));
    let found = road::study(&project);
    let options = LayoutOptions::default();
    let better = road::better_layout(&project, &found, &options).unwrap();
    assert!(better.kept_after);
    let own: Vec<(Id, Spot)> = better
        .moves
        .iter()
        .map(|m| (m.item.clone(), m.to))
        .collect();
    let own = cost(&road::road_with(&project, &own), &options).expect("it keeps the limits");
    let long = project.trailer.inside_length.as_ref().unwrap().value;
    let mut dice = Dice(1);
    let (mut kept, mut best) = (0, f64::INFINITY);
    for _ in 0..LAYOUTS {
        let at_random: Vec<(Id, Spot)> = better
            .moves
            .iter()
            .filter_map(|one| {
                let body = &project.items.get(one.item.as_str())?.body;
                let room = long - body.size.as_ref()?.value.along;
                let spot = Spot {
                    from_front: room * dice.share(),
                    ..body.spot.as_ref()?.value
                };
                Some((one.item.clone(), spot))
            })
            .collect();
        if let Some(cost) = cost(&road::road_with(&project, &at_random), &options) {
            kept += 1;
            best = best.min(cost);
        }
    }
    println!(
        "{kept} of {LAYOUTS} random layouts keep the limits; best {best:.1}, found {own:.1} kg m2"
    );
    assert!(own <= best, "{own} against {best}");
}
