//! A refused form says what is wrong beside the field and keeps what was
//! typed; the file is not touched.

use crate::client::{DEMO, SMALL, Site};

#[test]
fn what_is_no_length_is_refused_where_it_was_typed() {
    let site = Site::new(SMALL);
    let answer = site.send_form("/edit/wire/b", &[("length", "ten feet"), ("size", "8 AWG")]);
    assert_eq!(answer.status, 422);
    assert!(answer.body.contains("value=\"ten feet\""));
    assert!(answer.body.contains("value=\"8 AWG\""));
    let field = answer.body.split("id=\"field-length\"").nth(1).unwrap();
    let field = field.split("id=\"field-").next().unwrap();
    assert!(field.contains("class=\"error\""), "{field}");
    assert!(field.contains("aria-invalid"));
    assert_eq!(site.text(), SMALL);
}

#[test]
fn values_out_of_range_wrong_words_and_lost_ends_are_refused() {
    let site = Site::new(SMALL);
    for (page, name, value) in [
        ("/edit/wire/b", "bundle", "0"),
        ("/edit/wire/b", "bundle", "three"),
        ("/edit/wire/b", "length", "-3 ft"),
        ("/edit/wire/b", "size", "11.5 AWG"),
        ("/edit/wire/b", "runs", "sideways"),
        ("/edit/wire/b", "to", "nowhere.+"),
        ("/edit/wire/b", "to", ""),
        ("/edit/wire/b", "like", "nothing"),
        ("/edit/wire/b", "id", "Two Words"),
        ("/edit/item/bat", "capacity", "100"),
        ("/edit/item/bat", "cells", "4.5"),
        ("/edit/item/main", "part", "no-such-part"),
        ("/edit/trailer", "summer_air", "9000 °F"),
        ("/edit/limits", "drop_critical", "90 %"),
    ] {
        let answer = site.send_form(page, &[(name, value)]);
        assert_eq!(answer.status, 422, "{page} {name} {value:?}");
        assert!(answer.body.contains("Not saved."), "{page} {name}");
        assert_eq!(site.text(), SMALL, "{page} {name}");
    }
}

#[test]
fn an_id_that_is_in_use_is_refused() {
    let site = Site::new(SMALL);
    let answer = site.send_form("/edit/wire/b", &[("id", "a")]);
    assert_eq!(answer.status, 422);
    assert!(answer.body.contains("there already"), "{}", answer.body);
    assert_eq!(site.text(), SMALL);
}

#[test]
fn typed_quantities_are_kept_as_typed() {
    let site = Site::new(SMALL);
    assert_eq!(
        site.send_form("/edit/wire/b", &[("length", "3 m 20 cm")])
            .status,
        303
    );
    assert!(site.text().contains("length = \"3 m 20 cm\""));
    let page = site.get("/edit/wire/b");
    assert!(page.body.contains("value=\"3 m 20 cm\""));
}

#[test]
fn a_value_that_cannot_be_read_is_shown_to_be_mended() {
    let broken = SMALL.replace("10 AWG", "10 AWGG");
    let site = Site::new(&broken);
    assert!(site.get("/edit/wire/a").body.contains("value=\"10 AWGG\""));
    // Other fields can be changed only together with it.
    assert_eq!(
        site.send_form("/edit/wire/a", &[("length", "5 in")]).status,
        422
    );
    let both = site.send_form("/edit/wire/a", &[("length", "5 in"), ("size", "10 AWG")]);
    assert_eq!(both.status, 303);
    assert_eq!(site.text(), SMALL.replace("4 in", "5 in"));
}

#[test]
fn ways_of_a_fuse_block_are_lines() {
    let site = Site::new(DEMO);
    let ratings = "15 A\r\n15 A\r\n20 A\r\n20 A\r\n10 A\r\n10 A\r\n15 A\r\n5 A\r\n\r\n";
    assert_eq!(
        site.send_form("/edit/item/block", &[("fuses", ratings)])
            .status,
        303
    );
    let before = "\"20 A\", \"30 A\", \"10 A\"";
    assert_eq!(
        site.text(),
        DEMO.replace(before, "\"20 A\", \"20 A\", \"10 A\"")
    );
}

#[test]
fn corners_of_a_trunk_are_lines() {
    let site = Site::new(SMALL);
    let corners = "4 in, 1 in, 70 in\r\n 9 ft, 1 in, 70 in \r\n\r\n9 ft, 1 in, 0\r\n";
    let answer = site.send_form("/add/trunk", &[("label", "Ceiling"), ("path", corners)]);
    assert_eq!(answer.status, 303, "{}", answer.body);
    let written = "[trunk.ceiling]\nlabel = \"Ceiling\"\npath = [\"4 in, 1 in, 70 in\", \"9 ft, 1 in, 70 in\", \"9 ft, 1 in, 0\"]\n";
    assert!(site.text().contains(written), "{}", site.text());
    // The form shows them one on a line, and sent back unchanged it changes nothing.
    let page = site.get("/edit/trunk/ceiling");
    let shown = "4 in, 1 in, 70 in\n9 ft, 1 in, 70 in\n9 ft, 1 in, 0</textarea>";
    assert!(page.body.contains(shown), "{}", page.body);
    let before = site.text();
    let same = [("label", "Ceiling"), ("path", corners)];
    assert_eq!(site.send_form("/edit/trunk/ceiling", &same).status, 303);
    assert_eq!(site.text(), before);
    // A corner that is no place is told at the field.
    let wrong = [("label", "Ceiling"), ("path", "4 in, 1 in\r\n")];
    let answer = site.send_form("/edit/trunk/ceiling", &wrong);
    assert_eq!(answer.status, 422);
    assert!(answer.body.contains("2 lengths"), "{}", answer.body);
    assert_eq!(site.text(), before);
}

