//! Stories: weights on the road, how things are held, what is in the way, and
//! wires that do not reach.

mod support;
use support::*;
use wainwright_rules::{Severity, Subject};

/// A small trailer with nothing wrong.
const SOUND: &str = include_str!("support/towing.toml");

/// Rules of the road and of places.
const ROAD: [&str; 17] = [
    "rating-exceeded",
    "tongue-too-light",
    "tips-on-its-tail",
    "sway-little-damped",
    "weakly-held",
    "coupler-underrated",
    "brakes-asked-for",
    "tongue-too-heavy",
    "lopsided-load",
    "nose-high",
    "not-held",
    "door-blocked",
    "things-collide",
    "front-too-large",
    "weighings-disagree",
    "sticks-out",
    "weight-unknown",
];

fn sound_with(changes: &[(&str, &str)]) -> Story {
    Story::new(&with(SOUND, changes))
}

fn sound_and(more: &str) -> Story {
    Story::new(&format!("{SOUND}\n{more}"))
}

#[test]
fn nothing_is_said_of_a_sound_trailer() {
    let story = Story::new(SOUND);
    for rule in ROAD {
        assert!(story.of(rule).is_empty(), "{:?}", story.of(rule));
    }
}

#[test]
fn nothing_is_said_before_the_job_is_begun() {
    for text in ["", CLEAN, CHAIN] {
        let story = Story::unfinished(text);
        for rule in ROAD {
            assert!(story.of(rule).is_empty(), "{:?}", story.of(rule));
        }
    }
}

#[test]
fn light_tongue_is_told_with_its_state_and_mended_by_moving_forward() {
    // 60 kg from 0.3 m ahead of the axle to 1.05 m behind it:
    // the ball loses 60 * 1.3 / 2.9 = 26.9 kg.
    let story = sound_with(&[("1.20 m, 0.55 m, 0 m", "2.50 m, 0.55 m, 0 m")]);
    let finding = story.one("tongue-too-light").clone();
    assert_eq!(finding.key(), "tongue-too-light:trailer");
    assert!(finding.margin.unwrap().fraction() < 0.0);
    assert!(
        finding.headline.contains("Water tank"),
        "{}",
        finding.headline
    );
    let fixes = story.fixed(&finding);
    let moved = fixes.iter().find(|fix| fix.title.contains("Tool box"));
    let moved = moved.unwrap_or_else(|| panic!("{:?}", titles(&fixes)));
    assert!(story.after(moved).of("tongue-too-light").is_empty());
}

#[test]
fn far_too_light_a_tongue_is_a_warning() {
    let story = sound_with(&[
        ("empty_tongue = \"50 kg\"", "empty_tongue = \"20 kg\""),
        ("1.20 m, 0.55 m, 0 m", "2.50 m, 0.55 m, 0 m"),
    ]);
    assert_eq!(story.one("tongue-too-light").severity, Severity::Warning);
}

#[test]
fn own_band_is_held_to_its_edge() {
    let share = Story::new(SOUND);
    let road = &share.assessment.road;
    let least = road.states[road.worst.unwrap().lowest_share]
        .share
        .fraction();
    for (low, found) in [(least - 0.0005, false), (least + 0.0005, true)] {
        let text = format!("tongue_low = {low}\nside_difference");
        let story = sound_with(&[("side_difference", &text)]);
        assert_eq!(!story.of("tongue-too-light").is_empty(), found, "{low}");
    }
}

#[test]
fn heavy_tongue_is_told() {
    let story = sound_with(&[("empty_tongue = \"50 kg\"", "empty_tongue = \"95 kg\"")]);
    assert_eq!(story.one("tongue-too-heavy").severity, Severity::Caution);
    // And the coupler, which may carry 100 kg, carries more.
    let kinds: Vec<_> = story
        .of("rating-exceeded")
        .iter()
        .map(|f| f.key())
        .collect();
    assert!(
        kinds.contains(&"rating-exceeded:trailer.coupling_tongue_rating".to_string()),
        "{kinds:?}"
    );
}

#[test]
fn ratings_are_exceeded_beyond_the_limit_only() {
    // 450 + 60 + 5 + 40 L of water: 554.9 kg with water of 0.998 kg/L.
    for (rating, found) in [("556 kg", false), ("554 kg", true)] {
        let line = format!("gross_rating = \"{rating}\"");
        let story = sound_with(&[("gross_rating = \"900 kg\"", &line)]);
        assert_eq!(!story.of("rating-exceeded").is_empty(), found, "{rating}");
    }
}

