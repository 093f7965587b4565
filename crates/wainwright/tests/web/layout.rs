//! Where things go: placing, trying, weighing, holding, over HTTP.

use crate::client::{DEMO, SMALL, Site, escaped};

/// A box with an axle, a heavy thing, one without mass, one without place.
const BOX: &str = r#"wainwright = 1

[project]
name = "Box"
units = "metric"
region = "EU"

[trailer]
inside_length = "3.6 m"
inside_width = "1.8 m"
inside_height = "1.9 m"
ball_to_front = "1.2 m"
ball_to_axle = "3.3 m"
axles = 1
track = "2.0 m"
floor_height = "500 mm"
wheel_radius = "320 mm"
coupling_height = "430 mm"
empty_mass = "600 kg"
empty_tongue = "40 kg"
empty_centre_height = "900 mm"
gross_rating = "1300 kg"
rib_spacing = "400 mm"

[item.chest]
label = "Tool chest"
kind = "cargo"
mass = "100 kg"
size = "400 mm x 500 mm x 300 mm" # as it stands
spot = "2400 mm, 100 mm, 0 mm"

[item.box]
label = "Crate"
kind = "cargo"
mass = "20 kg"
size = "400 mm x 400 mm x 400 mm"

[item.rug]
label = "Rug"
kind = "cargo"
spot = "100 mm, 100 mm, 0 mm"

[opening.door]
label = "Side door"
wall = "right"
spot = "1600 mm, 1800 mm, 0 mm"
size = "700 mm x 0 mm x 1800 mm"
swing = "in"
"#;

const PLACES: [&str; 10] = [
    "/layout",
    "/layout?item=chest",
    "/layout?item=bat&side=right",
    "/layout?item=gone&side=up",
    "/layout?small=shown",
    "/layout?item=house&small=shown",
    "/layout/road",
    "/layout/hold",
    "/layout/weigh",
    "/layout/better",
];

#[test]
fn every_page_of_the_place_is_there_for_every_project() {
    for text in ["", "wainwright = 1\n", "[[[", SMALL, DEMO, BOX] {
        let site = Site::new(text);
        for place in PLACES {
            site.is_sound(place);
        }
    }
}

#[test]
fn an_empty_project_begins_with_a_usual_box_in_one_step() {
    let site = Site::new("wainwright = 1\n[project]\nunits = \"us\"\n");
    for place in ["/layout", "/layout/road", "/layout/hold", "/layout/weigh"] {
        let page = site.get(place).body;
        assert!(
            page.contains("Start from a typical 6 x 12 ft box"),
            "{place}"
        );
        assert!(
            !page.contains("far too low"),
            "{place}: nothing is judged unasked"
        );
    }
    let before = site.text();
    let answer = site.post(
        "/layout/begin",
        &[
            ("box", "us-6x12"),
            ("revision", &site.revision()),
            ("back", "/layout"),
        ],
    );
    assert_eq!(answer.location(), Some("/layout"));
    let text = site.text();
    assert!(text.contains("inside_length = \"142 in\""), "{text}");
    assert!(text.contains("empty_mass = \"1400 lb\""), "{text}");
    let page = site.get("/layout").body;
    assert!(page.contains("id=\"w-") || page.contains("class=\"drawing\""));
    assert!(page.contains("id=\"tongue\""));
    site.post("/undo", &[("revision", &site.revision())]);
    assert_eq!(site.text(), before);
}

#[test]
fn what_is_typed_already_outlives_a_usual_box() {
    let site = Site::new("wainwright = 1\n[trailer]\ninside_length = \"3 m\"\n");
    let revision = site.revision();
    site.post(
        "/layout/begin",
        &[("box", "us-6x12"), ("revision", &revision)],
    );
    assert!(site.text().contains("inside_length = \"3 m\""));
    assert!(site.text().contains("inside_width = \"70 in\""));
    assert_eq!(site.post("/layout/begin", &[("box", "none")]).status, 404);
}

