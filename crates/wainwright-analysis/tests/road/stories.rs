//! Stories: project text in, results out. Expected figures are worked out by hand beside each.

use super::proofs::SMALL;
use super::{close, read, state, study};
use wainwright_analysis::result::road::{
    Level, RatingKind, RoadResult, RoadStateKind, RoadWanted, SharePlace,
};
use wainwright_analysis::road::{self, fuel_compared};
use wainwright_model::{Id, Spot, TongueAdvice};
use wainwright_units::Length;

/// A European trailer of 500 kg with 40 kg on the ball, its axle 3 m behind the ball; a chest of 100 kg right over
/// the axle: T 40, W 600, A 560.
const METRIC: &str = r#"
wainwright = 1
[project]
units = "metric"
region = "EU"
[trailer]
inside_length = "3 m"
inside_width = "1.5 m"
inside_height = "1.4 m"
ball_to_front = "1.2 m"
ball_to_axle = "3 m"
axles = 1
track = "1.5 m"
floor_height = "0.5 m"
wheel_radius = "0.3 m"
coupling_height = "0.4 m"
rear_clearance = "0.4 m"
empty_mass = "500 kg"
empty_tongue = "40 kg"
empty_centre_height = "0.8 m"
gross_rating = "750 kg"
axle_rating = "600 kg"
tyre_rating = "308 kg"
passenger_tyres = true
coupling_tongue_rating = "75 kg"
cargo_rating = "120 kg"
brakes = true
[vehicle]
front_axle = "1000 kg"
rear_axle = "900 kg"
wheelbase = "2.5 m"
ball_overhang = "1 m"
ball_height = "0.4 m"
gross_rating = "2000 kg"
rear_axle_rating = "1000 kg"
tow_rating = "700 kg"
combination_rating = "2600 kg"
frontal_area = "2.5 m2"
[towing]
speed = "90 km/h"
[item.chest]
kind = "furniture"
mass = "100 kg"
size = "1 m x 0.5 m x 0.4 m"
spot = "1.3 m, 0.5 m, 0 m"
"#;

fn left(found: &RoadResult, kind: RatingKind) -> f64 {
    found.tightest(kind).unwrap().1.left.kilograms()
}

#[test]
fn a_european_trailer_has_the_margins_worked_out_by_hand() {
    let found = study(METRIC);
    assert!(found.begun);
    let laden = state(&found, &[]);
    close(laden.tongue.kilograms(), 40.0, 1e-9);
    close(laden.share.fraction(), 40.0 / 600.0, 1e-12);
    assert_eq!(laden.share_place, Some(SharePlace::Good));
    assert_eq!(found.aims.advice.as_ref().unwrap().value, TongueAdvice::Eu);
    for (kind, expected) in [
        (RatingKind::TrailerGross, 150.0),
        (RatingKind::Cargo, 20.0),
        (RatingKind::Axle(0), 40.0),
        // Tyres of passenger cars: 308 / 1.10 = 280 kg, and each carries 280 kg.
        (RatingKind::LeftTyre, 0.0),
        (RatingKind::RightTyre, 0.0),
        (RatingKind::CouplerTongue, 35.0),
        (RatingKind::TowBraked, 100.0),
        // 900 + 40 · 3.5 / 2.5 = 956
        (RatingKind::VehicleRearAxle, 44.0),
        // 1900 + 40
        (RatingKind::VehicleGross, 60.0),
        (RatingKind::VehiclePayload, 60.0),
        // 1900 + 600
        (RatingKind::Combination, 100.0),
    ] {
        close(left(&found, kind), expected, 1e-9);
    }
    assert_eq!(found.tightest(RatingKind::TowUnbraked), None);
    let printed = found
        .ratings
        .iter()
        .find(|rating| rating.kind == RatingKind::LeftTyre);
    close(printed.unwrap().printed.unwrap().kilograms(), 308.0, 1e-9);
    // 1.5 m · 1.4 m
    close(
        found.frontal.as_ref().unwrap().left.square_metres(),
        0.4,
        1e-9,
    );
    // The ball is at the coupler's own height: level.
    let level = laden.attitude.as_ref().unwrap();
    close(level.nose_up.degrees(), 0.0, 1e-9);
    close(level.change.kilograms(), 0.0, 1e-9);
    // The rear wall is 4.2 m behind the ball, 1.2 m behind the wheels; 0.4 m up: atan(1/3).
    close(
        found.departure.as_ref().unwrap().angle.degrees(),
        18.4349,
        1e-3,
    );
    // Centre of gravity at (500 · 0.8 + 100 · 0.7) / 600 m; half the track 0.75 m; 0.85 of that ratio.
    let tipping = laden.tipping.unwrap();
    close(
        tipping.threshold.fraction(),
        0.85 * 0.75 * 600.0 / 470.0,
        1e-9,
    );
    assert!(
        found
            .missing
            .iter()
            .all(|m| m.path == ["item", "chest", "held"]),
        "{:?}",
        found.missing
    );
}

