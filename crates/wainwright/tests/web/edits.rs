//! A change made on a page is on the disk when it is confirmed, and can be
//! taken back byte for byte.

use crate::client::{DEMO, SMALL, Site, fields};

#[test]
fn an_edit_is_saved_undone_and_redone() {
    let site = Site::new(SMALL);
    let answer = site.send_form("/edit/wire/b", &[("length", "12' 6\"")]);
    assert_eq!(answer.status, 303, "{}", answer.body);
    let changed = SMALL.replace("length = \"10 ft\"", "length = \"12' 6\\\"\"");
    assert_eq!(site.text(), changed);
    let undo = site.post("/undo", &[("revision", &site.revision())]);
    assert_eq!(undo.status, 303);
    assert_eq!(site.text(), SMALL);
    let redo = site.post("/redo", &[("revision", &site.revision())]);
    assert_eq!(redo.status, 303);
    assert_eq!(site.text(), changed);
    let again = site.post("/redo", &[("revision", &site.revision())]);
    assert_eq!(again.status, 409);
}

#[test]
fn a_form_sent_back_unchanged_changes_nothing() {
    let site = Site::new(DEMO);
    let session = wainwright::study::Study::of(DEMO);
    let project = &session.project;
    let items = project.items.ids().map(|id| format!("/edit/item/{id}"));
    let wires = project.wires.ids().map(|id| format!("/edit/wire/{id}"));
    let states = project.states.ids().map(|id| format!("/edit/state/{id}"));
    let singles = ["project", "trailer", "limits"].map(|name| format!("/edit/{name}"));
    for page in items.chain(wires).chain(states).chain(singles) {
        let answer = site.send_form(&page, &[]);
        assert_eq!(answer.status, 303, "{page}: {}", answer.body);
        assert!(site.text() == DEMO, "{page} changed the file");
    }
}

#[test]
fn an_edit_of_what_was_changed_meanwhile_is_refused_and_kept() {
    let site = Site::new(SMALL);
    let old = site.revision();
    let first = site.send_form("/edit/wire/b", &[("length", "11 ft")]);
    assert_eq!(first.status, 303);
    let before = site.text();
    let late = site.send_form("/edit/wire/b", &[("length", "77 ft"), ("revision", &old)]);
    assert_eq!(late.status, 409);
    assert!(late.body.contains("changed meanwhile"));
    assert!(
        late.body.contains("value=\"77 ft\""),
        "what was typed is kept"
    );
    assert_eq!(site.text(), before);
    // Something else may still be changed from the old page.
    let other = site.send_form("/edit/item/lamp", &[("current", "3 A"), ("revision", &old)]);
    assert_eq!(other.status, 303);
    assert!(site.text().contains("current = \"3 A\""));
    assert!(site.text().contains("length = \"11 ft\""));
}

#[test]
fn a_new_wire_is_added_renamed_and_deleted() {
    let site = Site::new(SMALL);
    let added = site.send_form(
        "/add/wire?from=main.out",
        &[
            ("to", "lamp.+"),
            ("size", "12 AWG"),
            ("length", "3 ft"),
            ("label", "Spare lead"),
        ],
    );
    assert_eq!(added.status, 303, "{}", added.body);
    assert!(site.text().contains("[wire.spare-lead]"), "{}", site.text());
    let renamed = site.send_form("/edit/wire/spare-lead", &[("id", "spare")]);
    assert_eq!(renamed.status, 303);
    assert!(site.text().contains("[wire.spare]"));
    let gone = site.post("/delete/wire/spare", &[("revision", &site.revision())]);
    assert_eq!(gone.status, 303);
    assert_eq!(site.text(), SMALL);
}

