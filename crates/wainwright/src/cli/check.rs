//! `check`: what is wrong with the wiring and what mends it. Not here: the
//! tables (see `show`) and applying a fix (see `fix`).

use super::args::CheckArgs;
use super::exit::{Status, Trouble};
use super::out::Out;
use super::show;
use crate::store;
use crate::study::Study;
use crate::views::finding::FindingView;
use crate::views::state::{find_state, state_id, state_label};
use crate::views::{self, Fixes};
use std::path::Path;
use wainwright_analysis::result::Outcome;
use wainwright_model::ProblemSeverity;
use wainwright_rules::{Amount, Finding};

/// Reads the file, and prints what there is to say about it.
pub fn run(args: &CheckArgs, out: &mut Out) -> Result<Status, Trouble> {
    let study = Study::of(store::read(&args.file)?);
    let state = wanted_state(&study, args.state.as_deref())?;
    let least = args.severity.severity();
    let shown: Vec<&Finding> = study
        .findings
        .iter()
        .filter(|f| f.severity.at_least(least))
        .collect();
    let to_prove: &[&Finding] = if args.no_fixes { &[] } else { &shown };
    study.with_fixes(to_prove, || {
        if args.json {
            print_json(args, &study, &shown, out);
        } else {
            print(args, &study, state, &shown, out);
        }
    });
    Ok(status(&study))
}

/// The exit status a study deserves, whatever part of it is shown.
pub fn status(study: &Study) -> Status {
    let computed = study
        .assessment
        .states
        .iter()
        .any(|s| s.outcome != Outcome::Empty);
    if study.is_incomplete() || !computed {
        Status::Incomplete(study.worst())
    } else {
        Status::Found(study.worst())
    }
}

/// The state asked for, or the first.
pub fn wanted_state(study: &Study, wanted: Option<&str>) -> Result<Option<usize>, Trouble> {
    let found = find_state(&study.assessment, wanted);
    match (found, wanted) {
        (None, Some(wanted)) => {
            let states = study.assessment.states.iter();
            let ids: Vec<String> = states.map(|s| state_id(&s.kind)).collect();
            Err(Trouble::NoSuch(format!(
                "there is no state \"{wanted}\"; there are: {}",
                ids.join(", ")
            )))
        }
        _ => Ok(found),
    }
}

fn print_json(args: &CheckArgs, study: &Study, shown: &[&Finding], out: &mut Out) {
    let mut report = views::report(study, args.file.to_str(), Fixes::LeftOut);
    let fixes = if args.no_fixes {
        Fixes::LeftOut
    } else {
        Fixes::Proven
    };
    let findings = shown.iter();
    report.findings = findings.map(|f| FindingView::of(f, study, fixes)).collect();
    out.json(&report);
}

fn print(args: &CheckArgs, study: &Study, state: Option<usize>, shown: &[&Finding], out: &mut Out) {
    title(&args.file, study, out);
    problems(study, out);
    for finding in shown {
        out.gap();
        print_finding(finding, out);
        if !args.no_fixes {
            // What is known already is shown while a fix is looked for.
            out.flush();
            print_fixes(&args.file, study, finding, out);
        }
    }
    out.gap();
    show::states(out, &study.assessment, show::units(&study.project));
    if args.full || args.state.is_some() {
        tables(study, state, out);
    }
    unknowns(args, study, out);
}

fn title(file: &Path, study: &Study, out: &mut Out) {
    let name = study.project.head.name.as_ref().map(|n| n.value.as_str());
    let file = file.display().to_string();
    let title = name.map_or_else(|| file.clone(), |n| format!("{n} ({file})"));
    let title = out.paint.bold(&title);
    out.line(title);
    let s = views::summary(study);
    out.line(format!(
        "{} danger, {} warning, {} caution, {} notice",
        s.danger, s.warning, s.caution, s.notice
    ));
    if !study
        .assessment
        .states
        .iter()
        .any(|s| s.outcome != Outcome::Empty)
    {
        out.wrapped("", "Nothing could be computed: the file has no source, or no circuit from a source through a load and back.");
    }
}

