//! The lists, the routes, the single line and the plan, over HTTP.

use crate::client::{DEMO, SMALL, Site};

/// Gear without a single wire.
const GEAR: &str = include_str!("../../../../examples/gear-list.toml");

/// A box with one trunk on the left wall, and a wire in it.
const ROUTED: &str = r#"wainwright = 1

[project]
name = "Box"
units = "metric"

[trailer]
inside_length = "3.6 m"
inside_width = "1.8 m"
inside_height = "1.9 m"

[item.bat]
label = "Battery"
part = "lfp-12v-100ah"
spot = "100 mm, 0 mm, 0 mm"

[item.main]
label = "Main fuse"
kind = "fuse"
family = "blade"
rating = "20 A"
spot = "100 mm, 0 mm, 250 mm"

[item.lamp]
label = "=HYPERLINK(\"x\"), lamp"
kind = "load"
current = "2 A"
spot = "3200 mm, 0 mm, 300 mm"

[item.shelf]
label = "Radio"
kind = "load"
current = "1 A"

[wire.a]
from = "bat.+"
to = "main.in"
size = "6 mm2"
insulation = "gxl"

[wire.b]
from = "main.out"
to = "lamp.+"
size = "2.5 mm2"
insulation = "gxl"
label = "+L\"1\""

[wire.c]
from = "lamp.-"
to = "bat.-"
size = "2.5 mm2"
insulation = "gxl"

[wire.d]
from = "main.out"
to = "shelf.+"
size = "2.5 mm2"
insulation = "gxl"
length = "2 m"

[trunk.low]
label = "Low on the left"
path = ["400 mm, 10 mm, 300 mm", "3000 mm, 10 mm, 300 mm"] # beside the ribs
runs = "conduit"
behind = "wall panel"
"#;

const PLACES: [&str; 17] = [
    "/wiring",
    "/wiring/line",
    "/wiring/plan",
    "/wiring/routes",
    "/wiring/routes?face=left&select=trunk.low",
    "/wiring/routes?face=right&select=wire.bat-plus",
    "/wiring/routes?face=front&select=item.bat",
    "/wiring/routes?face=rear&select=opening.window",
    "/wiring/routes?face=ceiling&select=trunk.riser-galley",
    "/wiring/routes?face=up&select=wire.gone",
    "/lists",
    "/lists/terminals",
    "/lists/fuses",
    "/lists/labels",
    "/lists/labels?paper=a4&columns=nan&rows=1e9&width=-4&height=x&used=99999&fold=flat",
    "/lists/buy",
    "/print/routes?paper=a4",
];

#[test]
fn every_page_is_there_for_every_project() {
    for text in ["", "wainwright = 1\n", "[[[", SMALL, DEMO, GEAR, ROUTED] {
        let site = Site::new(text);
        for place in PLACES {
            site.is_sound(place);
        }
    }
}

#[test]
fn an_empty_project_gets_the_first_step_everywhere() {
    let site = Site::new("wainwright = 1\n");
    for place in [
        "/wiring/line",
        "/wiring/routes",
        "/wiring/plan",
        "/lists",
        "/lists/terminals",
        "/lists/fuses",
        "/lists/labels",
        "/lists/buy",
        "/print/routes",
    ] {
        let page = site.get(place).body;
        let (_, step) = page.split_once("id=\"next-step\"").expect(place);
        assert!(step.contains("class=\"button primary\""), "{place}");
    }
    assert_eq!(site.get("/lists/wires.csv").body.lines().count(), 1);
    for name in ["wires", "wires.txt", ".csv", "gone.csv", "..%2Fx.csv"] {
        assert_eq!(site.get(&format!("/lists/{name}")).status, 404, "{name}");
    }
}

