//! Stories: each edit on texts written in every way people write them; the whole resulting text is compared.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test may stop on anything unexpected"
)]

use wainwright_model::{Edit, EditProblem, Patch, Value, apply, inverse_of, path, replay};

#[track_caller]
fn changed(text: &str, edit: Edit) -> String {
    let applied = apply(text, &[edit]).unwrap();
    assert_eq!(
        replay(&applied.text, &applied.inverse).unwrap(),
        text,
        "undo"
    );
    let again = replay(text, &inverse_of(&applied.inverse)).unwrap();
    assert_eq!(again, applied.text, "redo");
    applied.text
}

#[track_caller]
fn refused(text: &str, edit: Edit) -> EditProblem {
    let problem = apply(text, &[edit]).unwrap_err();
    assert!(!problem.to_string().is_empty());
    problem
}

fn set<const N: usize>(names: [&str; N], value: &str) -> Edit {
    Edit::Set {
        path: path(names),
        value: value.into(),
    }
}

fn unset<const N: usize>(names: [&str; N]) -> Edit {
    Edit::Unset { path: path(names) }
}

fn remove<const N: usize>(names: [&str; N]) -> Edit {
    Edit::Remove { table: path(names) }
}

fn rename<const N: usize>(names: [&str; N], to: &str) -> Edit {
    Edit::Rename {
        table: path(names),
        to: to.into(),
    }
}

fn add<const N: usize>(names: [&str; N], fields: &[(&str, &str)]) -> Edit {
    let fields = fields
        .iter()
        .map(|(key, value)| ((*key).to_owned(), Value::from(*value)))
        .collect();
    Edit::Add {
        table: path(names),
        fields,
        after: None,
    }
}

#[test]
fn set_replaces_only_the_value() {
    let text = "# top\n[wire.a]\t# red\n  size   =   \"14 AWG\"   # as found\r\nlength = \"3 ft\"";
    let after = changed(text, set(["wire", "a", "size"], "10 AWG"));
    assert_eq!(after, text.replace("14 AWG", "10 AWG"));
}

#[test]
fn set_keeps_single_quotes_where_it_can() {
    let text = "[wire.a]\nlength = '3 ft'\n";
    assert_eq!(
        changed(text, set(["wire", "a", "length"], "4 ft")),
        "[wire.a]\nlength = '4 ft'\n"
    );
    assert_eq!(
        changed(text, set(["wire", "a", "length"], "4'")),
        "[wire.a]\nlength = \"4'\"\n"
    );
}

#[test]
fn set_escapes_what_must_be_escaped() {
    let after = changed(
        "[project]\nname = \"x\"\n",
        set(["project", "name"], "5' 3\" \\ \u{7}\né"),
    );
    assert_eq!(after, "[project]\nname = \"5' 3\\\" \\\\ \\u0007\\né\"\n");
}

#[test]
fn set_writes_every_kind_of_value() {
    let text = "[item.b]\nkind = \"switch\"\n";
    let edit = |value| Edit::Set {
        path: path(["item", "b", "x"]),
        value,
    };
    let written = |value: Value| changed(text, edit(value)).replacen(text, "", 1);
    assert_eq!(written(Value::Integer(-3)), "x = -3\n");
    assert_eq!(written(Value::Number(2.0)), "x = 2.0\n");
    assert_eq!(written(Value::Number(1e300)), "x = 1e300\n");
    assert_eq!(written(Value::Bool(true)), "x = true\n");
    assert_eq!(
        written(Value::List(vec!["a".into(), Value::Integer(1)])),
        "x = [\"a\", 1]\n"
    );
    assert!(matches!(
        refused(text, edit(Value::Number(f64::NAN))),
        EditProblem::BadValue { .. }
    ));
}

#[test]
fn set_adds_a_key_at_the_end_of_its_table_with_its_indentation_and_line_ending() {
    let text = "[item.a]\r\n    kind = \"load\" # it\r\n    # hangs on\r\n\r\n[item.b]\r\n";
    let after = changed(text, set(["item", "a", "power"], "5 W"));
    assert_eq!(
        after,
        "[item.a]\r\n    kind = \"load\" # it\r\n    power = \"5 W\"\r\n    # hangs on\r\n\r\n[item.b]\r\n"
    );
    let after = changed(text, set(["item", "b", "kind"], "load"));
    assert_eq!(after, format!("{text}kind = \"load\"\r\n"));
}

#[test]
fn set_adds_a_key_after_a_last_line_without_ending() {
    let after = changed(
        "[item.a]\nkind = \"load\"",
        set(["item", "a", "power"], "5 W"),
    );
    assert_eq!(after, "[item.a]\nkind = \"load\"\npower = \"5 W\"");
}