#[test]
fn lopsided_load_is_told_against_the_own_limit() {
    // 60 kg from the middle to 0.55 m right of it: 2 * 60 * 0.55 / 1.7 = 38.8 kg more.
    let right = [("1.20 m, 0.55 m, 0 m", "1.20 m, 1.10 m, 0 m")];
    let story = sound_with(&right);
    let difference = story.assessment.road.states
        [story.assessment.road.worst.unwrap().most_difference]
        .side_difference()
        .kilograms();
    for (limit, found) in [
        (difference.abs() + 1.0, false),
        (difference.abs() - 1.0, true),
    ] {
        let line = format!("side_difference = \"{limit} kg\"");
        let story = sound_with(&[right[0], ("side_difference = \"40 kg\"", &line)]);
        assert_eq!(!story.of("lopsided-load").is_empty(), found, "{limit}");
    }
}

#[test]
fn heavy_ends_sway_and_the_words_promise_no_speed() {
    let story = sound_and(
        "[item.front]\nkind = \"cargo\"\nmass = \"700 kg\"\nspot = \"0 m, 0.5 m, 0.8 m\"\nsize = \"0.3 m x 0.5 m x 0.3 m\"\nheld = \"bolted\"\nheld_count = 8\nheld_size = \"8 mm\"\nheld_into = \"frame\"\n\
         [item.rear]\nkind = \"cargo\"\nmass = \"900 kg\"\nspot = \"2.7 m, 0.5 m, 0.8 m\"\nsize = \"0.3 m x 0.5 m x 0.3 m\"\nheld = \"bolted\"\nheld_count = 8\nheld_size = \"8 mm\"\nheld_into = \"frame\"\n",
    );
    let finding = story.one("sway-little-damped");
    assert!(finding.margin.unwrap().fraction() < 0.0);
    assert!(finding.detail.iter().any(|s| s.contains("no safe speed")));
}

#[test]
fn people_at_the_rear_tip_it() {
    let story = sound_with(&[
        ("mass = \"80 kg\"", "mass = \"300 kg\""),
        ("1.50 m, 0.60 m, 0 m", "2.45 m, 0.60 m, 0 m"),
    ]);
    assert_eq!(story.one("tips-on-its-tail").severity, Severity::Warning);
}

#[test]
fn weak_straps_are_told_and_mended_by_more() {
    let story = sound_with(&[("strap_rating = \"3 kN\"", "strap_rating = \"100 N\"")]);
    let finding = story.one("weakly-held").clone();
    assert_eq!(finding.key(), "weakly-held:item.water");
    let fixes = story.fixed(&finding);
    assert!(!fixes.is_empty());
    assert!(story.after(&fixes[0]).of("weakly-held").is_empty());
    // Strong enough by a hair: twice the strength that is asked of each.
    let asked = story
        .assessment
        .road
        .hold("water")
        .unwrap()
        .strength
        .as_ref()
        .unwrap();
    let each = asked.asked.newtons() / asked.held.newtons() * 100.0;
    for (rating, found) in [(each * 1.001, false), (each * 0.999, true)] {
        let line = format!("strap_rating = \"{rating} N\"");
        let story = sound_with(&[("strap_rating = \"3 kN\"", &line)]);
        assert_eq!(!story.of("weakly-held").is_empty(), found, "{rating}");
    }
}

#[test]
fn loose_heavy_things_are_listed_once() {
    let bolts = "held = \"bolted\"\nheld_count = 4\nheld_size = \"8 mm\"\nheld_into = \"frame\"\n";
    let story = sound_with(&[(bolts, "held = \"loose\"\n")]);
    let finding = story.one("not-held");
    assert!(
        finding.headline.contains("Tool box"),
        "{}",
        finding.headline
    );
    for (mass, found) in [("4.9 kg", false), ("5.1 kg", true)] {
        let more = format!(
            "[item.bag]\nkind = \"cargo\"\nmass = \"{mass}\"\nspot = \"0.2 m, 0.2 m, 0 m\"\nsize = \"0.3 m x 0.3 m x 0.3 m\"\n"
        );
        assert_eq!(!sound_and(&more).of("not-held").is_empty(), found, "{mass}");
    }
}