/// Rows of a file as RFC 4180 has it, quotes taken off.
fn rows(text: &str) -> Vec<Vec<String>> {
    let (mut rows, mut row, mut field, mut quoted) = (vec![], vec![], String::new(), false);
    let mut letters = text.chars().peekable();
    while let Some(c) = letters.next() {
        match (c, quoted) {
            ('"', true) if letters.peek() == Some(&'"') => field.extend(letters.next()),
            ('"', _) => quoted = !quoted,
            (',', false) => row.push(std::mem::take(&mut field)),
            ('\r', false) => {
                assert_eq!(letters.next(), Some('\n'));
                row.push(std::mem::take(&mut field));
                rows.push(std::mem::take(&mut row));
            }
            (c, _) => field.push(c),
        }
    }
    assert!(!quoted && field.is_empty() && row.is_empty(), "cut off");
    rows
}

fn column(rows: &[Vec<String>], name: &str) -> usize {
    let found = rows[0].iter().position(|title| title == name);
    found.unwrap_or_else(|| panic!("no column {name}"))
}

#[test]
fn a_list_is_a_file_for_a_spreadsheet_that_runs_nothing() {
    let site = Site::new(ROUTED);
    let answer = site.get("/lists/wires.csv");
    assert_eq!(
        answer.header("content-type"),
        Some("text/csv; charset=utf-8")
    );
    assert_eq!(
        answer.header("content-disposition"),
        Some("attachment; filename=\"trailer-wires.csv\"")
    );
    assert!(answer.body.contains("\"'+L\"\"1\"\"\""), "{}", answer.body);
    let rows = rows(&answer.body);
    assert_eq!(rows.len(), 5);
    assert!(rows.iter().all(|row| row.len() == rows[0].len()));
    let b = rows
        .iter()
        .find(|row| row[column(&rows, "Id")] == "b")
        .unwrap();
    assert_eq!(b[column(&rows, "Wire")], "'+L\"1\"");
    assert!(b[column(&rows, "To")].starts_with("'=HYPERLINK(\"x\"), lamp"));
    let d = rows
        .iter()
        .find(|row| row[column(&rows, "Id")] == "d")
        .unwrap();
    assert_eq!(d[column(&rows, "Length [m]")], "2", "typed: 2 m");
    for name in ["terminals", "fuses", "labels", "buy"] {
        let text = site.get(&format!("/lists/{name}.csv")).body;
        for row in self::rows(&text) {
            for field in row {
                assert!(!field.starts_with(['=', '+', '-', '@']), "{name}: {field}");
            }
        }
    }
}

#[test]
fn lists_of_the_demo_hold_every_wire_and_its_two_labels() {
    let site = Site::new(DEMO);
    let wires = DEMO.matches("\n[wire.").count();
    let list = rows(&site.get("/lists/wires.csv").body);
    assert_eq!(list.len() - 1, wires);
    let lengths = column(&list, "Length [ft]");
    let plus = list
        .iter()
        .find(|row| row[column(&list, "Id")] == "bat-plus")
        .unwrap();
    assert_eq!(plus[lengths], "2.5", "typed: 30 in");
    assert_eq!(
        rows(&site.get("/lists/labels.csv").body).len() - 1,
        2 * wires
    );
    let page = site
        .get("/lists/labels?paper=letter&columns=4&rows=10")
        .body;
    assert_eq!(page.matches("<figure").count(), (2 * wires).div_ceil(40));
    assert!(page.contains("width=\"215.9mm\" height=\"279.4mm\""));
    let used = site
        .get("/lists/labels?paper=a4&columns=4&rows=10&used=39")
        .body;
    assert_eq!(
        used.matches("<figure").count(),
        (2 * wires + 39).div_ceil(40)
    );
    assert!(used.contains("width=\"210.0mm\" height=\"297.0mm\""));
}

#[test]
fn the_sum_of_the_buying_list_is_the_sum_of_its_costs() {
    let site = Site::new(DEMO);
    let list = rows(&site.get("/lists/buy.csv").body);
    let cost = column(&list, "Cost");
    let costs = list
        .iter()
        .skip(1)
        .filter_map(|row| row[cost].parse::<f64>().ok());
    let sum: f64 = costs.sum();
    assert!(sum > 1.0, "some prices are in the project");
    let page = site.get("/lists/buy").body;
    let (_, shown) = page.split_once("Sum of known prices").unwrap();
    let (_, shown) = shown.split_once("<dd>").unwrap();
    let shown: f64 = shown.split(' ').next().unwrap().parse().unwrap();
    // Each cost in the file is rounded to a thousandth, the sum to a hundredth.
    let most = 0.005 + 0.0005 * list.len() as f64;
    assert!((sum - shown).abs() <= most, "{sum} against {shown}");
    assert!(page.contains("How to cut what you own"));
}

