//! Stories: every released version of the file loads for ever, whole and without a problem.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test may stop on anything unexpected"
)]

use std::collections::BTreeSet;
use wainwright_model::schema::ELEMENTS;
use wainwright_model::{
    CURRENT_VERSION, Catalogue, Hold, KINDS, Kind, Origin, Spec, Surrounding, migrate, parse,
};

const V1: &str = include_str!("fixtures/v1.toml");

#[test]
fn version_1_loads_without_a_problem() {
    let parsed = parse(V1, &Catalogue::default());
    assert_eq!(parsed.problems, []);
    assert_eq!(parsed.project.version.as_ref().map(|v| v.value), Some(1));
    let sizes = (
        parsed.project.parts.len(),
        parsed.project.items.len(),
        parsed.project.wires.len(),
        parsed.project.states.len(),
        parsed.project.openings.len(),
        parsed.project.trunks.len(),
        parsed.project.stock.len(),
        parsed.project.weighings.len(),
    );
    assert_eq!(sizes, (2, 25, 11, 3, 1, 2, 4, 3));
    let aboard = (
        parsed.project.climates.len(),
        parsed.project.trips.len(),
        parsed.project.uses.len(),
        parsed.project.layers.len(),
        parsed.project.cabinets.len(),
    );
    assert_eq!(aboard, (1, 1, 2, 3, 1));
}

#[test]
fn version_1_has_every_kind_and_every_field() {
    let keys: BTreeSet<&str> = V1
        .lines()
        .filter_map(|line| line.split_once(" = "))
        .map(|(key, _)| key.trim())
        .collect();
    for field in ELEMENTS.iter().flat_map(|element| element.fields) {
        assert!(
            keys.contains(field.name),
            "no `{}` in the fixture",
            field.name
        );
    }
    let project = parse(V1, &Catalogue::default()).project;
    let kinds: BTreeSet<Kind> = project
        .items
        .iter()
        .map(|(_, item)| item.spec.kind())
        .collect();
    for kind in KINDS {
        assert!(
            kinds.contains(&kind.kind),
            "no {} in the fixture",
            kind.name
        );
        for field in kind.fields {
            assert!(
                keys.contains(field.name),
                "no `{}` of {} in the fixture",
                field.name,
                kind.name
            );
        }
    }
}

#[test]
fn version_1_needs_no_migration() {
    assert_eq!(CURRENT_VERSION, 1);
    let migrated = migrate(V1).unwrap();
    assert_eq!(migrated.text, V1);
    assert!(migrated.inverse.is_empty());
}

#[test]
fn values_and_their_origins_are_as_typed() {
    let project = parse(V1, &Catalogue::default()).project;
    let fridge = project.wires.get("fridge-neg").unwrap();
    let length = fridge.length.as_ref().unwrap();
    assert_eq!(length.text, "11' 4\"");
    assert!((length.value.inches() - 136.0).abs() < 1e-9);
    assert_eq!(length.at.origin, Origin::Like("fridge-pos".into()));
    assert_eq!(fridge.runs.as_ref().unwrap().value, Surrounding::Foam);
    assert!(fridge.joint_from.is_none());

    let bar = project.wires.get("switch-bar").unwrap();
    assert_eq!(
        bar.size.as_ref().unwrap().at.origin,
        Origin::Like("battery-main".into())
    );
    assert_eq!(bar.length.as_ref().unwrap().text, "18 in");

    let back = fridge.route.as_ref().unwrap();
    assert_eq!(back.value, ["floor", "ceiling"]);
    assert_eq!(back.at.origin, Origin::Like("fridge-pos".into()));
    assert!(fridge.colour.is_none(), "a way back has its own colour");

    let fan = project.items.get("fan").unwrap();
    let Spec::Load(load) = &fan.spec else {
        panic!("the fan is a load")
    };
    assert_eq!(load.duty.as_ref().unwrap().text, "30 %");
    assert_eq!(load.duty.as_ref().unwrap().at.origin, Origin::File);
    assert_eq!(
        load.power.as_ref().unwrap().at.origin,
        Origin::Part("roof-fan".into())
    );
    assert_eq!(fan.label.as_ref().unwrap().value, "Roof fan");
}

#[test]
fn places_sizes_and_weights_are_as_typed() {
    let project = parse(V1, &Catalogue::default()).project;
    let body = &project.items.get("battery").unwrap().body;
    let spot = body.spot.as_ref().unwrap().value;
    let inches = [spot.from_front, spot.from_left, spot.above_floor].map(|l| l.inches());
    assert!(
        inches
            .iter()
            .zip([74.0, 0.0, 0.5])
            .all(|(a, b)| (a - b).abs() < 1e-9)
    );
    let size = body.size.as_ref().unwrap().value;
    assert!((size.across.inches() - 6.75).abs() < 1e-9);
    assert_eq!(body.held.as_ref().unwrap().value, Hold::Strapped);

    // The block has the body of its part, and says so.
    let block = &project.items.get("block").unwrap().body;
    assert!((block.mass.as_ref().unwrap().value.pounds() - 1.5).abs() < 1e-9);
    assert_eq!(
        block.mass.as_ref().unwrap().at.origin,
        Origin::Part("block-six".into())
    );
    assert!(block.spot.is_none());

    let corners = &project.trunks.get("ceiling").unwrap().path;
    assert_eq!(corners.as_ref().unwrap().value.len(), 3);
    let fuses = project.stock.get("blades").unwrap();
    assert_eq!(fuses.price.as_ref().unwrap().value, 1.0);
    let beam = project.weighings.get("at-home").unwrap();
    assert_eq!(beam.full.as_ref().unwrap().value, ["fresh"]);
    let towing = &project.towing;
    assert!((towing.speed.as_ref().unwrap().value.miles_per_hour() - 60.0).abs() < 1e-9);
    for kind in [Kind::Tank, Kind::Furniture, Kind::Cargo, Kind::Person] {
        assert!(!kind.is_wired());
    }
}