#[test]
fn set_works_in_inline_tables_and_beside_dotted_keys() {
    let inline = "[item]\na = { kind = \"load\" } # c\nb = {}\n";
    let after = changed(inline, set(["item", "a", "power"], "5 W"));
    assert_eq!(
        after,
        "[item]\na = { kind = \"load\", power = \"5 W\" } # c\nb = {}\n"
    );
    let after = changed(inline, set(["item", "b", "kind"], "load"));
    assert_eq!(
        after,
        "[item]\na = { kind = \"load\" } # c\nb = { kind = \"load\" }\n"
    );
    let after = changed(inline, set(["item", "a", "kind"], "fuse"));
    assert_eq!(after, "[item]\na = { kind = \"fuse\" } # c\nb = {}\n");

    let dotted = "item.a.kind = \"load\"\nitem . \"b\" . kind = \"fuse\"\n[project]\n";
    let after = changed(dotted, set(["item", "a", "power"], "5 W"));
    assert_eq!(
        after,
        "item.a.kind = \"load\"\nitem.a.power = \"5 W\"\nitem . \"b\" . kind = \"fuse\"\n[project]\n"
    );
    let after = changed(dotted, set(["item", "b", "rating"], "5 A"));
    assert!(
        after.contains("\"fuse\"\nitem . \"b\".rating = \"5 A\"\n[project]"),
        "{after}"
    );
}

#[test]
fn set_makes_the_tables_without_id() {
    let text = "wainwright = 1\n\n[item.a]\nkind = \"load\"\n";
    let after = changed(text, set(["trailer", "inside_length"], "12 ft"));
    assert_eq!(
        after,
        "wainwright = 1\n\n[trailer]\ninside_length = \"12 ft\"\n\n[item.a]\nkind = \"load\"\n"
    );
    let after = changed(&after, set(["project", "name"], "x"));
    assert!(
        after.starts_with("wainwright = 1\n\n[project]\nname = \"x\"\n\n[trailer]\n"),
        "{after}"
    );
    assert_eq!(
        changed("", set(["project", "name"], "x")),
        "[project]\nname = \"x\"\n"
    );
    assert!(matches!(
        refused(text, set(["wire", "x", "size"], "1 AWG")),
        EditProblem::NoSuchTable { .. }
    ));
}

#[test]
fn set_puts_the_version_first() {
    let edit = Edit::Set {
        path: path(["wainwright"]),
        value: Value::Integer(1),
    };
    assert_eq!(
        changed("# mine\n[project]\n", edit.clone()),
        "wainwright = 1\n\n# mine\n[project]\n"
    );
    assert_eq!(changed("wainwright = 2\n", edit), "wainwright = 1\n");
}

#[test]
fn set_refuses_to_replace_a_table() {
    let text = "[item.a]\nkind = \"load\"\n[item]\nb = { kind = \"load\" }\n";
    assert!(matches!(
        refused(text, set(["item", "a"], "x")),
        EditProblem::IsTable { .. }
    ));
    assert!(matches!(
        refused(text, set(["item", "b"], "x")),
        EditProblem::IsTable { .. }
    ));
    assert!(matches!(
        refused(text, set([], "x")),
        EditProblem::EmptyPath
    ));
}

#[test]
fn unset_takes_the_line() {
    let text = "[item.a]\nkind = \"load\"\n# why\npower = \"5 W\" # c\nduty = 0.5\n";
    let after = changed(text, unset(["item", "a", "power"]));
    assert_eq!(after, "[item.a]\nkind = \"load\"\n# why\nduty = 0.5\n");
    assert!(matches!(
        refused(text, unset(["item", "a", "size"])),
        EditProblem::NoSuchKey { .. }
    ));
    assert!(matches!(
        refused(text, unset(["item", "a"])),
        EditProblem::IsTable { .. }
    ));
    let inline = "item.a = { kind = \"load\", power = \"5 W\", duty = 0.5 }\n";
    assert_eq!(
        changed(inline, unset(["item", "a", "kind"])),
        "item.a = { power = \"5 W\", duty = 0.5 }\n"
    );
    assert_eq!(
        changed(inline, unset(["item", "a", "duty"])),
        "item.a = { kind = \"load\", power = \"5 W\" }\n"
    );
    let list = "[item.a]\nfuses = [\n  \"5 A\", # one\n]\nkind = \"fuse-block\"\n";
    assert_eq!(
        changed(list, unset(["item", "a", "fuses"])),
        "[item.a]\nkind = \"fuse-block\"\n"
    );
}

