//! Sides, cutting plans and cut sheets over HTTP: there for every project, safe for any name, one clear step at a time.

use crate::client::{DEMO, SMALL, Site};

const PLACES: [&str; 7] = [
    "/lining",
    "/lining?side=right&layer=wall-planks&piece=12",
    "/lining?side=roof",
    "/lining?side=nowhere&layer=gone&piece=-1",
    "/lining/cut",
    "/print/cut",
    "/print/cut?paper=a4",
];

/// A box with unfinished layers and a name that wants to be markup.
const ODD: &str = r#"wainwright = 1

[trailer]
inside_length = "3.6 m"
inside_width = "1.8 m"
inside_height = "1.9 m"

[opening.porthole]
label = "<b>Port\"hole</b>"
wall = "left"
spot = "1 m, 0 m, 800 mm"
size = "400 mm x 0 mm x 400 mm"
shape = "round"

[layer.a]
label = "<script>alert(1)</script>"
on = ["left", "roof"]
of = "planks"
material = "unobtainium & more"
thickness = "12 mm"
width = "121 mm"

[layer.b]
on = ["left"]
of = "foam"

[layer.c]
on = []
of = "sheets"
"#;

#[test]
fn every_page_is_there_for_every_project() {
    for text in ["", "wainwright = 1\n", "[[[", SMALL, DEMO, ODD] {
        let site = Site::new(text);
        for place in PLACES {
            site.is_sound(place);
        }
    }
}

#[test]
fn names_are_never_markup() {
    let site = Site::new(ODD);
    for place in [
        "/lining?side=left",
        "/lining?side=left&layer=a",
        "/lining/cut",
        "/print/cut",
    ] {
        let body = site.get(place).body;
        assert!(!body.contains("<script>alert"), "{place}");
        assert!(!body.contains("<b>Port"), "{place}");
    }
    let page = site.get("/lining?side=left&layer=a").body;
    assert!(page.contains("&lt;script&gt;alert(1)"));
    // A porthole is drawn round.
    assert!(page.contains("<ellipse class=\"gap-in-it\""));
}

#[test]
fn an_empty_project_is_led_from_the_box_to_the_first_layer() {
    let site = Site::new("wainwright = 1\n");
    assert!(
        site.get("/lining")
            .body
            .contains("/edit/trailer?back=/lining")
    );
    let boxed = "wainwright = 1\n[trailer]\ninside_length = \"12 ft\"\ninside_width = \"6 ft\"\ninside_height = \"6 ft\"\n";
    let site = Site::new(boxed);
    let page = site.get("/lining").body;
    assert!(page.contains("action=\"/lining/begin\"") && page.contains("/add/layer?back=/lining"));
    let page = site.get("/lining/cut").body;
    assert!(page.contains("First the sides"));
}

#[test]
fn what_is_not_there_is_not_ticked_off() {
    let site = Site::new(DEMO);
    let revision = site.revision();
    for (layer, side) in [("gone", "left"), ("wall-planks", "upside"), ("", "")] {
        let fields = [
            ("revision", revision.as_str()),
            ("layer", layer),
            ("side", side),
        ];
        assert_eq!(
            site.post("/lining/done", &fields).status,
            404,
            "{layer} {side}"
        );
    }
    let fields = [("revision", revision.as_str()), ("layer", "gone")];
    assert_eq!(site.post("/lining/begin", &fields).status, 404);
    assert_eq!(site.text(), DEMO);
}
