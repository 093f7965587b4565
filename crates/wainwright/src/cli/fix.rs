//! `fix`: applies a proven fix to the file, through the same session as the
//! app, so that the file is never overwritten behind somebody's back.

use super::args::FixArgs;
use super::change;
use super::diff::{Line, diff};
use super::exit::{Status, Trouble};
use super::out::Out;
use crate::session::Session;
use crate::study::Study;
use crate::views::Fixes;
use crate::views::finding::{FindingView, fix_views};
use serde::Serialize;
use wainwright_rules::{Finding, Fix};

/// What was done, for machines.
#[derive(Debug, Serialize)]
struct FixReport {
    finding: String,
    number: usize,
    title: String,
    mends: Vec<String>,
    applied: bool,
    removed: Vec<String>,
    added: Vec<String>,
}

/// Applies the fix, or shows what it would change.
pub fn run(args: &FixArgs, out: &mut Out) -> Result<Status, Trouble> {
    let session = Session::open(&args.file)?;
    let before = session.snapshot();
    let Some(key) = &args.key else {
        list(args, &before.study, out);
        return Ok(Status::Done);
    };
    let fix = chosen(&before.study, key, args.number)?;
    let after = if args.dry_run {
        let text = before.study.text.as_ref();
        let applied = wainwright_model::apply(text, &fix.edits);
        applied
            .map_err(|p| Trouble::NotChanged(p.to_string()))?
            .text
    } else {
        change::apply(&session, &before, &fix.edits, &fix.title)?
            .study
            .text
            .to_string()
    };
    let lines = diff(&before.study.text, &after);
    if args.json {
        out.json(&report(args, key, &fix, &lines));
    } else {
        print(args, &fix, &lines, out);
    }
    Ok(Status::Done)
}

fn chosen(study: &Study, key: &str, number: usize) -> Result<Fix, Trouble> {
    let fixes = study.fixes(key).ok_or_else(|| {
        Trouble::NoSuch(format!(
            "there is no finding \"{key}\" in this file; `wainwright fix FILE` lists them all"
        ))
    })?;
    let fix = number.checked_sub(1).and_then(|index| fixes.get(index));
    fix.cloned().ok_or_else(|| {
        Trouble::NoSuch(match fixes.len() {
            0 => format!(
                "no fix of \"{key}\" could be proven; `wainwright explain {key}` says what to do"
            ),
            count => format!("\"{key}\" has {count} proven fixes, numbered from 1"),
        })
    })
}

fn list(args: &FixArgs, study: &Study, out: &mut Out) {
    let findings: Vec<&Finding> = study.findings.iter().collect();
    study.with_fixes(&findings, || {
        if args.json {
            let views = findings
                .iter()
                .map(|f| FindingView::of(f, study, Fixes::Proven));
            out.json(&views.collect::<Vec<_>>());
        } else {
            print_list(study, out);
        }
    });
}

fn print_list(study: &Study, out: &mut Out) {
    for finding in &study.findings {
        let word = out
            .paint
            .severity(finding.severity, finding.severity.word());
        out.line(format!("{word}  {}", finding.key()));
        let fixes = study.fixes(&finding.key()).unwrap_or_default();
        for view in fix_views(&fixes) {
            let text = format!("Fix {}: {}", view.number, view.title);
            out.hanging("  ", "    ", &text);
        }
        if fixes.is_empty() {
            out.line("  no proven fix");
        }
    }
    if study.findings.is_empty() {
        out.line("nothing to fix");
    }
}

fn print(args: &FixArgs, fix: &Fix, lines: &[Line<'_>], out: &mut Out) {
    let word = if args.dry_run { "Would do" } else { "Done" };
    out.wrapped("", &format!("{word}: {}", fix.title));
    out.line(format!("Mends: {}", fix.mends.join(", ")));
    change::print(lines, out);
}

fn report(args: &FixArgs, key: &str, fix: &Fix, lines: &[Line<'_>]) -> FixReport {
    let picked =
        |wanted: fn(&Line<'_>) -> Option<String>| lines.iter().filter_map(wanted).collect();
    FixReport {
        finding: key.to_owned(),
        number: args.number,
        title: fix.title.clone(),
        mends: fix.mends.clone(),
        applied: !args.dry_run,
        removed: picked(|l| match l {
            Line::Removed(text) => Some((*text).to_owned()),
            _ => None,
        }),
        added: picked(|l| match l {
            Line::Added(text) => Some((*text).to_owned()),
            _ => None,
        }),
    }
}
