//! Stories of things in each other's way, and of what holds them.

use super::{close, study};
use wainwright_analysis::result::road::{Blocker, RoadResult, RoadWanted};

const ROOM: &str = "wainwright = 1\n[trailer]\ninside_length = \"4 m\"\ninside_width = \"2 m\"\ninside_height = \"2 m\"\n";

fn thing(id: &str, size: &str, spot: &str, more: &str) -> String {
    format!(
        "[item.{id}]\nkind = \"furniture\"\nmass = \"35 kg\"\nsize = \"{size}\"\nspot = \"{spot}\"\n{more}"
    )
}

fn with(things: &[String]) -> RoadResult {
    study(&format!("{ROOM}{}", things.concat()))
}

#[test]
fn things_in_the_same_place_are_told_with_how_far() {
    let found = with(&[
        thing("a", "1 m x 1 m x 1 m", "0 m, 0 m, 0 m", ""),
        thing("b", "1 m x 1 m x 1 m", "0.9 m, 0.2 m, 0.5 m", ""),
        // Touches `a` only.
        thing("c", "0.5 m x 1 m x 0.5 m", "0 m, 1 m, 0 m", ""),
        // Lies wholly in `b`, as a tank under a bed.
        thing("d", "0.2 m x 0.2 m x 0.2 m", "1.5 m, 0.5 m, 1 m", ""),
    ]);
    let pairs: Vec<_> = found
        .overlaps
        .iter()
        .map(|o| (o.first.as_str(), o.second.as_str(), o.stowed))
        .collect();
    assert_eq!(pairs, [("a", "b", false), ("b", "d", true)]);
    let first = &found.overlaps[0];
    close(first.along.metres(), 0.1, 1e-9);
    close(first.across.metres(), 0.8, 1e-9);
    close(first.up.metres(), 0.5, 1e-9);
    assert!(found.outside.is_empty());
}

#[test]
fn things_outside_the_box_are_told() {
    let found = with(&[
        thing("shelf", "1 m x 1 m x 1 m", "3.2 m, -0.1 m, 1.5 m", ""),
        thing("gas", "0.3 m x 0.3 m x 0.5 m", "-0.5 m, 0.8 m, 0 m", ""),
    ]);
    let shelf = &found.outside[0];
    close(shelf.rear.metres(), 0.2, 1e-9);
    close(shelf.left.metres(), 0.1, 1e-9);
    close(shelf.roof.metres(), 0.5, 1e-9);
    close(shelf.front.metres(), 0.0, 0.0);
    assert!(!shelf.wholly);
    assert!(
        found.outside[1].wholly,
        "a bottle on the tongue is outside on purpose"
    );
}

#[test]
fn doors_that_swing_in_and_rooms_before_doors_stay_free() {
    // A door 0.8 m wide in the left wall sweeps 0.8 m inwards; the fridge needs 0.5 m to its left.
    let found = study(&format!(
        "{ROOM}[opening.door]\nwall = \"left\"\nspot = \"1 m, 0 m, 0 m\"\nsize = \"0.8 m x 0 m x 1.9 m\"\nswing = \"in\"\n\
         [opening.flap]\nwall = \"left\"\nspot = \"3 m, 0 m, 0 m\"\nsize = \"0.8 m x 0 m x 1 m\"\nswing = \"out\"\n{}{}{}",
        thing("chest", "0.5 m x 0.5 m x 0.5 m", "1.5 m, 0.6 m, 0 m", ""),
        thing(
            "fridge",
            "0.6 m x 0.6 m x 0.8 m",
            "2.2 m, 1.4 m, 0 m",
            "faces = \"left\"\nclear = \"0.5 m\"\n"
        ),
        thing("box", "0.3 m x 0.3 m x 0.3 m", "2.4 m, 0.8 m, 0 m", ""),
    ));
    let blocked: Vec<_> = found
        .blocked
        .iter()
        .map(|b| (&b.owner, b.by.as_str()))
        .collect();
    assert_eq!(blocked.len(), 2, "{blocked:?}");
    assert!(matches!(&found.blocked[0].owner, Blocker::Opening(id) if id.as_str() == "door"));
    assert_eq!(found.blocked[0].by.as_str(), "chest");
    // The chest reaches from 0.6 to 1.1 m, the door to 0.8 m.
    close(found.blocked[0].across.metres(), 0.2, 1e-9);
    close(found.blocked[0].along.metres(), 0.3, 1e-9);
    assert!(matches!(&found.blocked[1].owner, Blocker::Item(id) if id.as_str() == "fridge"));
    assert_eq!(found.blocked[1].by.as_str(), "box");
}

