//! `parts`: the generic parts every project can use. Not here: the parts
//! themselves.

use super::args::PartsArgs;
use super::exit::{Status, Trouble};
use super::out::Out;
use serde::Serialize;
use wainwright_model::{Id, Part};

/// One part, for machines.
#[derive(Debug, Serialize)]
struct PartView {
    id: String,
    kind: Option<&'static str>,
    label: Option<String>,
    source: Option<String>,
}

/// Lists the parts.
pub fn run(args: &PartsArgs, out: &mut Out) -> Result<Status, Trouble> {
    let all = wainwright_analysis::catalogue().parts().iter();
    let views: Vec<PartView> = all
        .map(|(id, part)| view(id, part))
        .filter(|v| {
            args.kind
                .as_deref()
                .is_none_or(|wanted| v.kind == Some(wanted))
        })
        .collect();
    if let (true, Some(kind)) = (views.is_empty(), &args.kind) {
        return Err(Trouble::NoSuch(format!(
            "there is no part of kind \"{kind}\""
        )));
    }
    if args.json {
        out.json(&views);
        return Ok(Status::Done);
    }
    for part in views {
        let first = format!("{:<26}{:<18}", part.id, part.kind.unwrap_or_default());
        let below = " ".repeat(first.chars().count());
        out.hanging(&first, &below, &part.label.unwrap_or_default());
    }
    Ok(Status::Done)
}

fn view(id: &Id, part: &Part) -> PartView {
    PartView {
        id: id.to_string(),
        kind: part.kind.as_ref().map(|k| k.value.as_str()),
        label: part.label.as_ref().map(|l| l.value.clone()),
        source: part.source.as_ref().map(|s| s.value.clone()),
    }
}
