//! The demonstration projects, bare and complete.

use super::{plan, told};
use wainwright_analysis::catalogue;
use wainwright_model::{Edit, apply, parse, path};
use wainwright_rules::Subject;
use wainwright_rules::plan::ObstacleKind;

const DARK_SKY: &str = include_str!("../../../../examples/dark-sky.toml");
const METRIC: &str = include_str!("../../../../examples/dark-sky-metric.toml");

const GEAR_LIST: &str = include_str!("../../../../examples/gear-list.toml");

/// The text without a single wire.
fn bare(text: &str) -> String {
    let parsed = parse(text, catalogue());
    let wires: Vec<Edit> = parsed
        .project
        .wires
        .ids()
        .map(|id| Edit::Remove {
            table: path(["wire", id.as_str()]),
        })
        .collect();
    apply(text, &wires).unwrap().text
}

#[test]
fn bare_demonstrations_can_be_planned() {
    for text in [DARK_SKY, METRIC] {
        let plan = plan(&bare(text));
        assert!(plan.unsolved.is_empty(), "{}", told(&plan));
        assert!(!plan.is_empty());
        // Only what the account says is not used has no wire.
        let spare = |id: &str| {
            let told = plan
                .obstacles
                .iter()
                .filter(|o| o.kind == ObstacleKind::Unused);
            told.flat_map(|o| &o.items).any(|item| item == id)
        };
        for loose in plan.findings.iter().filter(|f| f.rule == "loose-terminal") {
            let Subject::Item(id) = &loose.subjects[0] else {
                panic!("{}", loose.headline)
            };
            assert!(spare(id.as_str()), "{}", loose.headline);
        }
    }
}

#[test]
fn demonstrations_with_their_wiring_keep_it_and_get_what_is_missing() {
    for (text, added) in [(DARK_SKY, vec!["usb-minus"]), (METRIC, vec!["frame-bond"])] {
        let plan = plan(text);
        assert!(plan.unsolved.is_empty(), "{}", told(&plan));
        let before = parse(text, catalogue()).project;
        let after = parse(&plan.text, catalogue()).project;
        let new: Vec<&str> = after
            .wires
            .ids()
            .map(|id| id.as_str())
            .filter(|id| !before.wires.contains(id))
            .collect();
        assert_eq!(new, added);
        assert!(super::plan(&plan.text).is_empty());
    }
}

#[test]
fn the_gear_list_gets_all_its_wiring() {
    let plan = plan(GEAR_LIST);
    assert!(plan.unsolved.is_empty(), "{}", told(&plan));
    let loose: Vec<&str> = plan
        .findings
        .iter()
        .filter(|f| f.rule == "loose-terminal")
        .map(|f| f.headline.as_str())
        .collect();
    assert!(loose.is_empty(), "{loose:?}\n{}", told(&plan));
}
