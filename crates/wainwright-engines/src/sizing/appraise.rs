//! What given choices cost and which limits they keep, by plain sums over the problem as it was given.
//! The search proves its plan here before it returns it. Not here: choosing.

use super::input::{Limit, Problem, check};
use super::result::{Appraisal, Kept, NotSelective};
use super::whole::{allowed, fits};
use crate::refusal::{Refusal, require};
use wainwright_units::{Current, Mass, Resistance, Voltage};

/// Slip allowed in a sum for each section in it [V] or [Ω].
const SLIP: f64 = 1e-9;

/// What some choices cost, and how they keep each limit.
///
/// # Errors
/// A [`Refusal`] when the problem is wrong, or a choice is not there.
pub fn appraise(problem: &Problem, chosen: &[usize]) -> Result<Appraisal, Refusal> {
    check(problem)?;
    let count = chosen.len();
    require(
        "choices",
        count as f64,
        count == problem.sections.len(),
        "one for each section",
    )?;
    for (index, (section, &choice)) in problem.sections.iter().zip(chosen).enumerate() {
        require(
            "choice",
            choice as f64,
            choice < section.choices.len(),
            "an index in the section's list",
        )
        .map_err(|why| why.at("section", index))?;
    }
    Ok(plain_sums(problem, chosen))
}

/// The same for choices known to be there.
pub(super) fn plain_sums(problem: &Problem, chosen: &[usize]) -> Appraisal {
    let taken = problem
        .sections
        .iter()
        .zip(chosen)
        .map(|(section, &choice)| &section.choices[choice]);
    let unlike = |group: &Vec<usize>| {
        group
            .windows(2)
            .any(|pair| chosen[pair[0]] != chosen[pair[1]])
    };
    let groups = problem.alike.iter().enumerate();
    Appraisal {
        cost: taken.clone().map(|choice| choice.cost).sum(),
        mass: Mass::from_kilograms(taken.map(|choice| choice.mass.kilograms()).sum()),
        limits: problem
            .limits
            .iter()
            .map(|limit| kept(problem, chosen, limit))
            .collect(),
        not_selective: (0..chosen.len())
            .filter_map(|section| not_selective(problem, chosen, section))
            .collect(),
        unlike: groups
            .filter(|(_, group)| unlike(group))
            .map(|(index, _)| index)
            .collect(),
    }
}

fn kept(problem: &Problem, chosen: &[usize], limit: &Limit) -> Kept {
    let taken = limit
        .sections
        .iter()
        .map(|&section| &problem.sections[section].choices[chosen[section]]);
    let drop: f64 = taken.clone().map(|choice| choice.drop.volts()).sum();
    let ohms: f64 = taken.map(|choice| choice.resistance.ohms()).sum();
    let device = limit
        .fault
        .as_ref()
        .and_then(|fault| nearest(problem, chosen, Some(fault.at)));
    let most_ohms = limit
        .fault
        .as_ref()
        .zip(device)
        .map(|(fault, (_, rating))| allowed(&fault.table, rating.amperes()).unwrap_or(-1.0));
    let slip = SLIP * (limit.sections.len() + 1) as f64;
    let within = |sum: f64, most: Option<f64>| most.is_none_or(|most| sum <= most + slip);
    Kept {
        drop: Voltage::from_volts(drop),
        most_drop: limit.most_drop,
        resistance: Resistance::from_ohms(ohms),
        device: device.map(|(_, rating)| rating),
        most_resistance: most_ohms.map(Resistance::from_ohms),
        kept: within(drop, limit.most_drop.map(Voltage::volts)) && within(ohms, most_ohms),
    }
}

fn not_selective(problem: &Problem, chosen: &[usize], section: usize) -> Option<NotSelective> {
    let own = problem.sections[section].choices[chosen[section]].device?;
    let ratio = problem.sections[section].upstream_ratio.fraction();
    let (upstream, rating) = nearest(problem, chosen, problem.sections[section].parent)?;
    let holds = ratio <= 0.0 || fits(own.amperes(), ratio, rating.amperes());
    (!holds).then_some(NotSelective { section, upstream })
}

/// The nearest device at a section's head or further up.
fn nearest(problem: &Problem, chosen: &[usize], from: Option<usize>) -> Option<(usize, Current)> {
    let path = problem.path(from?);
    path.into_iter().rev().find_map(|section| {
        let device = problem.sections[section].choices[chosen[section]].device;
        device.map(|rating| (section, rating))
    })
}