#[test]
fn a_plan_is_put_in_and_taken_back_byte_for_byte() {
    let site = Site::new(GEAR);
    let page = site.get("/wiring/plan").body;
    assert!(page.contains("The plan adds "), "{page}");
    assert!(page.contains("The project with this plan"));
    assert_eq!(site.text(), GEAR, "looking changes nothing");
    let stale = [("revision", "7"), ("back", "/wiring/line")];
    assert_eq!(site.post("/wiring/plan", &stale).status, 409);
    assert_eq!(site.text(), GEAR);
    let sent = [("revision", "1"), ("back", "/wiring/line")];
    let answer = site.post("/wiring/plan", &sent);
    assert_eq!(answer.location(), Some("/wiring/line"), "{}", answer.body);
    let text = site.text();
    assert!(text.matches("\n[wire.").count() > 20, "it is wired");
    let planned = site.get("/wiring/line").body;
    for label in [
        "Fridge",
        "Water pump",
        "Heated blanket",
        "Internet router",
        "Gas alarm",
    ] {
        assert!(planned.contains(&format!("{label}</text>")), "{label}");
    }
    assert!(
        site.get("/wiring/plan")
            .body
            .contains("There is nothing to add")
    );
    let undone = [
        ("revision", site.revision()),
        ("back", "/wiring/plan".into()),
    ];
    let undone = undone
        .each_ref()
        .map(|(name, value)| (*name, value.as_str()));
    site.post("/undo", &undone);
    assert_eq!(site.text(), GEAR);
}

#[test]
fn everything_that_is_fed_stands_on_the_single_line() {
    let page = Site::new(DEMO).get("/wiring/line").body;
    // Those behind the bank hang on bridges between its inlets.
    for label in [
        "Fridge",
        "Cabin lights",
        "Red night lights",
        "Galley lights",
        "Porch light",
        "Water pump",
        "Dew heater, main mirror",
        "Dew heater, guide scope",
        "Inverter",
    ] {
        assert!(page.contains(&format!(">{label}</a>")), "{label}");
    }
    let page = Site::new(SMALL).get("/wiring/line").body;
    assert!(page.contains("20 A</text>"), "the main fuse");
    assert!(page.contains("Lamp</text>"));
}

#[test]
fn what_lies_behind_a_wall_has_its_distances() {
    let site = Site::new(ROUTED);
    let page = site.get("/wiring/routes?face=left").body;
    let (_, table) = page.split_once("id=\"drill-heading\"").unwrap();
    let row = table
        .split("</tr>")
        .find(|row| row.contains("Low on the left"))
        .unwrap();
    assert!(row.contains("400 mm to 3 m"), "{row}");
    assert!(row.contains("<b>300 mm</b>"), "{row}");
    assert!(row.contains("wall panel"));
    assert!(
        row.contains("wire.b") && row.contains("wire.c"),
        "both wires to the lamp"
    );
    assert!(page.contains("data-unplaced=\"shelf\""));
    let page = site.get("/wiring/routes?face=right").body;
    assert!(page.contains("Nothing that is in the project runs there."));
    let page = site.get("/wiring/routes?select=wire.b").body;
    assert!(page.contains("Low on the left</th>") && page.contains("Working of its length"));
    let page = site.get("/wiring/routes?select=wire.d").body;
    assert!(page.contains("Radio has no place."));
}

