//! What a job takes from the shed and from the shop, what that costs, how sure it is to be enough.

use super::words;
use crate::web::html::encoded;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::lining::{CuttingJob, JobPlan, JobStock};

/// What to take and to buy.
pub fn to_get(view: &View, job: &CuttingJob) -> Markup {
    let used = job
        .stocks
        .iter()
        .filter(|one| one.used_owned > 0 || one.buy > 0);
    let spares = job.spares();
    html! {
        ul.plain.get-list {
            @for one in used {
                li {
                    @if one.used_owned > 0 { p { "From the shed: " b { (one.used_owned) } " of " (words::stock(view, one)) @if one.owned > one.used_owned { span.hint { " (" (one.owned) " are there)" } } } }
                    @if one.buy > 0 { p { "To buy: " b { (one.buy) } " of " (words::stock(view, one)) (price(view, one)) } }
                }
            }
            @if let Some((index, count)) = spares {
                @if let Some(stock) = job.stocks.get(index) {
                    li { p { "And as a spare: " b { (count) } " of " (words::stock(view, stock)) } }
                }
            }
        }
        @if job.stocks.iter().any(|one| one.stock.is_none()) {
            p.hint {
                "Nothing of this is said to be on sale, so a usual size stands in. "
                a href={ "/add/stock?of=" (job.goods.as_str()) "&material=" (encoded(&job.material)) "&back=/lining/cut" } { "Say what is on sale, or in the shed" }
            }
        } @else if job.stocks.iter().any(|one| one.on_sale && one.price.is_none()) {
            p.hint { "Without a price, the plan that takes least is looked for." }
        }
    }
}

fn price(view: &View, one: &JobStock) -> Markup {
    html! {
        @if let Some(cost) = one.cost { span { ", " (words::cost(view, cost)) } }
        @if let Some(aisle) = &one.aisle { span.hint { " · " (aisle) } }
    }
}

/// Cost and how good the plan is.
pub fn figures(view: &View, job: &CuttingJob) -> Markup {
    let (cost, proven, gap) = match &job.plan {
        JobPlan::Bars(plan) => (plan.cost, plan.proven, plan.gap),
        JobPlan::Sheets(plan) => (plan.cost, plan.proven, plan.gap),
        JobPlan::None(_) => return html! {},
    };
    html! {
        dl.small-figures.three {
            div { dt { "To cut" } dd { (job.pieces) " pieces" } }
            div {
                dt { "To buy for" }
                dd {
                    @match cost { Some(cost) => (words::cost(view, cost)), None => "price unknown" }
                    span.hint {
                        (words::proof(view, job).unwrap_or_default())
                        @if !proven { " At most " (view.show(gap)) " could be saved." }
                    }
                }
            }
            div { dt { "Taken" } dd { (taken(view, job)) span.hint { (rest(view, job)) } } }
        }
    }
}

fn taken(view: &View, job: &CuttingJob) -> String {
    match &job.plan {
        JobPlan::Bars(plan) => format!(
            "{}, {}",
            words::boards(job, plan.bars.len()),
            view.show(plan.taken)
        ),
        JobPlan::Sheets(plan) => format!(
            "{}, {}",
            words::boards(job, plan.sheets.len()),
            view.show(plan.taken)
        ),
        JobPlan::None(_) => String::new(),
    }
}

fn rest(view: &View, job: &CuttingJob) -> String {
    match &job.plan {
        JobPlan::Bars(plan) => {
            let kept: Vec<String> = plan
                .kept
                .iter()
                .map(|length| words::tape(view, *length))
                .collect();
            let kept = match kept.is_empty() {
                true => "nothing worth keeping is left".to_owned(),
                false => format!("left to keep: {}", kept.join(", ")),
            };
            format!(
                "{} in pieces, {} lost in saw cuts and squared ends, {} in short ends; {kept}.",
                view.show(plan.pieces),
                view.show(plan.lost),
                view.show(plan.waste)
            )
        }
        JobPlan::Sheets(plan) => format!("{} in pieces.", view.show(plan.pieces)),
        JobPlan::None(_) => String::new(),
    }
}