#[test]
fn things_in_one_place_and_blocked_rooms_are_told() {
    let other = |spot: &str| {
        format!(
            "[item.other]\nkind = \"furniture\"\nmass = \"4 kg\"\nspot = \"{spot}\"\nsize = \"0.50 m x 0.50 m x 0.40 m\"\nfaces = \"rear\"\nclear = \"400 mm\"\n"
        )
    };
    // The tool box begins at 1.20 m: 11 mm in each other, then 9 mm.
    assert_eq!(
        sound_and(&other("0.711 m, 0.55 m, 0 m"))
            .of("things-collide")
            .len(),
        1
    );
    assert!(
        sound_and(&other("0.709 m, 0.55 m, 0 m"))
            .of("things-collide")
            .is_empty()
    );
    // Its free room reaches from its rear face 400 mm backwards.
    let blocked = sound_and(&other("0.50 m, 0.55 m, 0 m"));
    assert_eq!(blocked.one("door-blocked").key(), "door-blocked:item.other");
    assert!(
        sound_and(&other("0.20 m, 0.55 m, 0 m"))
            .of("door-blocked")
            .is_empty()
    );
}

#[test]
fn sticking_out_is_told_and_wholly_outside_is_meant() {
    let wide = |spot: &str| {
        format!(
            "[item.shelf]\nkind = \"furniture\"\nmass = \"4 kg\"\nspot = \"{spot}\"\nsize = \"0.3 m x 0.3 m x 0.3 m\"\n"
        )
    };
    assert_eq!(
        sound_and(&wide("0.2 m, 1.4 m, 1.0 m"))
            .of("sticks-out")
            .len(),
        1
    );
    assert!(
        sound_and(&wide("0.2 m, 1.3 m, 1.0 m"))
            .of("sticks-out")
            .is_empty()
    );
    assert!(
        sound_and(&wide("-0.8 m, 0.6 m, 0 m"))
            .of("sticks-out")
            .is_empty()
    );
}

#[test]
fn unweighed_things_are_a_notice() {
    let story = sound_and(
        "[item.bed]\nkind = \"furniture\"\nspot = \"0 m, 0 m, 0.4 m\"\nsize = \"0.9 m x 1.6 m x 0.1 m\"\n",
    );
    let finding = story.one("weight-unknown");
    assert_eq!(finding.severity, Severity::Notice);
    assert!(
        finding
            .subjects
            .iter()
            .any(|s| matches!(s, Subject::Item(id) if *id == "bed"))
    );
}

#[test]
fn brakes_are_asked_for_over_the_mass_of_the_law() {
    // EU: over 750 kg.
    let eu = ("advice = \"US\"", "advice = \"EU\"");
    let story = sound_with(&[eu, ("brakes = true", "brakes = false")]);
    let finding = story.one("brakes-asked-for");
    assert_eq!(finding.severity, Severity::Warning);
    assert!(finding.detail.iter().any(|s| s.contains("local law")));
    let light = sound_with(&[
        eu,
        ("brakes = true", "brakes = false"),
        ("gross_rating = \"900 kg\"", "gross_rating = \"750 kg\""),
    ]);
    assert!(light.of("brakes-asked-for").is_empty());
    let unsaid = sound_with(&[eu, ("brakes = true\n", "")]);
    assert_eq!(unsaid.one("brakes-asked-for").severity, Severity::Notice);
}

#[test]
fn d_value_follows_the_published_formula() {
    // 2.4 t and 0.9 t: 9.81 * 2.4 * 0.9 / 3.3 = 6.421 kN.
    for (rated, found) in [("6.43 kN", false), ("6.41 kN", true)] {
        let line = format!("d_value = \"{rated}\"");
        let story = sound_with(&[("d_value = \"8 kN\"", &line)]);
        assert_eq!(!story.of("coupler-underrated").is_empty(), found, "{rated}");
    }
}

#[test]
fn large_front_is_told() {
    // 1.6 m by 1.8 m: 2.88 m2.
    for (area, found) in [("2.9 m2", false), ("2.8 m2", true)] {
        let line = format!("frontal_area = \"{area}\"");
        let story = sound_with(&[("frontal_area = \"4 m2\"", &line)]);
        assert_eq!(!story.of("front-too-large").is_empty(), found, "{area}");
    }
}