#[test]
fn fuel_is_the_road_load_with_the_stated_stand_ins() {
    // Rolling 9.80665 · (1900 · 0.010 + 600 · 0.012), drag 0.6 · (0.95 + 1.2) · 25² at 25 m/s; fuel power
    // 22 kW + F · 25 / 0.36 over 31.8 MJ/L.
    let found = study(METRIC);
    let fuel = found.fuel.as_ref().unwrap();
    let force = 9.806_65 * (19.0 + 7.2) + 0.6 * 2.15 * 625.0;
    close(fuel.towing.force.newtons(), force, 1e-6);
    let litres = (22_000.0 + force * 25.0 / 0.36) / (31.8e6 * 25.0) * 1e5;
    close(fuel.towing.litres_per_100_km, litres, 1e-9);
    assert!(fuel.alone.litres_per_100_km < litres);
    let same = fuel_compared(&found, &found, 100.0).unwrap();
    close(same.ratio, 1.0, 1e-12);
    close(same.first.litres_per_100_km, litres, 1e-9);
}

#[test]
fn an_empty_project_says_what_is_missing_and_no_number() {
    let found = study("wainwright = 1\n");
    assert!(!found.begun);
    assert!(found.states.is_empty() && found.worst.is_none() && found.sway.is_empty());
    assert!(found.loads.is_empty() && found.holds.is_empty() && found.fuel.is_none());
    let first = &found.missing[0];
    assert_eq!(first.path, ["trailer", "inside_length"]);
    assert_eq!(first.wanted, RoadWanted::Trailer);
    let begun = study("wainwright = 1\n[trailer]\ninside_length = \"12 ft\"\n");
    assert!(
        !begun.begun,
        "the size of the box alone serves the wires too"
    );
}

#[test]
fn a_half_known_project_goes_on_with_stand_ins_and_lists_the_rest() {
    let found = study(
        "wainwright = 1\n[project]\nunits = \"us\"\nregion = \"US\"\n[trailer]\ninside_length = \"12 ft\"\n\
         [item.bed]\nkind = \"furniture\"\nmass = \"90 lb\"\n[item.kitchen]\nkind = \"furniture\"\nspot = \"1 ft, 0, 0\"\n\
         [item.wire-nut]\nkind = \"splice\"\n",
    );
    assert!(found.begun);
    assert_eq!(found.trailer.stands_in, Some("us-6x12"));
    assert!(found.trailer.empty_mass.as_ref().unwrap().is_assumed());
    assert_eq!(found.states.len(), 2);
    let unsettled: Vec<_> = found
        .unsettled
        .iter()
        .map(|item| item.item.as_str())
        .collect();
    assert_eq!(unsettled, ["bed", "kitchen"]);
    let bed = &found.unsettled[0];
    assert!(bed.unplaced && !bed.unweighed);
    // Between front and rear wall it can take away as well as add.
    let (rear, front) = bed.tongue.unwrap();
    assert!(rear.kilograms() < 0.0 && front.kilograms() > 0.0);
    let kitchen = &found.unsettled[1];
    assert!(kitchen.unweighed && !kitchen.unplaced && kitchen.mass.is_none());
    assert!(kitchen.tongue_per_kilogram.unwrap().0 > 0.0);
    assert!(
        found
            .assumptions
            .iter()
            .any(|known| known.path == ["trailer", "ball_to_axle"])
    );
    assert!(
        found
            .missing
            .iter()
            .any(|m| m.path == ["item", "kitchen", "mass"])
    );
    // Ratings are read from plates, never guessed.
    assert!(found.ratings.is_empty());
    assert!(found.sway.iter().all(|sway| sway.vehicle_assumed));
}