const THREE: &str = "wainwright = 1\n\n# --- loads ---\n\n# cold\n[item.a]\nkind = \"load\"\n# power = \"5 W\"\n\n# warm\n\
                     [item.b]\nkind = \"load\"\n\n[wire.w]\nfrom = \"a.+\"\nto = \"b.+\"\n";

#[test]
fn add_goes_after_the_last_of_its_element() {
    let after = changed(
        THREE,
        add(["item", "c"], &[("kind", "fuse"), ("odd key", "x")]),
    );
    let added =
        "[item.b]\nkind = \"load\"\n\n[item.c]\nkind = \"fuse\"\n\"odd key\" = \"x\"\n\n[wire.w]";
    assert!(after.contains(added), "{after}");
    assert_eq!(
        after.len(),
        THREE.len() + "\n[item.c]\nkind = \"fuse\"\n\"odd key\" = \"x\"\n".len()
    );
}

#[test]
fn add_goes_after_the_given_table_and_its_comments() {
    let edit = Edit::Add {
        table: path(["item", "c"]),
        fields: vec![],
        after: Some(path(["item", "a"])),
    };
    let after = changed(THREE, edit);
    assert!(
        after.contains("# power = \"5 W\"\n\n[item.c]\n\n# warm\n[item.b]"),
        "{after}"
    );
    let edit = Edit::Add {
        table: path(["item", "c"]),
        fields: vec![],
        after: Some(path(["item", "z"])),
    };
    assert!(matches!(
        refused(THREE, edit),
        EditProblem::NoSuchTable { .. }
    ));
}

#[test]
fn add_of_a_new_element_goes_to_the_end() {
    assert_eq!(
        changed("a = 1", add(["state", "s"], &[])),
        "a = 1\n\n[state.s]\n"
    );
    assert_eq!(
        changed("", add(["state", "s"], &[("battery", "low")])),
        "[state.s]\nbattery = \"low\"\n"
    );
    let dense = "[item.a]\nkind = \"load\"\n[wire.w]\n";
    assert_eq!(
        changed(dense, add(["item", "b"], &[])),
        "[item.a]\nkind = \"load\"\n\n[item.b]\n\n[wire.w]\n"
    );
}

#[test]
fn add_refuses_what_is_there_and_what_is_no_table() {
    assert!(matches!(
        refused(THREE, add(["item", "a"], &[])),
        EditProblem::AlreadyThere { .. }
    ));
    assert!(matches!(
        refused("item.a.kind = \"load\"\n", add(["item", "a"], &[])),
        EditProblem::AlreadyThere { .. }
    ));
    assert!(matches!(
        refused(THREE, add(["item", "A b"], &[])),
        EditProblem::BadName { .. }
    ));
    assert!(matches!(
        refused(THREE, add(["itme", "x"], &[])),
        EditProblem::BadName { .. }
    ));
    assert!(matches!(
        refused(THREE, add(["item", "x"], &[("a", "1"), ("a", "2")])),
        EditProblem::BadValue { .. }
    ));
    // A table written inline cannot be opened again by a header.
    let inline = "item = { a = { kind = \"load\" } }\n";
    assert!(matches!(
        refused(inline, add(["item", "b"], &[])),
        EditProblem::NotReachable { .. } | EditProblem::WouldBreak { .. }
    ));
}

#[test]
fn remove_takes_the_comments_that_hang_on_the_table_and_one_gap() {
    let after = changed(THREE, remove(["item", "a"]));
    assert_eq!(
        after,
        THREE.replace(
            "# cold\n[item.a]\nkind = \"load\"\n# power = \"5 W\"\n\n",
            ""
        )
    );
    let after = changed(THREE, remove(["item", "b"]));
    assert_eq!(
        after,
        THREE.replace("# warm\n[item.b]\nkind = \"load\"\n\n", "")
    );
    let after = changed(THREE, remove(["wire", "w"]));
    assert_eq!(
        after,
        THREE.replace("\n[wire.w]\nfrom = \"a.+\"\nto = \"b.+\"\n", "")
    );
}

#[test]
fn remove_of_inline_and_dotted_tables() {
    let text = "item.a.kind = \"load\"\nitem.b.kind = \"load\"\nitem.a.power = \"5 W\"\n";
    assert_eq!(
        changed(text, remove(["item", "a"])),
        "item.b.kind = \"load\"\n"
    );
    let text = "[item]\na = { kind = \"load\" }\nb = { kind = \"fuse\" }\n";
    assert_eq!(
        changed(text, remove(["item", "a"])),
        "[item]\nb = { kind = \"fuse\" }\n"
    );
    let text = "item = { a = { kind = \"load\" }, b = { kind = \"fuse\" } }\n";
    assert_eq!(
        changed(text, remove(["item", "b"])),
        "item = { a = { kind = \"load\" } }\n"
    );
    assert!(matches!(
        refused(text, remove(["item", "c"])),
        EditProblem::NoSuchTable { .. }
    ));
    assert!(matches!(
        refused(text, remove(["item", "a", "kind"])),
        EditProblem::NoSuchTable { .. }
    ));
}

