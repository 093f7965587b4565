//! Stories: each kind of problem, with its exact line and column.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test may stop on anything unexpected"
)]

use wainwright_model::{Catalogue, Parsed, Problem, ProblemSeverity, parse};

fn read(text: &str) -> Parsed {
    parse(text, &Catalogue::default())
}

/// The only problem of a text that otherwise starts with the version line.
#[track_caller]
fn only(body: &str) -> Problem {
    let problems = read(&format!("wainwright = 1\n{body}")).problems;
    assert_eq!(problems.len(), 1, "{problems:#?}");
    problems.into_iter().next().unwrap()
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
fn unknown_key_suggests_the_nearest() {
    let problem = only(
        "[wire.a]\nfrom = \"b.+\"\nto = \"b.-\"\nlenght = \"3 ft\"\n[item.b]\nkind = \"load\"\n",
    );
    assert_problem(
        &problem,
        (5, 1),
        "wire.a.lenght",
        "`lenght`",
        "one of from, to, size",
        "did you mean length?",
    );
}

#[test]
fn unknown_table_suggests_the_nearest() {
    let problem = only("[itme.b]\nkind = \"load\"\n");
    assert_problem(
        &problem,
        (2, 2),
        "itme",
        "`itme`",
        "project, trailer",
        "did you mean item?",
    );
}

#[test]
fn unknown_kind_suggests_the_nearest_and_keeps_quiet_about_the_keys() {
    let problem = only("[item.b]\nkind = \"batery\"\ncapacity = \"100 Ah\"\n");
    assert_problem(
        &problem,
        (3, 8),
        "item.b.kind",
        "\"batery\"",
        "battery",
        "did you mean battery?",
    );
}

#[test]
fn unknown_choice_suggests_the_nearest() {
    let problem = only("[item.b]\nkind = \"battery\"\nchemistry = \"lpf\"\n");
    assert_problem(
        &problem,
        (4, 13),
        "item.b.chemistry",
        "\"lpf\"",
        "lfp, agm, flooded, gel",
        "did you mean lfp?",
    );
}

#[test]
fn quantity_points_at_the_wrong_unit() {
    let problem = only("[item.b]\nkind = \"battery\"\ncapacity = \"100 A\"\n");
    // `capacity = "100 A"`: the A is the 17th character.
    assert_problem(&problem, (4, 17), "item.b.capacity", "`A`", "Ah", "");
}

#[test]
fn quantity_column_counts_characters() {
    let problem = only("[item.b]\nkind = \"load\"\nlabel = \"ä\"\npower = \"60 Ω\"\n");
    assert_eq!((problem.line, problem.column), (5, 13), "{problem}");
}

#[test]
fn quantity_without_quotes_is_shown_with_them() {
    let problem = only("[item.b]\nkind = \"load\"\npower = 60\n");
    assert_problem(
        &problem,
        (4, 9),
        "item.b.power",
        "the number 60",
        "with its unit",
        "\"60 W\"",
    );
}

#[test]
fn quantity_out_of_the_legal_range() {
    let problem = only("[item.b]\nkind = \"load\"\npower = \"0 W\"\n");
    assert_problem(
        &problem,
        (4, 9),
        "item.b.power",
        "0 W",
        "a power above zero",
        "",
    );
    let problem = only("[item.b]\nkind = \"inverter\"\nefficiency = \"9 %\"\n");
    assert_problem(
        &problem,
        (4, 14),
        "item.b.efficiency",
        "9 %",
        "a ratio from",
        "",
    );
    let problem = only("[item.b]\nkind = \"bus-bar\"\nways = 0\n");
    assert_problem(
        &problem,
        (4, 8),
        "item.b.ways",
        "the number 0",
        "a whole number from 1 to 99",
        "",
    );
}

#[test]
fn wrong_types() {
    let problem = only("[item.b]\nkind = \"switch\"\nclosed = \"yes\"\n");
    assert_problem(
        &problem,
        (4, 10),
        "item.b.closed",
        "\"yes\"",
        "true or false",
        "write true without quotes",
    );
    let problem = only("[item.b]\nkind = \"switch\"\nlabel = 3\n");
    assert_problem(
        &problem,
        (4, 9),
        "item.b.label",
        "the number 3",
        "text in quotes",
        "write \"3\"",
    );
    let problem = only("[item.b]\nkind = \"bus-bar\"\nways = \"4\"\n");
    assert_problem(
        &problem,
        (4, 8),
        "item.b.ways",
        "\"4\"",
        "a whole number",
        "write 4 without quotes",
    );
    let problem = only("[item.b]\nkind = \"switch\"\nlabel.text = \"x\"\n");
    assert_problem(
        &problem,
        (4, 1),
        "item.b.label",
        "a table",
        "a plain value",
        "",
    );
    let problem = only("[state.s]\non = \"b\"\n[item.b]\nkind = \"load\"\n");
    assert_problem(
        &problem,
        (3, 6),
        "state.s.on",
        "\"b\"",
        "a list",
        "write [\"b\"]",
    );
    let problem = only("[item]\nfan = 3\n");
    assert_problem(
        &problem,
        (3, 7),
        "item.fan",
        "the number 3",
        "a table [item.fan]",
        "",
    );
    let problem = only("[trailer]\nsummer_air = 2020-01-01\n");
    assert_problem(
        &problem,
        (3, 14),
        "trailer.summer_air",
        "a date",
        "a temperature",
        "",
    );
}

#[test]
fn wrong_element_of_a_list_is_pointed_at() {
    let problem = only("[item.b]\nkind = \"fuse-block\"\nfuses = [\"15 A\", \"10\", \"\"]\n");
    assert_eq!(
        (problem.line, problem.path.as_str()),
        (4, "item.b.fuses"),
        "{problem}"
    );
    // The second element starts at character 18, its text at 19; a missing unit is noticed inside it.
    assert!((18..=21).contains(&problem.column), "{problem}");
}

#[test]
fn references_that_point_at_nothing() {
    let base = "[item.fridge]\nkind = \"load\"\n[item.bar]\nkind = \"bus-bar\"\nways = 4\n";
    let problem = only(&format!(
        "{base}[wire.a]\nfrom = \"frigde.+\"\nto = \"bar.1\"\n"
    ));
    assert_problem(
        &problem,
        (8, 8),
        "wire.a.from",
        "the item `frigde`",
        "an item",
        "did you mean fridge.+?",
    );
    let problem = only(&format!(
        "{base}[wire.a]\nfrom = \"fridge.plus\"\nto = \"bar.1\"\n"
    ));
    assert_problem(
        &problem,
        (8, 16),
        "wire.a.from",
        "the terminal `plus`",
        "of a load: +, -",
        "",
    );
    let problem = only(&format!(
        "{base}[wire.a]\nfrom = \"fridge.+\"\nto = \"bar.5\"\n"
    ));
    assert_problem(
        &problem,
        (9, 11),
        "wire.a.to",
        "the terminal `5`",
        "a bus-bar: 1, 2, 3, 4",
        "",
    );
    let problem = only(&format!(
        "{base}[wire.a]\nfrom = \"fridge.+\"\nto = \"bar.1\"\nlike = \"aa\"\n"
    ));
    assert_problem(
        &problem,
        (10, 8),
        "wire.a.like",
        "the wire `aa`",
        "a wire of this file",
        "did you mean a?",
    );
    let problem = only(&format!("{base}[state.s]\noff = [\"fridge\", \"fridg\"]\n"));
    assert_problem(
        &problem,
        (8, 18),
        "state.s.off",
        "the item `fridg`",
        "an item",
        "did you mean fridge?",
    );
    let problem = only("[part.fan]\nkind = \"load\"\n[item.b]\npart = \"fann\"\n");
    assert_problem(
        &problem,
        (5, 8),
        "item.b.part",
        "the part `fann`",
        "of the library",
        "did you mean fan?",
    );
}

#[test]
fn end_without_a_dot() {
    let problem =
        only("[wire.a]\nfrom = \"bar\"\nto = \"bar.1\"\n[item.bar]\nkind = \"bus-bar\"\n");
    assert_problem(
        &problem,
        (3, 8),
        "wire.a.from",
        "\"bar\"",
        "an item and its terminal",
        "put a dot",
    );
}

#[test]
fn missing_end_and_missing_kind() {
    let problem = only("[wire.a]\nfrom = \"bar.1\"\n[item.bar]\nkind = \"bus-bar\"\n");
    assert_problem(
        &problem,
        (2, 7),
        "wire.a.to",
        "nothing",
        "`to` = \"item.terminal\"",
        "add a line",
    );
    let problem = only("[item.bar]\nlabel = \"x\"\n");
    assert_problem(
        &problem,
        (2, 7),
        "item.bar.kind",
        "nothing",
        "a `kind` or a `part`",
        "add a line",
    );
    let problem = only("[part.bar]\nlabel = \"x\"\n");
    assert_problem(
        &problem,
        (2, 7),
        "part.bar.kind",
        "nothing",
        "`kind`",
        "add a line",
    );
}

#[test]
fn state_with_both_on_and_off() {
    let problem = only("[state.s]\non = []\noff = []\n");
    assert_problem(
        &problem,
        (4, 1),
        "state.s.off",
        "both `on` and `off`",
        "one of them",
        "delete one",
    );
}

#[test]
fn state_list_with_the_wrong_kind_is_a_warning() {
    let problem = only("[item.f]\nkind = \"fuse\"\n[state.s]\non = [\"f\"]\n");
    assert_problem(&problem, (5, 7), "state.s.on", "`f`, a fuse", "a load", "");
    assert_eq!(problem.severity, ProblemSeverity::Warning);
}

#[test]
fn load_with_two_ways_to_draw() {
    let problem = only("[item.f]\nkind = \"load\"\ncurrent = \"1 A\"\npower = \"12 W\"\n");
    assert_problem(
        &problem,
        (5, 1),
        "item.f.power",
        "both `current` and `power`",
        "one of power",
        "delete",
    );
}

#[test]
fn kind_that_is_not_the_kind_of_the_part() {
    let problem = only("[part.p]\nkind = \"load\"\n[item.f]\npart = \"p\"\nkind = \"fuse\"\n");
    assert_problem(
        &problem,
        (6, 1),
        "item.f.kind",
        "the kind fuse",
        "the kind of its part, load",
        "delete",
    );
}

#[test]
fn wires_that_are_like_one_another() {
    let ends = "from = \"b.+\"\nto = \"b.-\"\n";
    let text = format!(
        "[item.b]\nkind = \"load\"\n[wire.a]\n{ends}like = \"c\"\n[wire.c]\n{ends}like = \"a\"\nsize = \"10 AWG\"\n"
    );
    let problem = only(&text);
    assert_problem(
        &problem,
        (11, 1),
        "wire.c.like",
        "in a circle",
        "not, in the end",
        "delete its `like`",
    );
    let parsed = read(&format!("wainwright = 1\n{text}"));
    // What can be taken over still is.
    assert_eq!(
        parsed
            .project
            .wires
            .get("a")
            .unwrap()
            .size
            .as_ref()
            .unwrap()
            .text,
        "10 AWG"
    );
    let problem = only(&format!(
        "[item.b]\nkind = \"load\"\n[wire.a]\n{ends}like = \"a\"\n"
    ));
    assert_eq!((problem.line, problem.column), (7, 1), "{problem}");
}

#[test]
fn second_table_and_second_key() {
    let problem = only("[item.a]\nkind = \"load\"\n\n[item.a]\nkind = \"fuse\"\n");
    assert_problem(
        &problem,
        (5, 7),
        "",
        "a second [item.a]",
        "each name once",
        "line 2, column 7",
    );
    let problem = only("[item.a]\nkind = \"load\"\nkind = \"fuse\"\n");
    assert_problem(
        &problem,
        (4, 1),
        "",
        "a second `kind`",
        "each name once",
        "line 3, column 1",
    );
    let problem = only("[[item]]\nkind = \"load\"\n");
    assert_problem(
        &problem,
        (2, 3),
        "",
        "[[item]]",
        "single brackets",
        "write [item]",
    );
}

#[test]
fn id_with_other_letters() {
    let problem = only("[item.Main_Fuse]\nkind = \"fuse\"\n");
    assert_problem(
        &problem,
        (2, 7),
        "item.Main_Fuse",
        "Main_Fuse",
        "small letters",
        "write [item.main_fuse]",
    );
}