#[test]
fn the_trunks_of_a_wire_keep_their_order() {
    let trunks = "\n[trunk.a]\npath = [\"0, 0, 0\", \"1 ft, 0, 0\"]\n\n[trunk.b]\npath = [\"1 ft, 0, 0\", \"2 ft, 0, 0\"]\n";
    let site = Site::new(&format!("{SMALL}{trunks}"));
    let route = |route: &str| site.send_form("/edit/wire/b", &[("route", route)]).status;
    assert_eq!(route("b, a"), 303);
    assert!(site.text().contains("route = [\"b\", \"a\"]"));
    assert!(site.get("/edit/wire/b").body.contains("value=\"b, a\""));
    assert_eq!(route("a, b"), 303);
    assert!(site.text().contains("route = [\"a\", \"b\"]"));
    assert_eq!(route("a, nowhere"), 422);
}

#[test]
fn every_table_has_a_form_that_can_be_sent() {
    let site = Site::new(SMALL);
    for (page, fields) in [
        (
            "/add/opening",
            vec![
                ("wall", "right"),
                ("size", "30 in x 0 in x 60 in"),
                ("spot", "18 in, 70 in, 0"),
            ],
        ),
        (
            "/add/stock",
            vec![("of", "wire"), ("length", "20 ft"), ("price", "1.4")],
        ),
        (
            "/add/weighing?full=tank",
            vec![("by", "tongue"), ("reading", "180 lb")],
        ),
        ("/edit/vehicle", vec![("wheelbase", "127 in")]),
        ("/edit/towing", vec![("speed", "60 mph")]),
    ] {
        if page.starts_with("/add/weighing") {
            let tank = [("holds", "fresh"), ("id", "tank"), ("capacity", "20 gal")];
            assert_eq!(site.send_form("/add/item?kind=tank", &tank).status, 303);
        }
        let answer = site.send_form(page, &fields);
        assert_eq!(answer.status, 303, "{page}: {}", answer.body);
    }
    for page in [
        "/edit/opening/opening",
        "/edit/stock/stock",
        "/edit/weighing/weighing",
    ] {
        assert_eq!(site.get(page).status, 200, "{page}");
    }
    assert!(site.text().contains("price = 1.4"));
    assert!(site.text().contains("full = [\"tank\"]"));
    let study = wainwright::study::Study::of(site.text());
    assert!(study.problems.is_empty(), "{:?}", study.problems);
    for (page, name, value) in [
        ("/edit/stock/stock", "price", "cheap"),
        ("/edit/stock/stock", "price", "-1"),
        ("/edit/opening/opening", "size", "30 in x -1 in x 60 in"),
        ("/edit/towing", "speed", "0 mph"),
        ("/edit/vehicle", "wheelbase", "-3 ft"),
    ] {
        assert_eq!(
            site.send_form(page, &[(name, value)]).status,
            422,
            "{page} {value}"
        );
    }
}

#[test]
fn a_state_is_made_of_ticked_boxes() {
    let site = Site::new(SMALL);
    let answer = site.send_form("/add/state?on=lamp&battery=low", &[("label", "Reading")]);
    assert_eq!(answer.status, 303, "{}", answer.body);
    assert!(site.text().contains("[state.reading]"));
    assert!(site.text().contains("on = [\"lamp\"]"));
    assert!(site.get("/wiring?state=reading").body.contains("Reading"));
}

#[test]
fn every_kind_can_be_added_and_every_part_taken() {
    let site = Site::new("wainwright = 1\n");
    for kind in wainwright_model::KINDS {
        let answer = site.send_form(&format!("/add/item?kind={}", kind.name), &[]);
        assert_eq!(answer.status, 303, "{}: {}", kind.name, answer.body);
        assert!(
            site.text().contains(&format!("[item.{}]", kind.name)),
            "{}",
            kind.name
        );
    }
    for id in wainwright_analysis::catalogue().parts().ids() {
        let answer = site.send_form(&format!("/add/item?part={id}"), &[]);
        assert_eq!(answer.status, 303, "{id}: {}", answer.body);
    }
    let study = wainwright::study::Study::of(site.text());
    assert!(study.problems.is_empty(), "{:?}", study.problems);
    assert_eq!(site.get("/wiring").status, 200);
    assert_eq!(site.get("/circuits?show=gear").status, 200);
}