#[test]
fn every_stand_in_and_every_missing_value_has_a_field_to_be_typed_in() {
    use wainwright_model::{Body, Tank, Towing, Trailer, Vehicle, Weighing};
    let texts = [
        METRIC,
        SMALL,
        "wainwright = 1\n",
        "wainwright = 1\n[trailer]\ninside_length = \"3 m\"\n[item.t]\nkind = \"tank\"\n",
    ];
    for found in texts.map(study) {
        let assumed = found.assumptions.iter().map(|known| &known.path);
        for path in assumed.chain(found.missing.iter().map(|missing| &missing.path)) {
            let fields = match path[0].as_str() {
                "trailer" => vec![Trailer::FIELDS],
                "vehicle" => vec![Vehicle::FIELDS],
                "towing" => vec![Towing::FIELDS],
                "weighing" => vec![Weighing::FIELDS],
                "item" => vec![Body::FIELDS, Tank::FIELDS],
                other => panic!("{other}"),
            };
            let name = path.last().unwrap();
            assert!(
                fields
                    .iter()
                    .any(|fields| fields.iter().any(|field| field.name == name)),
                "{path:?}"
            );
        }
    }
}

#[test]
fn dragging_gives_what_the_changed_text_gives() {
    let spot = Spot {
        from_front: Length::from_metres(0.3),
        from_left: Length::from_metres(0.9),
        above_floor: Length::from_metres(0.1),
    };
    let moved = road::road_with(&read(METRIC), &[(Id::new("chest").unwrap(), spot)]);
    let typed = study(&METRIC.replace("1.3 m, 0.5 m, 0 m", "0.3 m, 0.9 m, 0.1 m"));
    assert_eq!(moved.states, typed.states);
    assert_eq!(moved.loads[0].centre, typed.loads[0].centre);
    assert_eq!(moved.sway, typed.sway);
    // 1 m forwards puts 100 · 1 / 3 kg more on the ball.
    close(
        state(&moved, &[]).tongue.kilograms(),
        40.0 + 100.0 / 3.0,
        1e-9,
    );
}

#[test]
fn the_zone_ends_where_the_share_leaves_its_band() {
    // Without the chest T 40, W 500. Band 5 to 8 %: from L(1 − 0.08 + 0/100) = 2.76 m to L(1 − 0.05 + 15/100) = 3.3 m
    // for its centre; its corner is 1.2 + 0.5 m less.
    let text = METRIC
        .replace("speed =", "side_difference = \"20 kg\"\nspeed =")
        .replace("passenger_tyres = true\n", "");
    let project = read(&text);
    let found = road::study(&project);
    let zone = road::allowed_zone(&project, &found, "chest").unwrap();
    let (front, rear) = zone.along.unwrap();
    close(front.metres(), 1.06, 1e-9);
    close(rear.metres(), 1.6, 1e-9);
    // 2 · 100 · y / 1.5 within 20 kg: 0.15 m either way of the middle, its left side 0.5 m in from the left wall.
    // The tyre has room for more: 308 − 280 kg at the axle, less as it goes back.
    let (near, far) = zone.across.unwrap();
    close(near.metres(), 0.35, 1e-9);
    close(far.metres(), 0.65, 1e-9);
    for (end, share) in [(front, 0.08), (rear, 0.05)] {
        let spot = Spot {
            from_front: end,
            from_left: Length::from_metres(0.5),
            above_floor: Length::ZERO,
        };
        let there = road::road_with(&project, &[(Id::new("chest").unwrap(), spot)]);
        close(state(&there, &[]).share.fraction(), share, 1e-12);
    }
    assert!(road::allowed_zone(&project, &found, "nobody").is_none());
}

