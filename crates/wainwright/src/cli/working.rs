//! `working`: the formula behind a number, with the numbers in it and where
//! each came from.

use super::args::WorkingArgs;
use super::check::wanted_state;
use super::exit::{Status, Trouble};
use super::out::Out;
use super::subject::questions;
use crate::store;
use crate::study::Study;
use crate::views::working::{StepView, WorkingView};
use serde::Serialize;

/// One explained number, for machines.
#[derive(Debug, Serialize)]
struct Answer {
    title: String,
    #[serde(flatten)]
    working: WorkingView,
}

/// Prints the working of every number of the subject.
pub fn run(args: &WorkingArgs, out: &mut Out) -> Result<Status, Trouble> {
    let study = Study::of(store::read(&args.file)?);
    let state = match &args.state {
        Some(wanted) => wanted_state(&study, Some(wanted))?,
        None => None,
    };
    let answers: Vec<Answer> = questions(&study, &args.subject, state)?
        .into_iter()
        .filter_map(|q| {
            let working = wainwright_analysis::working(&study.project, &study.assessment, &q.ask)?;
            Some(Answer {
                title: q.title,
                working: WorkingView::of(&working),
            })
        })
        .collect();
    if answers.is_empty() {
        return Err(Trouble::NoSuch(format!(
            "nothing could be computed for \"{}\": it is not part of a working circuit",
            args.subject
        )));
    }
    if args.json {
        out.json(&answers);
    } else {
        for answer in &answers {
            print(&answer.title, &answer.working, out);
        }
    }
    Ok(Status::Done)
}

/// One working: each step with its formula, its numbers and its inputs.
pub fn print(title: &str, working: &WorkingView, out: &mut Out) {
    let title = out.paint.bold(title);
    out.line(title);
    for step in &working.steps {
        print_step(step, out);
    }
    out.gap();
}

/// The formula begins with its own symbol, so the numbers stand below it.
fn print_step(step: &StepView, out: &mut Out) {
    let indent = " ".repeat(step.symbol.chars().count() + 3);
    let (equals, below) = (format!("{indent}= "), format!("{indent}  "));
    out.hanging("  ", &below, &step.formula);
    out.hanging(&equals, &below, &step.numbers);
    let result = out.paint.bold(&step.result);
    out.hanging(&equals, &below, &result);
    for input in &step.inputs {
        let text = format!(
            "{} = {} ({})",
            input.symbol,
            input.value,
            input.basis.words()
        );
        out.hanging("      ", "        ", &text);
    }
}