#[test]
fn high_ball_lifts_the_nose() {
    // One degree over 2.9 m is 50.6 mm.
    for (height, found) in [("468 mm", false), ("474 mm", true)] {
        let line = format!("ball_height = \"{height}\"");
        let story = sound_with(&[("ball_height = \"415 mm\"", &line)]);
        assert_eq!(!story.of("nose-high").is_empty(), found, "{height}");
    }
}

#[test]
fn weighings_that_do_not_fit_are_told() {
    let weighing = |id: &str, tongue: &str, full: &str| {
        format!(
            "[weighing.{id}-tongue]\nby = \"tongue\"\nreading = \"{tongue}\"\naccuracy = \"1 kg\"\nfull = [{full}]\naboard = []\n\
             [weighing.{id}-axle]\nby = \"axle\"\nreading = \"400 kg\"\naccuracy = \"2 kg\"\nfull = [{full}]\naboard = []\n"
        )
    };
    let good = format!(
        "{}{}",
        weighing("a", "50 kg", ""),
        weighing("b", "50.5 kg", "")
    );
    assert!(sound_and(&good).of("weighings-disagree").is_empty());
    let bad = format!(
        "{}{}",
        weighing("a", "50 kg", ""),
        weighing("b", "75 kg", "")
    );
    assert_eq!(sound_and(&bad).of("weighings-disagree").len(), 1);
}

/// The clean system in a box, its gear in places 3 m apart along one trunk.
fn routed(length: &str, opening: &str) -> Story {
    let spots = [
        (
            "[item.bat]\n",
            "[item.bat]\nspot = \"0 m, 0 m, 0 m\"\nsize = \"0.2 m x 0.2 m x 0.2 m\"\n",
        ),
        (
            "[item.main]\n",
            "[item.main]\nspot = \"0.3 m, 0 m, 0 m\"\nsize = \"0.1 m x 0.1 m x 0.1 m\"\n",
        ),
        (
            "[item.block]\n",
            "[item.block]\nspot = \"3 m, 0 m, 0 m\"\nsize = \"0.1 m x 0.1 m x 0.1 m\"\n",
        ),
        ("length = \"8 ft\"", length),
    ];
    let more = format!(
        "[trailer]\ninside_length = \"4 m\"\ninside_width = \"2 m\"\ninside_height = \"2 m\"\n\
         [trunk.left]\npath = [\"0 m, 0.05 m, 0.05 m\", \"4 m, 0.05 m, 0.05 m\"]\n{opening}"
    );
    Story::new(&format!("{}\n{more}", with(CLEAN, &spots)))
}

#[test]
fn wire_that_does_not_reach_is_told_and_its_way_mends_it() {
    let story = routed("length = \"6 ft\"", "");
    let finding = story.at("wire-too-short", "wire.feed").clone();
    let fixes = story.fixed(&finding);
    assert!(!fixes.is_empty(), "its length can be left to its way");
    let feed = |story: &Story| {
        let all = story.of("wire-too-short");
        all.iter().any(|f| f.key().ends_with("feed"))
    };
    assert!(!feed(&story.after(&fixes[0])));
    let bare = story.assessment.routing.wire("feed").unwrap();
    let bare = bare.route.as_ref().unwrap().bare.millimetres();
    for (share, found) in [(0.901, false), (0.899, true)] {
        let line = format!("length = \"{} mm\"", bare * share);
        assert_eq!(feed(&routed(&line, "")), found, "{share}");
    }
}

#[test]
fn wire_across_a_door_is_told() {
    let door = |spot: &str| {
        format!(
            "[opening.door]\nlabel = \"Side door\"\nwall = \"left\"\nspot = \"{spot}\"\nsize = \"0.7 m x 0 m x 1.7 m\"\nswing = \"out\"\n"
        )
    };
    let story = routed("length = \"30 ft\"", &door("1.5 m, 0 m, 0 m"));
    let all = story.of("wire-through-opening");
    assert!(!all.is_empty());
    assert!(all[0].headline.contains("Side door"), "{}", all[0].headline);
    let away = routed("length = \"30 ft\"", &door("3.2 m, 0 m, 0 m"));
    assert!(away.of("wire-through-opening").is_empty());
}

#[test]
fn gear_without_a_place_is_a_notice() {
    let story = routed("length = \"30 ft\"", "");
    let finding = story.one("gear-unplaced");
    assert_eq!(finding.severity, Severity::Notice);
    assert!(Story::new(CLEAN).of("gear-unplaced").is_empty());
}
