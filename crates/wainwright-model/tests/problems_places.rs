//! Stories: problems with places, sizes, plain numbers, trunks and weighing lists, each with its line and column.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test may stop on anything unexpected"
)]

use wainwright_model::{Catalogue, Problem, ProblemSeverity, parse};

/// The only problem of a text that otherwise starts with the version line.
#[track_caller]
fn only(body: &str) -> Problem {
    let problems = parse(&format!("wainwright = 1\n{body}"), &Catalogue::default()).problems;
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
) {
    assert_eq!((problem.line, problem.column), place, "{problem}");
    assert_eq!(problem.path, path, "{problem}");
    assert!(problem.found.contains(found), "{problem}");
    assert!(problem.expected.contains(expected), "{problem}");
}

#[test]
fn spot_with_a_length_too_few_and_with_a_slip() {
    let problem = only("[item.a]\nkind = \"load\"\nspot = \"24 in, 10 in\"\n");
    assert_problem(
        &problem,
        (4, 9),
        "item.a.spot",
        "2 lengths",
        "above the floor",
    );
    // The unit that is none starts at the 13th character after the quote.
    let problem = only("[item.a]\nkind = \"load\"\nspot = \"24 in, 10 inn, 3 in\"\n");
    assert_problem(
        &problem,
        (4, 19),
        "item.a.spot",
        "`inn`",
        "a unit of length",
    );
    let problem = only("[item.a]\nkind = \"load\"\nspot = [24, 10, 3]\n");
    assert_problem(&problem, (4, 8), "item.a.spot", "a list", "a text such as");
    assert!(
        parse(
            "wainwright = 1\n[item.a]\nkind = \"load\"\nspot = \"-24 in, -1 ft, -2 in\"\n",
            &Catalogue::default()
        )
        .problems
        .is_empty()
    );
}

#[test]
fn size_below_zero_or_without_a_measure() {
    let problem = only("[part.a]\nkind = \"load\"\nsize = \"13 in x -7 in x 9 in\"\n");
    assert_problem(&problem, (4, 9), "part.a.size", "-178 mm", "zero or more");
    let problem = only("[part.a]\nkind = \"load\"\nsize = \"13 in x 7 in\"\n");
    assert_problem(
        &problem,
        (4, 9),
        "part.a.size",
        "2 lengths",
        "along the trailer",
    );
    let problem = only("[part.a]\nkind = \"load\"\nsize = 13\n");
    assert_problem(
        &problem,
        (4, 8),
        "part.a.size",
        "the number 13",
        "13 in x 7 in x 9 in",
    );
}

#[test]
fn lengths_that_cannot_be_below_zero() {
    for (body, key) in [
        (
            "[trailer]\nfloor_height = \"-2 in\"\n",
            "trailer.floor_height",
        ),
        (
            "[trailer]\nwall_thickness = \"-2 in\"\n",
            "trailer.wall_thickness",
        ),
        (
            "[trailer]\nball_to_front = \"0 in\"\n",
            "trailer.ball_to_front",
        ),
        (
            "[vehicle]\nball_overhang = \"-1 m\"\n",
            "vehicle.ball_overhang",
        ),
        (
            "[item.a]\nkind = \"load\"\nclear = \"-1 in\"\n",
            "item.a.clear",
        ),
        (
            "[item.a]\nkind = \"load\"\nstrap_rating = \"-5 N\"\n",
            "item.a.strap_rating",
        ),
        (
            "[item.a]\nkind = \"tank\"\ncapacity = \"0 L\"\n",
            "item.a.capacity",
        ),
        ("[towing]\nspeed = \"0 mph\"\n", "towing.speed"),
    ] {
        let problem = only(body);
        assert_eq!(problem.path, key, "{problem}");
        assert!(
            problem.expected.contains("zero") || problem.expected.contains("from 0"),
            "{problem}"
        );
    }
}

#[test]
fn prices_are_plain_numbers() {
    let problem = only("[stock.a]\nof = \"fuse\"\nprice = \"2.50\"\n");
    assert_problem(
        &problem,
        (4, 9),
        "stock.a.price",
        "\"2.50\"",
        "without quotes",
    );
    assert_eq!(problem.hint.as_deref(), Some("write 2.5 without quotes"));
    let problem = only("[stock.a]\nof = \"fuse\"\nprice = -1.0\n");
    assert_problem(
        &problem,
        (4, 9),
        "stock.a.price",
        "the number -1",
        "a number from 0",
    );
    for price in ["nan", "inf", "1000001"] {
        let problem = only(&format!("[stock.a]\nof = \"fuse\"\nprice = {price}\n"));
        assert_eq!(problem.path, "stock.a.price", "{problem}");
    }
}

#[test]
fn trunk_without_a_path_and_with_a_bad_corner() {
    let problem = only("[trunk.a]\nlabel = \"x\"\n");
    assert_problem(&problem, (2, 8), "trunk.a.path", "nothing", "`path`");
    let problem = only("[trunk.a]\npath = [\"0, 0, 0\", \"1 m, 0\"]\n");
    assert_problem(
        &problem,
        (3, 21),
        "trunk.a.path",
        "2 lengths",
        "three lengths",
    );
    let problem = only("[trunk.a]\npath = \"0, 0, 0\"\n");
    assert_problem(
        &problem,
        (3, 8),
        "trunk.a.path",
        "\"0, 0, 0\"",
        "a list of places",
    );
}

#[test]
fn route_through_a_trunk_that_is_not_there() {
    let base = "[item.f]\nkind = \"load\"\n[trunk.floor]\npath = [\"0, 0, 0\", \"1 m, 0, 0\"]\n[wire.w]\nfrom = \"f.+\"\nto = \"f.-\"\n";
    let problem = only(&format!("{base}route = [\"floor\", \"flor\"]\n"));
    assert_problem(
        &problem,
        (9, 19),
        "wire.w.route",
        "the trunk `flor`",
        "a trunk of this file",
    );
    assert_eq!(problem.hint.as_deref(), Some("did you mean floor?"));
}

#[test]
fn weighing_lists_name_what_there_is() {
    let base = "[item.box]\nkind = \"cargo\"\n[item.water]\nkind = \"tank\"\n[weighing.a]\nby = \"tongue\"\n";
    let problem = only(&format!("{base}aboard = [\"box\", \"watr\"]\n"));
    assert_problem(
        &problem,
        (8, 18),
        "weighing.a.aboard",
        "the item `watr`",
        "an item",
    );
    let problem = only(&format!("{base}full = [\"water\", \"box\"]\n"));
    assert_problem(
        &problem,
        (8, 18),
        "weighing.a.full",
        "`box`, a cargo",
        "a tank",
    );
    assert_eq!(problem.severity, ProblemSeverity::Warning);
    let problem = only("[weighing.a]\nreading = \"180 lb\"\n");
    assert_problem(&problem, (2, 11), "weighing.a.by", "nothing", "`by`");
}

#[test]
fn wires_do_not_end_at_things_without_terminals() {
    let problem = only(
        "[item.bed]\nkind = \"furniture\"\n[item.f]\nkind = \"load\"\n[wire.w]\nfrom = \"f.+\"\nto = \"bed.+\"\n",
    );
    assert_problem(
        &problem,
        (8, 6),
        "wire.w.to",
        "`bed`, a furniture",
        "an item that has terminals",
    );
}