#[test]
fn trying_a_place_answers_figures_and_changes_nothing() {
    let site = Site::new(BOX);
    let text = site.text();
    let at = |spot: &str| {
        let answer = site.post("/layout/try", &[("item", "chest"), ("spot", spot)]);
        assert_eq!(answer.status, 200);
        answer.body
    };
    let rear = at("3100 mm, 100 mm, 0 mm");
    let front = at("200 mm, 100 mm, 0 mm");
    assert_ne!(share(&rear), share(&front));
    // 100 kg 2.9 m further forwards, wheels 2.1 m behind the front wall and 3.3 m
    // behind the ball: 100 · 2.9 / 3.3 = 87.9 kg more on the ball of 700 kg.
    let gained = share(&front) - share(&rear);
    assert!(
        (gained - 100.0 * 2.9 / 3.3 / 700.0 * 100.0).abs() < 0.15,
        "{gained}"
    );
    assert!(rear.contains("data-centre=\""));
    assert!(rear.contains("Tool chest"));
    assert_eq!(site.text(), text);
    assert_eq!(site.revision(), "1");
    for fields in [
        &[("item", "gone"), ("spot", "0, 0, 0")][..],
        &[("item", "chest"), ("spot", "here")],
        &[],
    ] {
        assert_eq!(site.post("/layout/try", fields).status, 422);
    }
}

/// The least share of the tongue, as the panel says it [%].
fn share(piece: &str) -> f64 {
    let (_, rest) = piece.split_once("<dt>Least</dt><dd><b>").unwrap();
    rest.split(" %").next().unwrap().parse().unwrap()
}

#[test]
fn a_thing_let_go_is_one_line_and_one_step() {
    let site = Site::new(BOX);
    let before = site.text();
    let answer = site.post(
        "/layout/place",
        &[
            ("item", "chest"),
            ("spot", "812.3 mm, 99.6 mm, 0.0 mm"),
            ("revision", "1"),
            ("back", "/layout?item=chest"),
        ],
    );
    assert_eq!(answer.location(), Some("/layout?item=chest"));
    let after = before.replace(
        "spot = \"2400 mm, 100 mm, 0 mm\"",
        "spot = \"812 mm, 100 mm, 0 mm\"",
    );
    assert_ne!(after, before);
    assert_eq!(site.text(), after);
    assert!(site.get("/layout").body.contains("Undo: Move Tool chest"));
    site.post("/undo", &[("revision", &site.revision())]);
    assert_eq!(site.text(), before);
}

#[test]
fn places_are_typed_without_any_script() {
    let site = Site::new(BOX);
    let page = site.get("/layout?item=chest").body;
    let mut fields = crate::client::fields(&page, "class=\"place\"");
    assert!(
        fields.contains(&("from_front".into(), "2400 mm".into())),
        "{fields:?}"
    );
    let put = |fields: &mut Vec<(String, String)>, name: &str, value: &str| {
        fields.retain(|(other, _)| other != name);
        fields.push((name.into(), value.into()));
    };
    put(&mut fields, "from_front", "1 m");
    put(&mut fields, "mass", "90 kg");
    let send = |fields: &[(String, String)]| {
        let fields: Vec<(&str, &str)> = fields
            .iter()
            .map(|(n, v)| (n.as_str(), v.as_str()))
            .collect();
        site.post("/layout/place", &fields)
    };
    assert_eq!(send(&fields).status, 303);
    assert!(site.text().contains("spot = \"1 m, 100 mm, 0 mm\""));
    assert!(site.text().contains("mass = \"90 kg\""));
    assert!(
        site.text().contains("300 mm\" # as it stands"),
        "the size was not touched"
    );

    let text = site.text();
    put(&mut fields, "revision", &site.revision());
    put(&mut fields, "from_front", "far");
    let answer = send(&fields);
    assert_eq!(answer.status, 422);
    assert!(answer.body.contains("aria-invalid"));
    assert!(
        answer.body.contains("value=\"far\""),
        "what was typed is kept"
    );
    assert!(answer.body.contains("role=\"alert\""));
    assert_eq!(site.text(), text);
}