#[test]
fn rename_follows_references() {
    let text = "[item.fan] # a.fan\nkind = \"load\"\n[item.fan-2]\nkind = \"load\"\n[wire.fan]\nfrom = \"fan.+\"\nto = 'fan-2.-'\n\
                [wire.w]\nfrom = \"fan-2.+\"\nto = 'fan.-'\nlike = \"fan\"\n[state.s]\non = [ \"fan-2\", \"fan\" ] # fan\n";
    let after = changed(text, rename(["item", "fan"], "blower"));
    assert_eq!(
        after,
        "[item.blower] # a.fan\nkind = \"load\"\n[item.fan-2]\nkind = \"load\"\n[wire.fan]\nfrom = \"blower.+\"\nto = 'fan-2.-'\n\
         [wire.w]\nfrom = \"fan-2.+\"\nto = 'blower.-'\nlike = \"fan\"\n[state.s]\non = [ \"fan-2\", \"blower\" ] # fan\n"
    );
    let after = changed(text, rename(["wire", "fan"], "feed"));
    assert!(
        after.contains("[wire.feed]") && after.contains("like = \"feed\""),
        "{after}"
    );
    assert!(after.contains("from = \"fan.+\""), "{after}");
    let parts = "[part.p]\nkind = \"load\"\n[item.p]\npart = \"p\"\n";
    assert_eq!(
        changed(parts, rename(["part", "p"], "q")),
        "[part.q]\nkind = \"load\"\n[item.p]\npart = \"q\"\n"
    );
}

#[test]
fn rename_of_inline_and_dotted_tables_and_refusals() {
    let text = "item.a.kind = \"load\"\nitem.\"a\".power = \"5 W\"\n";
    assert_eq!(
        changed(text, rename(["item", "a"], "b")),
        "item.b.kind = \"load\"\nitem.b.power = \"5 W\"\n"
    );
    let text = "item = { a = { kind = \"load\" } }\n";
    assert_eq!(
        changed(text, rename(["item", "a"], "b")),
        "item = { b = { kind = \"load\" } }\n"
    );
    assert!(matches!(
        refused(THREE, rename(["item", "a"], "b")),
        EditProblem::AlreadyThere { .. }
    ));
    assert!(matches!(
        refused(THREE, rename(["item", "a"], "B")),
        EditProblem::BadName { .. }
    ));
    assert!(matches!(
        refused(THREE, rename(["item", "z"], "y")),
        EditProblem::NoSuchTable { .. }
    ));
    assert!(matches!(
        refused(THREE, rename(["project"], "y")),
        EditProblem::BadName { .. }
    ));
}

#[test]
fn all_or_nothing() {
    let edits = [
        set(["item", "a", "power"], "5 W"),
        unset(["item", "a", "nothing"]),
    ];
    assert!(matches!(
        apply(THREE, &edits),
        Err(EditProblem::NoSuchKey { .. })
    ));
    let edits = [
        add(["item", "c"], &[]),
        set(["item", "c", "kind"], "fuse"),
        remove(["item", "a"]),
        rename(["item", "c"], "a"),
    ];
    let applied = apply(THREE, &edits).unwrap();
    assert!(
        applied.text.contains("[item.a]\nkind = \"fuse\"\n"),
        "{}",
        applied.text
    );
    assert_eq!(replay(&applied.text, &applied.inverse).unwrap(), THREE);
}

#[test]
fn unfinished_text_can_be_edited() {
    let text = "[item.a]\nkind = \"load\"\npower = 5 W\n\n[wire.w\n";
    assert_eq!(
        changed(text, set(["item", "a", "kind"], "fuse")),
        text.replace("load", "fuse")
    );
    let after = changed(text, set(["item", "a", "label"], "x"));
    assert_eq!(
        after,
        "[item.a]\nkind = \"load\"\npower = 5 W\nlabel = \"x\"\n\n[wire.w\n"
    );
}

#[test]
fn patch_of_another_text_is_refused() {
    let patch = Patch {
        at: 2,
        removed: "x".into(),
        inserted: "y".into(),
    };
    assert_eq!(patch.redo("abc"), Err(EditProblem::OtherText { at: 2 }));
    assert_eq!(patch.redo("abx").as_deref(), Ok("aby"));
    assert_eq!(patch.undo("aby").as_deref(), Ok("abx"));
    assert_eq!(patch.redo("é"), Err(EditProblem::OtherText { at: 2 }));
}
