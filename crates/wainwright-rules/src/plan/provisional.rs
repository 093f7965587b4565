//! Sizes to compute a draft with for the first time: thick wire, so that
//! currents are those of good supply and short-circuit currents the largest.

use super::choose::Choice;
use super::draft::{Draft, Guard, Section};
use super::limits;
use wainwright_model::Region;
use wainwright_reference::protection::{Family, ratings};
use wainwright_units::{CrossSection, WireSize};

/// Metal of a provisional battery cable and branch \[mm²\].
const MAIN: f64 = 100.0;
const BRANCH: f64 = 13.0;

/// Provisional choices.
pub(super) fn choices(draft: &Draft, region: Region) -> Vec<Choice> {
    let sizes = limits::sizes(region);
    let at_least = |area: f64| {
        let found = sizes
            .iter()
            .copied()
            .find(|size| limits::area(*size) >= area);
        found.or(sizes.last().copied()).unwrap_or(WireSize::Metric(
            CrossSection::from_square_millimetres(MAIN),
        ))
    };
    draft
        .sections
        .iter()
        .map(|section| {
            let area = if section.insulation == limits::insulation(region, false) {
                MAIN
            } else {
                BRANCH
            };
            let fuse = fuse(section);
            Choice {
                size: at_least(area),
                insulation: section.insulation.to_string(),
                family: fuse.map(|found| found.0),
                rating: fuse.map(|found| found.1),
                cost: 0.0,
                ohms: Vec::new(),
            }
        })
        .collect()
}

fn fuse(section: &Section) -> Option<(Family, f64)> {
    let Guard::Own(device) = &section.guard else {
        return None;
    };
    let family = *device.families.last()?;
    let least = section.least.max(section.rated);
    let all: Vec<f64> = ratings(family)
        .into_iter()
        .map(|r| r.value.amperes())
        .collect();
    // A battery's fuse, whose load is not known yet, is taken large: a small
    // one resists as much as metres of wire.
    let found = all
        .iter()
        .copied()
        .find(|rating| least > 0.0 && *rating >= least);
    Some((family, device.fixed.or(found).or(all.last().copied())?))
}