#[test]
fn axles_on_their_own_springs_part_when_the_nose_is_down() {
    // Springs of 150 kN/m, 0.85 m apart, 4 m behind the ball, nose 1° down: 150 000 · 0.85 · 0.0174533 / 9.80665 =
    // 226.9 kg between the axles and 226.9 · 0.85 / 8 = 24.1 kg less on the ball. Centre of gravity and coupler are
    // at the height of the wheel centres, so that nothing else moves.
    let text = "wainwright = 1\n[trailer]\ninside_length = \"4 m\"\nball_to_axle = \"4 m\"\naxles = 2\n\
        axle_spacing = \"0.85 m\"\nsuspension = \"independent\"\naxle_stiffness = \"150 kN/m\"\nwheel_radius = \"0.3 m\"\n\
        coupling_height = \"0.3 m\"\nempty_mass = \"1600 kg\"\nempty_tongue = \"160 kg\"\nempty_centre_height = \"0.3 m\"\n\
        axle_rating = \"900 kg\"\n[vehicle]\nball_height = \"0.2301904 m\"\n";
    let found = study(text);
    let bare = &found.states[0];
    let attitude = bare.attitude.as_ref().unwrap();
    close(attitude.nose_up.degrees(), -1.0, 1e-4);
    close((bare.axles[0] - bare.axles[1]).kilograms(), 226.9, 0.1);
    close(attitude.change.kilograms(), -24.1, 0.05);
    // (1440 + 24.1 + 226.9) / 2 = 845.5 kg on the front axle, 54.5 kg less than it may carry.
    close(left(&found, RatingKind::Axle(0)), 54.5, 0.1);
    let rigid = study(&text.replace("independent", "equalised"));
    close(rigid.states[0].axles[0].kilograms(), 720.0, 1e-9);
}

#[test]
fn brake_laws_are_crossed_by_rating_and_by_load() {
    let text = SMALL.replace("brakes = true", "gross_rating = \"2000 lb\"");
    let found = study(&text);
    let asks = |id: &str| {
        let check = found
            .brakes
            .iter()
            .find(|check| check.law.id == id)
            .unwrap();
        (check.by_rating, check.by_load, check.by_bare)
    };
    // 2000 lb by its plate, 1709 lb (775 kg) at most, 948 lb bare; camp trailers from 1500 lb, others from 3000 lb.
    assert_eq!(
        asks("us-california-camp"),
        (Some(true), Some(true), Some(false))
    );
    assert_eq!(
        asks("us-california"),
        (Some(false), Some(false), Some(false))
    );
}