fn problems(study: &Study, out: &mut Out) {
    if study.problems.is_empty() {
        return;
    }
    out.gap();
    if study.is_incomplete() {
        out.wrapped(
            "",
            "Part of the text could not be read and is left out of everything below:",
        );
    }
    for problem in &study.problems {
        let word = match problem.severity {
            ProblemSeverity::Error => "error",
            ProblemSeverity::Warning => "note",
        };
        out.hanging("  ", "    ", &format!("{word}: {problem}"));
    }
}

/// One finding with its figures.
pub fn print_finding(finding: &Finding, out: &mut Out) {
    let word = finding.severity.word().to_uppercase();
    let word = out.paint.severity(finding.severity, &word);
    let key = out.paint.dim(&finding.key());
    out.line(format!("{word}  {key}"));
    out.wrapped("  ", &finding.headline);
    for sentence in &finding.detail {
        out.hanging("  ", "  ", sentence);
    }
    if let Some(figures) = figures(finding) {
        out.hanging("  ", "    ", &figures);
    }
    if !finding.assumptions.is_empty() {
        let paths: Vec<String> = finding.assumptions.iter().map(|p| p.join(".")).collect();
        let text = format!("Rests on assumed values: {}", paths.join(", "));
        out.hanging("  ", "    ", &text);
    }
}

fn figures(finding: &Finding) -> Option<String> {
    let shown = |a: &Amount| match a.source {
        Some(source) => format!("{} {} [{source}]", a.symbol, a.text),
        None => format!("{} {}", a.symbol, a.text),
    };
    match (&finding.value, &finding.limit) {
        (Some(value), Some(limit)) => {
            Some(format!("Found {}; limit {}", shown(value), shown(limit)))
        }
        (Some(value), None) => Some(format!("Found {}", shown(value))),
        (None, Some(limit)) => Some(format!("Limit {}", shown(limit))),
        (None, None) => None,
    }
}

/// The proven fixes of one finding, with the command that applies the first.
pub fn print_fixes(file: &Path, study: &Study, finding: &Finding, out: &mut Out) {
    let key = finding.key();
    let fixes = study.fixes(&key).unwrap_or_default();
    for (index, fix) in fixes.iter().enumerate() {
        let text = format!("Fix {}: {}", index + 1, fix.title);
        out.hanging("  ", "    ", &text);
    }
    if !fixes.is_empty() {
        let command = format!("wainwright fix {} {key}", file.display());
        let command = out.paint.dim(&command);
        out.line(format!("  {command}"));
    }
}

fn tables(study: &Study, state: Option<usize>, out: &mut Out) {
    let (a, units) = (&study.assessment, show::units(&study.project));
    let Some((index, found)) = state.and_then(|i| Some((i, a.states.get(i)?))) else {
        return;
    };
    out.gap();
    let title = out.paint.bold(&format!("State: {}", state_label(found)));
    out.line(title);
    show::conductors(out, a, index, units);
    out.gap();
    show::devices(out, a, index, units);
    out.gap();
    show::gear(out, a, index, units);
    out.gap();
    show::faults(out, a, units);
}

fn unknowns(args: &CheckArgs, study: &Study, out: &mut Out) {
    let a = &study.assessment;
    for missing in &a.missing {
        let wanted = views::system::wanted(missing.wanted);
        let text = format!("Left out: {} needs {wanted}", missing.path.join("."));
        out.hanging("", "  ", &text);
    }
    if args.full {
        out.gap();
        for assumed in &a.assumptions {
            let basis = views::basis::BasisView::of(&assumed.basis).words();
            let more = match assumed.also.len() {
                0 => String::new(),
                count => format!(" and {count} more"),
            };
            let path = assumed.path.join(".");
            let text = format!("{path}{more} = {} ({basis})", assumed.value);
            out.hanging("", "  ", &text);
        }
    } else if !a.assumptions.is_empty() {
        let all: usize = a.assumptions.iter().map(|one| 1 + one.also.len()).sum();
        let text = match all {
            1 => "One value was assumed because nobody gave it".to_owned(),
            count => format!("{count} values were assumed because nobody gave them"),
        };
        out.line(format!("{text} (--full tells which)"));
    }
}
