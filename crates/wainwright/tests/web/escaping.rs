//! Whatever a project calls its things, it stays text on the page.

use crate::client::{SMALL, Site};

const HOSTILE: &str = "</title><script>alert(1)</script><img src=x onerror=alert(2)>&\\\"'";

#[test]
fn hostile_names_stay_text() {
    let mut text = SMALL.replace("\"Small\"", &format!("\"{HOSTILE}\""));
    for label in ["Battery", "Main fuse", "Lamp"] {
        text = text.replace(
            &format!("label = \"{label}\""),
            &format!("label = \"{HOSTILE}\"\nnote = \"{HOSTILE}\""),
        );
    }
    text = text.replace(
        "length = \"4 in\"",
        &format!("length = \"4 in\"\nlabel = \"{HOSTILE}\"\nruns = \"{HOSTILE}\""),
    );
    text.push_str(&format!("\n[state.s]\nlabel = \"{HOSTILE}\"\non = [\"{HOSTILE}\"]\n[part.p]\nkind = \"fuse\"\nlabel = \"{HOSTILE}\"\n"));
    let site = Site::new(&text);
    for page in [
        "/",
        "/wiring?select=wire.a",
        "/wiring?select=item.main&state=s",
        "/circuits",
        "/circuits?show=gear",
        "/circuits?show=protection",
        "/circuits?show=others",
        "/file",
        "/add/wire",
        "/add/item?part=p",
        "/edit/item/bat",
        "/edit/state/s",
        "/delete/item/bat",
    ] {
        let body = site.get(page).body;
        assert!(
            body.contains("&lt;script&gt;alert(1)"),
            "{page} does not show it"
        );
        assert!(!body.contains("<script>alert"), "{page}");
        assert!(!body.contains("<img"), "{page}");
    }
}

#[test]
fn what_comes_with_the_address_stays_text() {
    let site = Site::new(SMALL);
    let hostile = "%22%3E%3Cscript%3Ealert(1)%3C%2Fscript%3E";
    for page in [
        format!("/circuits?find={hostile}&sort={hostile}"),
        format!("/wiring?select=wire.{hostile}&state={hostile}"),
        format!("/bench?size={hostile}&insulation={hostile}"),
        format!("/add/wire?from={hostile}&label={hostile}"),
        format!("/add/item?part={hostile}"),
        format!("/finding?key={hostile}"),
        format!("/edit/item/{hostile}"),
        format!("/rules/{hostile}"),
    ] {
        let body = site.get(&page).body;
        assert!(!body.contains("<script>alert"), "{page}");
    }
}