fn held(more: &str) -> RoadResult {
    study(&format!(
        "{ROOM}[towing]\nhold_against = \"van\"\n{}",
        thing("battery", "0.3 m x 0.2 m x 0.2 m", "1 m, 1 m, 0 m", more)
    ))
}

#[test]
fn straps_hold_by_friction_as_the_worked_case_says() {
    // Printed for 35 kg, 0.8 g, friction 0.3, factor 1.25, one strap: 358 N; sideways 189 N is less.
    let found = held("held = \"strapped\"\nheld_count = 1\nstrap_rating = \"500 N\"\n");
    let strength = found.hold("battery").unwrap().strength.clone().unwrap();
    close(strength.asked.newtons(), 358.0, 0.5);
    close(strength.left.newtons(), 142.0, 0.5);
    // Its ends in 3/8 in of plywood with 3/16 in screws: 2850 · 0.42² · 0.1875 · 0.375 = 35.3 lbf, half of it counts:
    // 78.6 N each.
    let weak = held(
        "held = \"strapped\"\nheld_count = 1\nstrap_rating = \"500 N\"\nheld_size = \"3/16 in\"\nheld_into = \"plywood\"\n\
         held_depth = \"3/8 in\"\n",
    );
    let strength = weak.hold("battery").unwrap().strength.clone().unwrap();
    close(strength.held.newtons(), 78.6, 0.1);
    assert!(strength.left.newtons() < 0.0);
    assert_eq!(strength.derated.unwrap().value.fraction(), 0.5);
}

#[test]
fn lag_screws_hold_what_the_timber_table_says() {
    // Printed: specific gravity 0.42, 3/8 in: 235 lbf for each inch of thread; four of them.
    let found = held(
        "held = \"lagged\"\nheld_count = 4\nheld_size = \"3/8 in\"\nheld_into = \"softwood\"\nheld_depth = \"1 in\"\n",
    );
    let strength = found.hold("battery").unwrap().strength.clone().unwrap();
    close(strength.held.newtons() / 4.448_222 / 4.0, 235.0, 0.5);
    // 0.8 g on 35 kg.
    close(strength.asked.newtons(), 275.0, 0.5);
}

#[test]
fn bolts_of_no_known_class_are_taken_for_the_weakest() {
    // M6: 20.1 mm²; 0.6 · 510 N/mm² across is less than 379 N/mm² along.
    let found = held("held = \"bolted\"\nheld_count = 2\nheld_size = \"6 mm\"\n");
    let strength = found.hold("battery").unwrap().strength.clone().unwrap();
    close(strength.held.newtons(), 2.0 * 0.6 * 510.0 * 20.1, 0.5);
    assert!(
        found
            .assumptions
            .iter()
            .any(|known| known.path == ["item", "battery", "held_size"])
    );
}

#[test]
fn what_is_not_said_of_a_fastening_is_missing_not_guessed() {
    for (more, field, wanted) in [
        ("", "held", RoadWanted::Hold),
        (
            "held = \"bolted\"\nheld_size = \"6 mm\"\n",
            "held_count",
            RoadWanted::Fasteners,
        ),
        (
            "held = \"screwed\"\nheld_count = 4\nheld_size = \"0.19 in\"\n",
            "held_into",
            RoadWanted::Fasteners,
        ),
        (
            "held = \"strapped\"\nheld_count = 1\n",
            "strap_rating",
            RoadWanted::Rating,
        ),
    ] {
        let found = held(more);
        assert_eq!(found.hold("battery").unwrap().strength, None);
        let lacks = found
            .missing
            .iter()
            .any(|m| m.path == ["item", "battery", field] && m.wanted == wanted);
        assert!(lacks, "{field}: {:?}", found.missing);
    }
    // Loose is said, and holds nothing; tips along at (0.15)/(0.1) g.
    let loose = held("held = \"loose\"\n");
    let hold = loose.hold("battery").unwrap();
    assert!(hold.strength.is_none() && hold.how.is_some());
    close(hold.tips_lengthwise.unwrap(), 1.5, 1e-9);
    close(hold.tips_sideways.unwrap(), 1.0, 1e-9);
}