#[test]
fn weighings_that_cannot_both_be_true_are_told() {
    let weighing = |id: &str, by: &str, reading: f64| {
        format!("[weighing.{id}]\nby = \"{by}\"\nreading = \"{reading} kg\"\naccuracy = \"2 kg\"\n")
    };
    // With the chest aboard the ball carries 40 and the axle 560 kg.
    let good = format!(
        "{METRIC}{}{}",
        weighing("ball", "tongue", 40.0),
        weighing("axle", "axle", 560.0)
    );
    let found = study(&good);
    let shell = found.shell_found.as_ref().unwrap();
    close(shell.mass.value.kilograms(), 500.0, 1e-9);
    close(shell.tongue.value.kilograms(), 40.0, 1e-9);
    close(shell.mass_change.unwrap().kilograms(), 0.0, 1e-9);
    assert_eq!(shell.contradiction, None);
    let as_weighed = &found.states[found.weighings[0].state.unwrap()];
    assert_eq!(
        as_weighed.kind,
        RoadStateKind::Weighed(Id::new("ball").unwrap())
    );
    close(as_weighed.mass.kilograms(), 600.0, 1e-9);
    // A third reading of everything, 30 kg more than the two together.
    let bad = format!("{good}{}", weighing("all", "whole", 630.0));
    let shell = study(&bad).shell_found.unwrap();
    assert!(shell.contradiction.is_some());
    assert!(shell.worst.is_some());
    // An unweighed thing aboard: the weighing cannot be used.
    let found = study(&format!(
        "{good}[item.box]\nkind = \"cargo\"\nspot = \"1 m, 0, 0\"\n"
    ));
    assert!(found.shell_found.is_none());
    assert_eq!(found.weighings[0].unknown_aboard[0].as_str(), "box");
}

#[test]
fn bars_bring_back_their_share_of_the_front_axle() {
    // Printed: 200 kg on the ball, 4 m to the axle, 2.827 m wheelbase, 1.15 m overhang, half restored: front −40.68,
    // rear +218.35, trailer axle +22.33 kg.
    let text = "wainwright = 1\n[trailer]\ninside_length = \"4 m\"\nball_to_axle = \"4 m\"\nempty_mass = \"1600 kg\"\n\
        empty_tongue = \"200 kg\"\n[vehicle]\nfront_axle = \"1000 kg\"\nrear_axle = \"1000 kg\"\n\
        wheelbase = \"2.827 m\"\nball_overhang = \"1.15 m\"\nbars_restore = \"50 %\"\n";
    let hitch = study(text).states[0].hitch.unwrap();
    close(hitch.front_change.kilograms(), -40.68, 0.005);
    close(hitch.rear_change.kilograms(), 218.35, 0.005);
    close(hitch.trailer_axle_change.kilograms(), 22.33, 0.005);
}

#[test]
fn cargo_is_used_up_together_and_tanks_each_by_itself() {
    let found = study(SMALL);
    assert_eq!(found.fills.len(), 3);
    // Two tanks and the cargo: eight corners, and the bare trailer.
    assert_eq!(found.states.len(), 9);
    assert!(found.every_corner);
    let worst = found.worst.unwrap();
    let lowest = &found.states[worst.lowest_share];
    // Grey behind the axle full, the rest of the front used up.
    assert_eq!(lowest.levels[1], Level::Full);
    assert_eq!(lowest.levels[2], Level::End);
    for (_, other) in found.fill_states() {
        assert!(other.share >= lowest.share);
        assert!(other.share <= found.states[worst.highest_share].share);
    }
}

#[test]
fn no_line_left_out_and_no_odd_value_brings_it_down() {
    let lines: Vec<&str> = METRIC.lines().collect();
    for left_out in 0..lines.len() {
        let text: Vec<&str> = lines
            .iter()
            .enumerate()
            .filter(|(at, _)| *at != left_out)
            .map(|(_, line)| *line)
            .collect();
        let parsed = wainwright_model::parse(&text.join("\n"), wainwright_analysis::catalogue());
        let found = road::study(&parsed.project);
        assert!(
            found.refused.is_empty(),
            "{}: {:?}",
            lines[left_out],
            found.refused
        );
    }
    for odd in ["0 kg", "10000 kg", "0.001 kg", "-5 kg"] {
        for line in lines.iter().filter(|line| line.ends_with("kg\"")) {
            let field = line.split('=').next().unwrap();
            let text = METRIC.replace(line, &format!("{field}= \"{odd}\""));
            let parsed = wainwright_model::parse(&text, wainwright_analysis::catalogue());
            for state in road::study(&parsed.project).states {
                assert!(state.tongue.is_finite() && state.yaw_inertia_kg_m2.is_finite());
            }
        }
    }
}
