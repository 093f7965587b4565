//! Situations tried out on the page are computed and not kept.

use crate::client::{DEMO, SMALL, Site};

/// The line that says what is given and taken.
fn outcome(site: &Site, place: &str) -> String {
    let body = site.get(place).body;
    let line = body.split("id=\"outcome\"").nth(1).unwrap();
    line.split("</p>").next().unwrap().to_owned()
}

#[test]
fn switching_a_load_off_changes_the_page_and_not_the_file() {
    let site = Site::new(SMALL);
    let on = outcome(&site, "/wiring?state=what-if&on=lamp&battery=resting");
    let off = outcome(&site, "/wiring?state=what-if&battery=resting");
    assert_ne!(on, off);
    assert!(off.contains("taken <b>0 W</b>"), "{off}");
    assert!(!on.contains("taken <b>0 W</b>"), "{on}");
    assert_eq!(site.text(), SMALL);
    assert_eq!(site.revision(), "1");
}

#[test]
fn the_selected_wire_is_marked_and_its_numbers_shown() {
    let site = Site::new(DEMO);
    let body = site
        .get("/wiring?select=wire.inverter-plus&state=cooking&colour=temperature")
        .body;
    assert!(body.contains("id=\"s-link-inverter-plus\" class=\"selected link"));
    assert!(body.contains("data-wire=\"inverter-plus\""));
    for heading in [
        "Findings",
        "What protects it",
        "If it shorts",
        "How the numbers came about",
    ] {
        assert!(body.contains(&format!("<h3>{heading}</h3>")), "{heading}");
    }
    assert!(body.contains("data-form=\"wire.inverter-plus\""));
}

#[test]
fn every_wire_and_item_of_the_example_can_be_selected() {
    let site = Site::new(DEMO);
    let study = wainwright::study::Study::of(DEMO);
    for id in study.project.wires.ids() {
        let body = site.get(&format!("/wiring?select=wire.{id}")).body;
        assert!(body.contains(&format!("data-wire=\"{id}\"")), "{id}");
        assert!(
            body.contains(&format!("id=\"s-link-{id}\"")),
            "{id} is not drawn"
        );
    }
    let wired = study
        .project
        .items
        .iter()
        .filter(|(_, item)| item.spec.kind().is_wired());
    for (id, _) in wired {
        let body = site.get(&format!("/wiring?select=item.{id}")).body;
        assert!(body.contains(&format!("data-item=\"{id}\"")), "{id}");
        assert!(
            body.contains(&format!("id=\"s-block-{id}\"")),
            "{id} is not drawn"
        );
    }
}

#[test]
fn every_finding_has_its_page() {
    let site = Site::new(DEMO);
    let study = wainwright::study::Study::of(DEMO);
    assert!(!study.findings.is_empty());
    for finding in &study.findings {
        let key = crate::client::encoded(&finding.key());
        let answer = site.get(&format!("/finding?key={key}"));
        assert_eq!(answer.status, 200, "{key}");
        assert!(
            answer
                .body
                .contains(&format!("data-finding=\"{}\"", finding.key())),
            "{key}"
        );
    }
}
