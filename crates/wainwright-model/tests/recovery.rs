//! Stories: broken and unusual texts, the exact place of each problem, and what is still read beside it.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test may stop on anything unexpected"
)]

use wainwright_model::{Catalogue, Parsed, Problem, ProblemSeverity, Spec, parse};

fn read(text: &str) -> Parsed {
    parse(text, &Catalogue::default())
}

#[track_caller]
fn assert_problem(
    problem: &Problem,
    place: (usize, usize),
    path: &str,
    found: &str,
    expected: &str,
    hint: &str,
) {
    assert_eq!((problem.line, problem.column), place, "{problem}");
    assert_eq!(problem.path, path, "{problem}");
    assert!(problem.found.contains(found), "{problem}");
    assert!(problem.expected.contains(expected), "{problem}");
    let given = problem.hint.as_deref().unwrap_or("");
    assert!(given.contains(hint), "{problem}");
}

#[test]
fn version_missing_newer_or_no_number() {
    let problems = read("[item.a]\nkind = \"load\"\n").problems;
    assert_eq!(problems.len(), 1);
    assert_problem(
        &problems[0],
        (1, 1),
        "wainwright",
        "no version",
        "wainwright = 1",
        "as the first line",
    );
    assert_eq!(problems[0].severity, ProblemSeverity::Warning);

    let parsed = read("wainwright = 7\n[item.a]\nkind = \"load\"\n");
    assert_eq!(parsed.problems.len(), 1);
    assert_problem(
        &parsed.problems[0],
        (1, 1),
        "wainwright",
        "version 7",
        "wainwright = 1",
        "newer program",
    );
    assert_eq!(parsed.problems[0].severity, ProblemSeverity::Warning);
    assert_eq!(parsed.project.items.len(), 1);

    let problems = read("wainwright = \"1\"\n").problems;
    assert_eq!(problems.len(), 1);
    assert_problem(
        &problems[0],
        (1, 14),
        "wainwright",
        "\"1\"",
        "a whole number",
        "write 1 without quotes",
    );
}

#[test]
fn several_syntax_errors_keep_their_places_and_the_rest_is_read() {
    let text = "wainwright = 1\n[item.a]\nkind = \"load\"\npower = 60 W\n[item.b]\nkind = \"load\npower = \"5 W\"\n\
                [wire.w\nfrom = \"a.+\"\n[item.c]\nkind = \"load\"\ncurrent =\nduty = \"10 %\"\n";
    let parsed = read(text);
    let places: Vec<usize> = parsed.problems.iter().map(|problem| problem.line).collect();
    // Item b lost its kind with line 6, which is said at its header on line 5 too: nothing there, no `kind`.
    assert_eq!(places, [4, 5, 6, 8, 12], "{:#?}", parsed.problems);
    let Some(Spec::Load(c)) = parsed.project.items.get("c").map(|item| &item.spec) else {
        panic!("c is a load")
    };
    assert_eq!(c.duty.as_ref().unwrap().text, "10 %");
    let hint = parsed.problems[0].hint.as_deref().unwrap();
    assert_eq!(hint, "write power = \"60 W\"");
    assert_eq!(parsed.problems[0].column, 9, "{}", parsed.problems[0]);
}

#[test]
fn list_that_is_never_closed_costs_only_itself() {
    let text = "wainwright = 1\n[item.a]\nkind = \"fuse-block\"\nfuses = [\"5 A\",\n  \"10 A\"\n\n[item.b]\nkind = \"load\"\n";
    let parsed = read(text);
    assert_eq!(parsed.problems.len(), 1, "{:#?}", parsed.problems);
    assert!((4..=6).contains(&parsed.problems[0].line));
    assert_eq!(parsed.project.items.len(), 2);
    let text =
        "wainwright = 1\n[item.a]\nkind = \"fuse-block\"\nfuses = [\"5 A\",\nlabel = \"x\"\n";
    let parsed = read(text);
    assert_eq!(parsed.problems.len(), 1, "{:#?}", parsed.problems);
    assert_eq!(
        parsed
            .project
            .items
            .get("a")
            .unwrap()
            .label
            .as_ref()
            .unwrap()
            .text,
        "x"
    );
}

#[test]
fn long_text_that_is_never_closed_costs_only_its_line() {
    let parsed = read(
        "wainwright = 1\n[project]\nnote = \"\"\"never\nname = \"x\"\n[item.b]\nkind = \"load\"\n",
    );
    assert_eq!(parsed.problems.len(), 1, "{:#?}", parsed.problems);
    assert_eq!(parsed.problems[0].line, 3);
    assert_eq!(parsed.project.head.name.as_ref().unwrap().value, "x");
    assert_eq!(parsed.project.items.len(), 1);
}

#[test]
fn carriage_returns_and_byte_order_marks_do_not_move_places() {
    let parsed = read("\u{feff}wainwright = 1\r\n[item.a]\r\nkind = \"laod\"\r\n");
    assert_eq!(parsed.problems.len(), 1, "{:#?}", parsed.problems);
    assert_eq!((parsed.problems[0].line, parsed.problems[0].column), (3, 8));
}

#[test]
fn inline_tables_and_dotted_keys_are_the_same_project() {
    let inline = "wainwright = 1\nitem.b = { kind = \"load\", power = \"5 W\" }\n[item]\n";
    let dotted = "wainwright = 1\nitem.b.kind = \"load\"\nitem.b.power = \"5 W\"\n";
    for text in [inline.trim_end_matches("[item]\n"), dotted] {
        let parsed = read(text);
        assert_eq!(parsed.problems, []);
        let Some(Spec::Load(load)) = parsed.project.items.get("b").map(|item| &item.spec) else {
            panic!("a load")
        };
        assert_eq!(load.power.as_ref().unwrap().text, "5 W");
    }
    assert_eq!(
        read(inline).problems.len(),
        1,
        "a dotted table cannot be opened again"
    );
}

#[test]
fn library_parts_fill_items_and_broken_library_text_is_reported() {
    let (library, problems) = Catalogue::parse(
        "[part.fan]\nkind = \"load\"\npower = \"36 W\"\n[item.x]\nkind = \"load\"\n",
    );
    assert_eq!(problems.len(), 1, "{problems:?}");
    assert_eq!((problems[0].line, problems[0].column), (4, 2));
    let parsed = parse(
        "wainwright = 1\n[item.f]\npart = \"fan\"\ncurrent = \"2 A\"\n",
        &library,
    );
    assert_eq!(parsed.problems, []);
    let Spec::Load(load) = &parsed.project.items.get("f").unwrap().spec else {
        panic!("a load")
    };
    // The item says what it draws in its own way; the part's way is dropped.
    assert!(load.power.is_none());
    assert_eq!(load.current.as_ref().unwrap().text, "2 A");
}