#[test]
fn what_has_no_place_or_no_mass_is_listed_with_its_remedy() {
    let site = Site::new(BOX);
    let page = site.get("/layout").body;
    assert!(page.contains("data-unsettled=\"box\""));
    assert!(page.contains("data-unsettled=\"rug\""));
    assert!(!page.contains("data-unsettled=\"chest\""));
    let placed = [("item", "box"), ("revision", "1"), ("back", "/layout")];
    assert_eq!(site.post("/layout/middle", &placed).status, 303);
    assert!(!site.get("/layout").body.contains("data-unsettled=\"box\""));
    // The way of the door and the chest are left free.
    let page = site.get("/layout").body;
    assert!(
        !page.contains("Crate stands in"),
        "not in the way of the door"
    );
    assert!(!page.contains("in the same place"));
    let weighed = [
        ("item", "rug"),
        ("mass", "5 kg"),
        ("revision", "2"),
        ("back", "/layout"),
    ];
    assert_eq!(site.post("/layout/place", &weighed).status, 303);
    assert!(site.text().contains("mass = \"5 kg\""));
    assert!(!site.get("/layout").body.contains("data-unsettled"));
}

#[test]
fn what_is_in_the_way_is_said_in_words() {
    let site = Site::new(BOX);
    let tried = |spot: &str| {
        site.post("/layout/try", &[("item", "chest"), ("spot", spot)])
            .body
    };
    let clear = tried("2400 mm, 100 mm, 0 mm");
    assert!(clear.contains("data-bad=\"\""), "{clear}");
    let outside = tried("3400 mm, 100 mm, 0 mm");
    assert!(outside.contains("data-bad=\"chest\""));
    assert!(outside.contains("Tool chest sticks out: 200 mm at the rear."));
    let door = tried("1700 mm, 1200 mm, 0 mm");
    assert!(
        door.contains("Tool chest stands in the way of Side door."),
        "{door}"
    );
}

#[test]
fn a_thing_is_turned_by_a_quarter() {
    let site = Site::new(BOX);
    let sent = [("item", "chest"), ("revision", "1"), ("back", "/layout")];
    assert_eq!(site.post("/layout/turn", &sent).status, 303);
    assert!(
        site.text()
            .contains("size = \"500 mm x 400 mm x 300 mm\" # as it stands")
    );
}

#[test]
fn things_in_the_drawing_are_named_with_place_and_mass() {
    let page = Site::new(BOX).get("/layout?item=chest").body;
    let name = "<title>Tool chest, 100 kg, 2.4 m from the front wall, 100 mm from the left wall, 0 m above the floor</title>";
    assert!(page.contains(name), "no {name}");
    assert!(
        page.contains("data-kind=\"zone\""),
        "where it may stand is hatched"
    );
    assert!(page.contains("Centre of gravity"));
    let odd = BOX.replace("Tool chest", "<b>\\\"chest\\\"");
    let page = Site::new(&odd).get("/layout?item=chest").body;
    assert!(!page.contains("<b>\"chest"));
    assert!(page.contains(&escaped("<b>\"chest\"")));
}

#[test]
fn a_better_layout_is_made_in_one_step() {
    let text = BOX.replace("region = \"EU\"", "region = \"US\"");
    let site = Site::new(&text);
    let page = site.get("/layout/better").body;
    let moves: Vec<String> = crate::client::fields(&page, "action=\"/layout/better\"")
        .into_iter()
        .filter(|(name, _)| name == "move")
        .map(|(_, value)| value)
        .collect();
    assert!(!moves.is_empty(), "the chest behind the axle can be moved");
    let before = share(&site.get("/layout").body);
    let mut fields = vec![("revision", "1"), ("back", "/layout")];
    fields.extend(moves.iter().map(|one| ("move", one.as_str())));
    assert_eq!(site.post("/layout/better", &fields).status, 303);
    assert!(share(&site.get("/layout").body) > before);
    site.post("/undo", &[("revision", &site.revision())]);
    assert_eq!(site.text(), text);
    let odd = [("revision", "1"), ("move", "gone;0, 0, 0")];
    assert_eq!(site.post("/layout/better", &odd).status, 404);
}

