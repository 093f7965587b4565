//! Every page is there for every project, also for an empty or a broken one.

use crate::client::{Answer, DEMO, SMALL, Site};

const PAGES: [&str; 32] = [
    "/",
    "/wiring",
    "/wiring?colour=temperature",
    "/wiring?colour=drop&state=charging",
    "/wiring?colour=loading&state=surge",
    "/wiring?state=what-if",
    "/wiring?state=what-if&on=lamp&on=nothing&battery=full",
    "/wiring?state=no-such-state&colour=no-such-colour",
    "/wiring?select=wire.b",
    "/wiring?select=item.bat",
    "/wiring?select=item.main",
    "/wiring?select=item.gone",
    "/wiring?select=nonsense",
    "/circuits",
    "/circuits?show=gear&sort=amps&down=1",
    "/circuits?show=protection&find=main",
    "/circuits?show=others",
    "/circuits?sort=temperature&find=zzz",
    "/rules",
    "/rules/voltage-drop",
    "/bench",
    "/bench?size=10+AWG&length=10+ft&current=20+A&insulation=gxl&bundle=1&volts=12.8+V&runs=foam",
    "/bench?size=what&length=&current=20&insulation=none&bundle=0&volts=x",
    "/bench?resistance=2+mohm&through=30+A",
    "/bench?resistance=x&through=",
    "/file",
    "/add/item",
    "/add/item?kind=battery",
    "/add/wire",
    "/add/state",
    "/add/part?kind=fuse",
    "/edit/project",
];

/// Rules that hold for every page.
fn check(page: &str, answer: &Answer) {
    assert_eq!(answer.status, 200, "{page}");
    let body = &answer.body;
    assert!(
        body.starts_with("<!DOCTYPE html><html lang=\"en\""),
        "{page}"
    );
    assert_eq!(body.matches("<h1>").count(), 1, "{page}");
    assert_eq!(body.matches("<main ").count(), 1, "{page}");
    assert!(body.contains("class=\"skip\""), "{page}");
    assert!(body.contains("<p class=\"lede\">"), "{page}");
    assert!(!body.contains(" style=\""), "{page} has an inline style");
    assert!(!body.contains(" onclick="), "{page} has an inline script");
    assert!(!body.contains("<script>"), "{page} has an inline script");
    assert!(!body.contains("<style"), "{page} has an inline style sheet");
    assert!(!body.contains("<table></table>"), "{page}");
    let mut ids: Vec<&str> = body
        .split(" id=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .collect();
    ids.sort_unstable();
    for pair in ids.windows(2) {
        assert_ne!(pair[0], pair[1], "{page} has an id twice");
    }
}

fn check_all(text: &str) {
    let site = Site::new(text);
    for page in PAGES {
        check(page, &site.get(page));
    }
    let report = site.get("/api/report?fixes=no");
    assert_eq!(report.status, 200);
    let report: serde_json::Value = serde_json::from_str(&report.body).unwrap();
    assert_eq!(report["report"], wainwright::views::REPORT_VERSION);
    assert_eq!(site.get("/file/download").body, text);
    assert_eq!(site.get("/nowhere").status, 404);
    assert_eq!(site.get("/rules/no-such-rule").status, 404);
    assert_eq!(site.get("/edit/wire/no-such-wire").status, 404);
    assert_eq!(site.get("/add/nonsense").status, 404);
}

#[test]
fn pages_of_the_example() {
    check_all(DEMO);
}

#[test]
fn pages_of_a_small_project() {
    check_all(SMALL);
}

#[test]
fn pages_of_an_empty_file_invite() {
    check_all("");
    let site = Site::new("wainwright = 1\n");
    for page in [
        "/",
        "/wiring",
        "/circuits",
        "/circuits?show=gear",
        "/circuits?show=protection",
    ] {
        let body = site.get(page).body;
        assert!(body.contains("button primary"), "{page} has no next step");
        assert!(!body.contains("<table"), "{page} shows an empty table");
    }
}

#[test]
fn pages_of_broken_files() {
    check_all("[[[ nothing = of = this\nis a project \u{1F69A}\n");
    check_all(
        "wainwright = 1\n[wire.x]\nfrom = 3\n[item.y]\nkind = \"castle\"\n[state.z]\non = [1]\noff = []\n",
    );
    let half = DEMO.len() / 2;
    let half = (half..).find(|at| DEMO.is_char_boundary(*at)).unwrap();
    check_all(&DEMO[..half]);
}

#[test]
fn problems_lead_to_their_line() {
    let site = Site::new(&SMALL.replace("10 AWG", "10 AWGG"));
    let body = site.get("/").body;
    let line = SMALL
        .lines()
        .position(|line| line.contains("10 AWG"))
        .unwrap()
        + 1;
    assert!(
        body.contains(&format!("href=\"/file#line-{line}\"")),
        "line {line}"
    );
    assert!(
        site.get("/file")
            .body
            .contains(&format!("id=\"line-{line}\""))
    );
}

#[test]
fn the_report_is_the_one_of_the_command_line() {
    let site = Site::new(SMALL);
    let body = site.get("/api/report").body;
    let served: serde_json::Value = serde_json::from_str(&body).unwrap();
    let study = wainwright::study::Study::of(SMALL);
    let file = served["file"].as_str().map(str::to_owned);
    let own = wainwright::views::report(&study, file.as_deref(), wainwright::views::Fixes::Proven);
    assert!(body == serde_json::to_string(&own).unwrap());
}

#[test]
fn light_or_dark_is_remembered_by_the_browser() {
    let site = Site::new(SMALL);
    let answer = site.post("/theme", &[("theme", "dark"), ("back", "/bench")]);
    assert_eq!(answer.location(), Some("/bench"));
    assert!(
        answer
            .header("set-cookie")
            .unwrap()
            .starts_with("theme=dark;")
    );
    let page = site.raw(&format!(
        "GET / HTTP/1.1\r\nHost: {}\r\nCookie: a=b; theme=dark\r\nConnection: close\r\n\r\n",
        site.host()
    ));
    assert!(page.body.contains("data-theme=\"dark\""));
}
