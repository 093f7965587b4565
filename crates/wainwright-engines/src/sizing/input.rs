//! Sections, choices and limits as the caller gives them, and what is refused. Not here: which tests a
//! choice passed before it came onto the list.

use crate::refusal::{Refusal, above_zero, finite, not_below_zero, require};
use wainwright_units::{Current, Mass, Ratio, Resistance, Voltage};

/// Most sections of one problem.
pub const MOST_SECTIONS: usize = 2000;
/// Most choices of one section.
pub const MOST_CHOICES: usize = 500;
/// Most sections in one limit, and most devices above one another.
pub const MOST_IN_LIMIT: usize = 100;
/// Most different device ratings.
pub const MOST_RATINGS: usize = 10_000;
/// Highest cost of one choice, in any currency.
pub const HIGHEST_COST: f64 = 1e9;

/// What to size.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Problem {
    /// Parts of leads that have one size each, plus and minus leads apart or together.
    pub sections: Vec<Section>,
    /// What ways over several sections must keep.
    pub limits: Vec<Limit>,
    /// Groups of sections that must take the same choice, by index. Their lists are equally long.
    pub alike: Vec<Vec<usize>>,
}

/// A part of a lead that has one size, with the protective device at its head if it has one.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// The section that feeds it; `None` at a source and where there is no device further up.
    pub parent: Option<usize>,
    /// What it may be made of. Only choices that pass every test that concerns this section alone.
    pub choices: Vec<Choice>,
    /// How many times its own rating the nearest device further up must be rated for; 0: no matter.
    pub upstream_ratio: Ratio,
}

/// One size of wire with one device.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Choice {
    /// What it costs, in any currency, 0 to 10⁹; counted in millionths.
    pub cost: f64,
    /// What it weighs \[kg\]; counted in milligrams.
    pub mass: Mass,
    /// Voltage drop over the section at the current it is designed for \[V\].
    pub drop: Voltage,
    /// Resistance of the section for a fault current \[Ω\].
    pub resistance: Resistance,
    /// Rating of the device at its head \[A\]; `None` without one.
    pub device: Option<Current>,
}

/// What a way over several sections must keep. The sections may be of several trees: the plus leads to
/// an item and the minus leads back.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Limit {
    /// The sections passed, each once, in any order.
    pub sections: Vec<usize>,
    /// Highest sum of drops.
    pub most_drop: Option<Voltage>,
    /// Highest sum of resistances.
    pub fault: Option<FaultLimit>,
}

/// How much resistance a fault may meet so that the nearest device still opens in time.
#[derive(Debug, Clone, PartialEq)]
pub struct FaultLimit {
    /// The section at whose end the fault is. The nearest device at its head or further up counts; when
    /// there is none, nothing is asked.
    pub at: usize,
    /// For each rating the highest sum of resistances of the limit's sections, ratings rising. A rating
    /// between two takes the next higher entry; one above all of them is not allowed.
    pub table: Vec<(Current, Resistance)>,
}

impl Problem {
    /// The sections from a source to a section, itself last. Empty for an index that is not there;
    /// ends where parents go in a ring.
    #[must_use]
    pub fn path(&self, section: usize) -> Vec<usize> {
        let mut path = Vec::new();
        let mut here = Some(section).filter(|&index| index < self.sections.len());
        while let Some(index) = here {
            path.push(index);
            let parent = self.sections[index].parent;
            here =
                parent.filter(|&up| up < self.sections.len() && path.len() < self.sections.len());
        }
        path.reverse();
        path
    }
}

/// Refuses indices that lead nowhere, rings, and numbers that mean nothing.
pub(super) fn check(problem: &Problem) -> Result<(), Refusal> {
    let count = problem.sections.len();
    require(
        "sections",
        count as f64,
        count <= MOST_SECTIONS,
        "at most 2000",
    )?;
    let ratings = super::whole::ratings(problem).len();
    let few = ratings <= MOST_RATINGS;
    require("different ratings", ratings as f64, few, "at most 10000")?;
    for (index, section) in problem.sections.iter().enumerate() {
        check_section(problem, index, section).map_err(|why| why.at("section", index))?;
    }
    for (index, limit) in problem.limits.iter().enumerate() {
        check_limit(count, limit).map_err(|why| why.at("limit", index))?;
    }
    let mut seen = vec![false; count];
    for (index, group) in problem.alike.iter().enumerate() {
        check_group(problem, group, &mut seen).map_err(|why| why.at("group", index))?;
    }
    Ok(())
}