#[test]
fn where_nothing_can_be_moved_the_search_says_why() {
    let page = Site::new("wainwright = 1\n[item.a]\nkind = \"cargo\"\nmass = \"20 kg\"\n")
        .get("/layout/better")
        .body;
    assert!(page.contains("No layout can be looked for yet"));
}

#[test]
fn the_road_says_no_safe_speed() {
    let page = Site::new(DEMO).get("/layout/road").body;
    assert!(page.contains("none of them is a safe speed"));
    assert!(page.contains("It is no safe speed."));
    assert!(page.contains("local law"));
    assert!(page.contains("Fuel, an estimate"));
    assert!(page.matches("data-state=").count() >= 2);
}

#[test]
fn another_rule_for_holding_is_one_line() {
    let site = Site::new(BOX);
    let sent = [
        ("against", "three-g"),
        ("revision", "1"),
        ("back", "/layout/hold"),
    ];
    assert_eq!(
        site.post("/layout/against", &sent).location(),
        Some("/layout/hold")
    );
    assert!(site.text().contains("[towing]\nhold_against = \"three-g\""));
    // 100 kg, three times its weight: 100 · 3 · 9.80665 = 2942 N.
    let page = site.get("/layout/hold").body;
    assert!(
        page.contains("2942 N"),
        "three times the weight of the chest"
    );
    assert_eq!(
        site.post("/layout/against", &[("against", "hope")]).status,
        404
    );
}

#[test]
fn weighings_are_added_and_taken_over() {
    let site = Site::new(
        &BOX.replace("[item.rug]", "[item.rug]\nmass = \"5 kg\"")
            .replace(
                "size = \"400 mm x 400 mm x 400 mm\"",
                "size = \"400 mm x 400 mm x 400 mm\"\nspot = \"0 mm, 1400 mm, 0 mm\"",
            ),
    );
    let add = |by: &str, reading: &str| {
        let revision = site.revision();
        let fields = [
            ("by", by),
            ("reading", reading),
            ("accuracy", "2 kg"),
            ("label", by),
            ("revision", &revision),
            ("back", "/layout/weigh"),
        ];
        let answer = site.post("/add/weighing", &fields);
        assert_eq!(answer.location(), Some("/layout/weigh"), "{}", answer.body);
    };
    add("tongue", "60 kg");
    add("whole", "745 kg");
    let page = site.get("/layout/weigh").body;
    assert!(page.contains("The bare trailer, by your scales"), "{page}");
    assert!(page.contains("no reading to spare"));
    // 745 kg less chest, crate and rug: 620 kg.
    assert!(page.contains("620 kg"), "745 - 100 - 20 - 5");
    let revision = site.revision();
    site.post(
        "/layout/take",
        &[("revision", &revision), ("back", "/layout/weigh")],
    );
    assert!(
        site.text().contains("empty_mass = \"620 kg\""),
        "{}",
        site.text()
    );
    add("axle", "900 kg");
    let page = site.get("/layout/weigh").body;
    assert!(page.contains("The weighings contradict each other"));
}

#[test]
fn strangers_place_nothing() {
    let site = Site::new(BOX);
    for place in [
        "try", "place", "middle", "turn", "begin", "better", "against", "take",
    ] {
        let answer = site.raw(&format!(
            "POST /layout/{place} HTTP/1.1\r\nHost: {}\r\nOrigin: http://evil.example\r\nConnection: close\r\n\
             Content-Type: application/x-www-form-urlencoded\r\nContent-Length: 0\r\n\r\n",
            site.host()
        ));
        assert_eq!(answer.status, 403, "{place}");
    }
    assert_eq!(site.text(), BOX);
}