#[test]
fn a_renamed_item_takes_its_wires_along_and_a_deleted_one_too() {
    let site = Site::new(SMALL);
    assert_eq!(
        site.send_form("/edit/item/lamp", &[("id", "ceiling-lamp")])
            .status,
        303
    );
    assert!(site.text().contains("to = \"ceiling-lamp.+\""));
    assert!(!site.text().contains("\"lamp."));
    let page = site.get("/delete/item/ceiling-lamp");
    assert!(page.body.contains("wire b") && page.body.contains("wire c"));
    let sent = fields(&page.body, "action=\"/delete/item/ceiling-lamp\"");
    let sent: Vec<(&str, &str)> = sent.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    assert_eq!(site.post("/delete/item/ceiling-lamp", &sent).status, 303);
    assert!(!site.text().contains("lamp"));
    assert!(site.text().contains("[wire.a]"));
}

#[test]
fn a_duplicate_has_the_values_but_not_the_name() {
    let site = Site::new(SMALL);
    let copied = site.send_form("/add/item?copy=lamp", &[]);
    assert_eq!(copied.status, 303, "{}", copied.body);
    assert!(site.text().contains("[item.lamp-2]"));
    assert!(site.text().contains("label = \"Lamp (copy)\""));
    assert!(site.text().starts_with(&SMALL[..100]));
}

#[test]
fn the_text_itself_can_be_changed_but_never_over_a_newer_one() {
    let site = Site::new(SMALL);
    let old = site.revision();
    let text = SMALL.replace("100 Ah", "200 Ah");
    let crlf = text.replace('\n', "\r\n");
    assert_eq!(
        site.post("/file", &[("revision", &old), ("text", &crlf)])
            .status,
        303
    );
    assert_eq!(site.text(), text);
    let late = site.post("/file", &[("revision", &old), ("text", "mine = true\n")]);
    assert_eq!(late.status, 409);
    assert!(late.body.contains("mine = true"));
    assert_eq!(site.text(), text);
}

#[test]
fn a_proven_fix_is_applied_with_one_press() {
    let site = Site::new(DEMO);
    let key = "fuse-behind-switch";
    let page = (0..600).find_map(|_| {
        std::thread::sleep(std::time::Duration::from_millis(100));
        let page = site.get("/").body;
        page.contains("class=\"fix\"").then_some(page)
    });
    let page = page.unwrap_or_else(|| panic!("no fix was proven in time, not even of {key}"));
    let sent = fields(&page, "action=\"/fix\"");
    let value = |name: &str| sent.iter().find(|(n, _)| n == name).unwrap().1.clone();
    let pairs: Vec<(&str, &str)> = sent.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    let answer = site.post("/fix", &pairs);
    assert_eq!(answer.status, 303, "{}", answer.body);
    let study = wainwright::study::Study::of(site.text());
    assert!(
        study.finding(&value("key")).is_none(),
        "{} still stands",
        value("key")
    );
    let page = site.get("/").body;
    let button = page
        .split("id=\"undo\"")
        .nth(1)
        .unwrap()
        .split("</button>")
        .next()
        .unwrap();
    assert!(
        button.contains(&crate::client::escaped(&value("title"))),
        "undo names it: {button}"
    );
    // The same fix is not proven for the changed text.
    let again = site.post("/fix", &pairs);
    assert_eq!(again.status, 409);
}

#[test]
fn a_project_can_go_on_in_another_file() {
    let site = Site::new(SMALL);
    let other = site.beside("other.toml");
    let path = other.to_str().unwrap();
    assert_eq!(site.post("/file/save-as", &[("path", path)]).status, 303);
    assert_eq!(
        site.send_form("/edit/wire/b", &[("length", "11 ft")])
            .status,
        303
    );
    assert_eq!(site.text(), SMALL);
    assert!(std::fs::read_to_string(&other).unwrap().contains("11 ft"));
    // A file that is there is left as it is.
    let taken = site.beside("trailer.toml");
    let refused = site.post("/file/save-as", &[("path", taken.to_str().unwrap())]);
    assert_eq!(refused.status, 409);
    assert_eq!(site.text(), SMALL);
}