fn check_section(problem: &Problem, index: usize, section: &Section) -> Result<(), Refusal> {
    let count = problem.sections.len();
    if let Some(parent) = section.parent {
        require(
            "parent",
            parent as f64,
            parent < count,
            "the index of a section",
        )?;
    }
    let mut up = section.parent;
    for _ in 0..count {
        let Some(here) = up else { break };
        require(
            "parent",
            here as f64,
            here != index,
            "a section further up, no ring",
        )?;
        up = problem
            .sections
            .get(here)
            .and_then(|section| section.parent);
    }
    not_below_zero("upstream_ratio", section.upstream_ratio.fraction())?;
    let choices = section.choices.len();
    require(
        "choices",
        choices as f64,
        choices <= MOST_CHOICES,
        "at most 500",
    )?;
    for choice in &section.choices {
        let legal = (0.0..=HIGHEST_COST).contains(&choice.cost);
        require("cost", choice.cost, legal, "0 to 1e9")?;
        within("mass [kg]", choice.mass.kilograms())?;
        within("drop [V]", choice.drop.volts())?;
        within("resistance [Ω]", choice.resistance.ohms())?;
        if let Some(rating) = choice.device {
            above_zero("device [A]", rating.amperes())?;
        }
    }
    Ok(())
}

fn check_limit(count: usize, limit: &Limit) -> Result<(), Refusal> {
    let length = limit.sections.len();
    require(
        "sections of a limit",
        length as f64,
        length <= MOST_IN_LIMIT,
        "at most 100",
    )?;
    let mut sorted = limit.sections.clone();
    sorted.sort_unstable();
    for pair in sorted.windows(2) {
        require(
            "section of a limit",
            pair[0] as f64,
            pair[0] != pair[1],
            "each section once",
        )?;
    }
    for &section in &limit.sections {
        require(
            "section of a limit",
            section as f64,
            section < count,
            "the index of a section",
        )?;
    }
    if let Some(drop) = limit.most_drop {
        within("most_drop [V]", drop.volts())?;
    }
    let Some(fault) = &limit.fault else {
        return Ok(());
    };
    require(
        "place of a fault",
        fault.at as f64,
        fault.at < count,
        "the index of a section",
    )?;
    let mut before = 0.0;
    for &(rating, most) in &fault.table {
        finite("rating in a table [A]", rating.amperes())?;
        require(
            "rating in a table [A]",
            rating.amperes(),
            rating.amperes() > before,
            "ratings above zero that rise",
        )?;
        before = rating.amperes();
        within("resistance in a table [Ω]", most.ohms())?;
    }
    Ok(())
}

fn check_group(problem: &Problem, group: &[usize], seen: &mut [bool]) -> Result<(), Refusal> {
    let choices = |index: usize| {
        problem
            .sections
            .get(index)
            .map(|section| section.choices.len())
    };
    for &section in group {
        let fresh = seen.get(section) == Some(&false);
        require(
            "section of a group",
            section as f64,
            fresh,
            "the index of a section that is in no other group",
        )?;
        seen[section] = true;
        let (found, wanted) = (
            choices(section),
            group.first().and_then(|&first| choices(first)),
        );
        require(
            "choices in a group",
            found.unwrap_or(0) as f64,
            found == wanted,
            "lists of the same length",
        )?;
    }
    Ok(())
}

/// Refuses anything but a finite number from 0 to a million.
fn within(field: &'static str, found: f64) -> Result<(), Refusal> {
    require(
        field,
        found,
        (0.0..=1e6).contains(&found),
        "a number from 0 to a million",
    )
}