#[test]
fn a_wire_across_a_door_is_said_and_shown() {
    let door = "\n[opening.door]\nlabel = \"Side door\"\nwall = \"left\"\nspot = \"1200 mm, 0 mm, 0 mm\"\n\
                size = \"700 mm x 0 mm x 1600 mm\"\nswing = \"out\"\n";
    let site = Site::new(&format!("{ROUTED}{door}"));
    let page = site.get("/wiring/routes").body;
    let (_, crossing) = page.split_once("id=\"crossing\"").unwrap();
    assert!(crossing.contains("select=wire.b") && crossing.contains("runs across Side door"));
    let wire = page
        .split("<g ")
        .find(|g| g.contains("data-id=\"b\"") && g.contains("data-kind=\"wire\""));
    assert!(wire.unwrap().contains(" bad "), "marked in the drawing");
    let page = site.get("/wiring/routes?select=opening.door").body;
    assert!(page.contains("Wires that run across it:"));
    assert!(
        !Site::new(ROUTED)
            .get("/wiring/routes")
            .body
            .contains("id=\"crossing\"")
    );
}

#[test]
fn corners_are_moved_added_and_taken_away() {
    let site = Site::new(ROUTED);
    let send = |act: &str, corner: &str, spot: &str| {
        let revision = site.revision();
        let fields = [
            ("trunk", "low"),
            ("corner", corner),
            ("spot", spot),
            ("act", act),
            ("revision", &revision),
            ("back", "/wiring/routes?select=trunk.low"),
        ];
        site.post("/wiring/routes/corner", &fields)
    };
    let path = || {
        let text = site.text();
        let (_, rest) = text.split_once("path = ").unwrap();
        rest.lines().next().unwrap().to_owned()
    };
    let first = r#"["400 mm, 10 mm, 300 mm", "3000 mm, 10 mm, 300 mm"] # beside the ribs"#;
    assert_eq!(path(), first);
    assert_eq!(send("remove", "0", "").status, 422, "two corners stay");
    assert_eq!(send("set", "0", "here").status, 422);
    assert_eq!(send("set", "9", "0, 0, 0").status, 404);
    assert_eq!(path(), first);
    let moved = send("set", "1", "2912.6 mm, 10.0 mm, 450.0 mm");
    assert_eq!(moved.location(), Some("/wiring/routes?select=trunk.low"));
    assert_eq!(
        path(),
        r#"["400 mm, 10 mm, 300 mm", "2913 mm, 10 mm, 450 mm"] # beside the ribs"#
    );
    site.post("/undo", &[("revision", &site.revision())]);
    assert_eq!(site.text(), ROUTED);
    send("add", "0", "");
    assert!(
        path().contains(r#""400 mm, 10 mm, 300 mm", "1700 mm, 10 mm, 300 mm", "3000"#),
        "{}",
        path()
    );
    send("set", "1", "1 m, 1 cm, 0.3 m");
    assert!(
        path().contains("300 mm\", \"1000 mm, 10 mm, 300 mm\", \"3000"),
        "{}",
        path()
    );
    send("remove", "1", "");
    assert_eq!(path(), first);
}

#[test]
fn drawings_come_on_paper_one_page_each() {
    let page = Site::new(DEMO).get("/print/routes?paper=letter").body;
    // Single line, floor, four walls, ceiling.
    assert_eq!(
        page.matches("<figure class=\"paper letter-landscape\">")
            .count(),
        7
    );
    assert_eq!(
        page.matches("width=\"279.4mm\" height=\"215.9mm\"").count(),
        7
    );
    for number in 1..=7 {
        assert!(page.contains(&format!("Sheet {number} of 7")));
    }
    assert!(page.contains(">Dark-sky trailer</text>"));
    assert!(page.contains("in to 1 ft"));
    let page = Site::new(GEAR).get("/print/routes").body;
    assert_eq!(
        page.matches("a4-landscape").count(),
        6,
        "no wiring, no single line"
    );
}

#[test]
fn strangers_plan_nothing() {
    let site = Site::new(GEAR);
    for place in ["/wiring/plan", "/wiring/routes/corner"] {
        let answer = site.raw(&format!(
            "POST {place} HTTP/1.1\r\nHost: {}\r\nOrigin: http://evil.example\r\nConnection: close\r\n\
             Content-Type: application/x-www-form-urlencoded\r\nContent-Length: 10\r\n\r\nrevision=1",
            site.host()
        ));
        assert_eq!(answer.status, 403, "{place}");
    }
    assert_eq!(site.text(), GEAR);
}
