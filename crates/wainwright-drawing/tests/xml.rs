//! Every text this crate writes is well-formed, escaped, and free of colours on elements.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod common;

use common::reader::{Element, attribute, check};
use common::{block, link, radial, senseless};
use proptest::prelude::*;
use std::collections::BTreeSet;
use wainwright_drawing::chart::{Bar, Profile, Step, TimeBand, bar, profile, time_band};
use wainwright_drawing::{BlockKind, Css, Diagram, Pole, Style, Tone, layout, svg};

fn groups(elements: &[Element]) -> impl Iterator<Item = &Element> {
    elements
        .iter()
        .filter(|element| attribute(element, "role") == Some("button"))
}

#[test]
fn schematics_are_well_formed_and_every_part_can_be_reached() {
    for seed in 0..40 {
        let diagram = if seed % 2 == 0 {
            radial(seed, 12)
        } else {
            senseless(seed, 15, 25)
        };
        let layout = layout(&diagram);
        let drawn = svg(&layout, &Style::default());
        let elements = check(&drawn);
        let reached: Vec<&Element> = groups(&elements).collect();
        assert_eq!(
            drawn.matches(".</title>").count(),
            reached.len(),
            "every part has a name"
        );
        assert_eq!(reached.len(), layout.blocks.len() + layout.links.len());
        let mut ids = BTreeSet::new();
        for group in reached {
            assert_eq!(attribute(group, "tabindex"), Some("0"));
            assert!(attribute(group, "data-id").is_some());
            assert!(attribute(group, "data-kind").is_some());
            assert!(
                ids.insert(attribute(group, "id").unwrap().to_owned()),
                "ids are unique"
            );
        }
        let class = |wanted: &str| {
            let is = |e: &&Element| attribute(e, "class") == Some(wanted);
            elements.iter().filter(is).count()
        };
        assert_eq!(
            class("hit"),
            layout.links.len(),
            "every wire can be touched"
        );
    }
}

#[test]
fn no_colour_stands_outside_the_custom_properties() {
    let style = Style {
        css: Css::OnPage,
        ..Style::default()
    };
    let text = svg(&layout(&radial(1, 12)), &style);
    assert!(!text.contains("<style"));
    let colour = |text: &str| {
        text.split('#').skip(1).any(|rest| {
            let hex: String = rest.chars().take_while(char::is_ascii_hexdigit).collect();
            hex.len() == 3 || hex.len() == 6
        })
    };
    assert!(!colour(&text), "no colour in the drawing itself");
    let sheet = wainwright_drawing::stylesheet();
    for rule in sheet.split('}').filter(|rule| colour(rule)) {
        assert!(
            rule.contains("--ink:"),
            "colours only where properties are given: {rule}"
        );
    }
    for property in [
        "ink", "paper", "plus", "minus", "calm", "watch", "bad", "off", "scale-0",
    ] {
        assert_eq!(
            sheet.matches(&format!("--{property}:")).count(),
            2,
            "{property} light and dark"
        );
    }
}

#[test]
fn poles_differ_without_colour() {
    let elements = check(&svg(&layout(&radial(1, 5)), &Style::default()));
    let group = |pole: &str| {
        let class = format!("link {pole} ");
        elements
            .iter()
            .position(|e| attribute(e, "class").is_some_and(|c| c.starts_with(&class)))
            .unwrap()
    };
    let core = |from: usize| {
        elements[from + 1..]
            .iter()
            .take_while(|e| e.name != "g")
            .any(|e| attribute(e, "class") == Some("core"))
    };
    assert!(core(group("minus")), "minus wires are hollow");
    assert!(!core(group("plus")), "plus wires are solid");
}

#[test]
fn two_drawings_on_one_page_keep_their_ids_apart() {
    let layout = layout(&radial(1, 5));
    let with = |prefix: &str| {
        let style = Style {
            id_prefix: prefix.into(),
            ..Style::default()
        };
        let elements = check(&svg(&layout, &style));
        let ids = elements
            .iter()
            .filter_map(|e| attribute(e, "id"))
            .map(str::to_owned);
        ids.collect::<BTreeSet<String>>()
    };
    assert!(with("a-").is_disjoint(&with("b-")));
}

#[test]
fn blocks_with_the_same_id_keep_their_element_ids_apart() {
    let mut diagram = Diagram::default();
    for _ in 0..3 {
        diagram.blocks.push(block(BlockKind::Load, "twin", &[]));
    }
    let elements = check(&svg(&layout(&diagram), &Style::default()));
    let ids: Vec<&str> = groups(&elements)
        .filter_map(|e| attribute(e, "id"))
        .collect();
    assert_eq!(ids, ["block-twin", "block-twin-2", "block-twin-3"]);
}

#[test]
fn charts_are_well_formed_for_odd_values() {
    let values = [0.0, 0.5, 1.0, 3.0, -1.0, f64::NAN, f64::INFINITY, 1e12];
    let name = "<&\"' \u{1}name";
    for value in values {
        for limit in values {
            check(&bar(
                &Bar {
                    label: name.into(),
                    value,
                    limit,
                    value_text: name.into(),
                    limit_text: name.into(),
                    tone: Tone::Scale(value),
                },
                Css::Inside,
            ));
            check(&time_band(
                &TimeBand {
                    device: name.into(),
                    earliest_seconds: (value > 0.0).then_some(value),
                    latest_seconds: (limit > 0.0).then_some(limit),
                    conductor: name.into(),
                    withstand_seconds: Some(value),
                    tone: Tone::Bad,
                },
                Css::OnPage,
            ));
            let step = Step {
                label: name.into(),
                volts: value,
                tone: Tone::Watch,
            };
            check(&profile(
                &Profile {
                    title: name.into(),
                    start_volts: limit,
                    steps: vec![step; 3],
                    limit_volts: Some(value),
                },
                Css::Inside,
            ));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_comes_back_as_it_was(text in any::<String>()) {
        let mut diagram = Diagram::default();
        let mut one = block(BlockKind::Load, "a", &[("+", Pole::Plus), ("-", Pole::Minus)]);
        one.id = text.clone();
        one.title = text.clone();
        one.lines = vec![text.clone()];
        one.badge = Some(text.clone());
        one.terminals[0].label = text.clone();
        diagram.blocks.push(one);
        let mut wire = link(1, (&text, "+"), (&text, "-"), Pole::Plus);
        wire.id = text.clone();
        wire.label = text.clone();
        wire.value = Some(text.clone());
        diagram.links.push(wire);
        let elements = check(&svg(&layout(&diagram), &Style::default()));
        let plain: String = text
            .chars()
            .map(|c| if matches!(c, '\t' | '\n' | '\r') { ' ' } else { c })
            .filter(|c| *c >= ' ' && !matches!(c, '\u{FFFE}' | '\u{FFFF}'))
            .collect();
        for group in groups(&elements) {
            prop_assert_eq!(attribute(group, "data-id"), Some(plain.as_str()));
        }
    }
}
