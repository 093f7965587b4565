//! Sizing worked out by hand, and laws every answer keeps. Not here: comparison with other methods
//! (`oracle_sizing`, `oracle_sizing_milp`).
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod sizing_problems;

use sizing_problems::{Minus, Plant, amperes, plant, tiny};
use wainwright_engines::sizing::*;
use wainwright_units::{Mass, Ratio, Resistance, Voltage};

fn section(parent: Option<usize>, choices: Vec<Choice>) -> Section {
    Section {
        parent,
        choices,
        upstream_ratio: Ratio::ZERO,
    }
}

fn wire(cost: f64, volts: f64, ohms: f64, device: Option<usize>) -> Choice {
    Choice {
        cost,
        mass: Mass::from_kilograms(0.0),
        drop: Voltage::from_volts(volts),
        resistance: Resistance::from_ohms(ohms),
        device: device.map(amperes),
    }
}

/// Sizes with circular mils of NEC Chapter 9 Table 8.
const MILS: [(&str, f64); 7] = [
    ("14", 4110.0),
    ("12", 6530.0),
    ("10", 10380.0),
    ("8", 16510.0),
    ("6", 26240.0),
    ("4", 41740.0),
    ("2", 66360.0),
];

/// Choices of a section by the rule of circular mils: drop = 10.75 · amperes · feet there and back / mils.
/// Prices are per foot.
fn by_mils(amperes: f64, feet: f64, prices: [f64; 7]) -> Vec<Choice> {
    let choice = |((_, mils), price): (&(&str, f64), f64)| {
        wire(price * feet, 10.75 * amperes * feet / mils, 0.0, None)
    };
    MILS.iter().zip(prices).map(choice).collect()
}

/// A feeder to a fuse block, 20 ft there and back, 40 A; from there a refrigerator, 40 ft and 8 A, and a
/// lamp, 30 ft and 5 A. Highest drop to each 3 % of 12 V: 0.36 V. Drops, K = 10.75 Ω·cmil/ft:
///
/// - feeder 10.75 · 40 · 20 = 8600 / mils: 6 AWG 0.3277, 4 AWG 0.2060, 2 AWG 0.1296;
/// - refrigerator 10.75 · 8 · 40 = 3440 / mils: 10 AWG 0.3314, 8 AWG 0.2084, 6 AWG 0.1311;
/// - lamp 10.75 · 5 · 30 = 1612.5 / mils: 12 AWG 0.2469, 10 AWG 0.1553, 8 AWG 0.0977.
///
/// Feeder 6 AWG leaves 0.0323: neither can be kept. 4 AWG leaves 0.1540: refrigerator 6 AWG, lamp 8 AWG
/// (10 AWG is 1.4 mV too much). 2 AWG leaves 0.2304: refrigerator 8 AWG, lamp 10 AWG. Per foot 10 AWG
/// costs 0.60, 8 AWG 1.00, 6 AWG 1.50, 4 AWG 2.20, 2 AWG 3.50:
/// with 4 AWG 44 + 60 + 30 = 134, with 2 AWG 70 + 40 + 18 = 128. A thicker feeder is cheaper.
/// At 4.00 a foot, 2 AWG comes to 80 + 40 + 18 = 138, and 4 AWG wins.
#[test]
fn a_thick_feeder_pays_by_the_rule_of_mils() {
    for (price, chosen, cost) in [
        (3.5, ["2", "8", "10"], 128.0),
        (4.0, ["4", "6", "8"], 134.0),
    ] {
        let prices = [0.3, 0.45, 0.6, 1.0, 1.5, 2.2, price];
        let limit = |branch: usize| Limit {
            sections: vec![0, branch],
            most_drop: Some(Voltage::from_volts(0.36)),
            fault: None,
        };
        let problem = Problem {
            sections: vec![
                section(None, by_mils(40.0, 20.0, prices)),
                section(Some(0), by_mils(8.0, 40.0, prices)),
                section(Some(0), by_mils(5.0, 30.0, prices)),
            ],
            limits: vec![limit(1), limit(2)],
            alike: vec![],
        };
        let plan = least_cost(&problem).unwrap();
        let sizes: Vec<&str> = plan.chosen.iter().map(|&choice| MILS[choice].0).collect();
        assert_eq!(sizes, chosen);
        assert!((plan.appraisal.cost - cost).abs() < 1e-9 && plan.proven);
    }
}

/// Feeder and branch with fuses. Resistances by NEC Chapter 9 Table 8, Ω per 1000 ft: 12 AWG 1.98,
/// 10 AWG 1.24, 8 AWG 0.778, 6 AWG 0.491. A fuse is to see five times its rating from 12 V:
/// 20 A 12/100 = 0.12 Ω, 30 A 0.08, 40 A 0.06, 60 A 0.04.
///
/// Feeder, 30 ft: 8 AWG at 40 A 0.02334 Ω for 30; 6 AWG at 60 A 0.01473 Ω for 45.
/// Branch, 60 ft: 12 AWG at 20 A 0.1188 Ω for 27; 10 AWG at 20 A 0.0744 Ω for 36; 10 AWG at 30 A for 36.5;
/// 8 AWG at 30 A 0.04668 Ω for 60.5.
struct FusedBranch {
    ratio: f64,
    /// Which of the branch's choices there are.
    branch: &'static [usize],
}

impl FusedBranch {
    fn problem(&self) -> Problem {
        let ohms = |feet: f64, per_thousand: f64| feet * per_thousand / 1000.0;
        let all = [
            wire(27.0, 0.0, ohms(60.0, 1.98), Some(20)),
            wire(36.0, 0.0, ohms(60.0, 1.24), Some(20)),
            wire(36.5, 0.0, ohms(60.0, 1.24), Some(30)),
            wire(60.5, 0.0, ohms(60.0, 0.778), Some(30)),
        ];
        let feeder = vec![
            wire(30.0, 0.0, ohms(30.0, 0.778), Some(40)),
            wire(45.0, 0.0, ohms(30.0, 0.491), Some(60)),
        ];
        let mut branch = section(
            Some(0),
            self.branch.iter().map(|&index| all[index]).collect(),
        );
        branch.upstream_ratio = Ratio::from_fraction(self.ratio);
        let table = [20, 30, 40, 60].map(|rating| {
            (
                amperes(rating),
                Resistance::from_ohms(12.0 / (5.0 * rating as f64)),
            )
        });
        let limit = |sections: Vec<usize>, at: usize| Limit {
            sections,
            most_drop: None,
            fault: Some(FaultLimit {
                at,
                table: table.into(),
            }),
        };
        Problem {
            sections: vec![section(None, feeder), branch],
            limits: vec![limit(vec![0], 0), limit(vec![0, 1], 1)],
            alike: vec![],
        }
    }
}

/// - Ratio 2: 12 AWG has 0.1188 + 0.0147 = 0.1335 Ω at best, above 0.12. 10 AWG at 20 A with the thin
///   feeder 0.0744 + 0.0233 = 0.0977, kept; 2 · 20 ≤ 40. Cost 30 + 36 = 66.
/// - Ratio 2.5: 2.5 · 20 = 50 asks for the 60 A feeder: 45 + 36 = 81.
/// - Without the 20 A fuse, ratio 2: 60 A feeder; 10 AWG 0.0744 + 0.0147 = 0.0891 above 0.08; 8 AWG
///   0.0467 + 0.0147 = 0.0614, kept: 45 + 60.5 = 105.5.
#[test]
fn fuses_that_open_and_open_first() {
    let cases: [(f64, &'static [usize], f64, [usize; 2]); 3] = [
        (2.0, &[0, 1, 2, 3], 66.0, [0, 1]),
        (2.5, &[0, 1, 2, 3], 81.0, [1, 1]),
        (2.0, &[2, 3], 105.5, [1, 1]),
    ];
    for (ratio, branch, cost, chosen) in cases {
        let plan = least_cost(&FusedBranch { ratio, branch }.problem()).unwrap();
        assert!((plan.appraisal.cost - cost).abs() < 1e-9, "{plan:?}");
        assert_eq!(plan.chosen, chosen);
    }
}

/// Only 12 AWG: 0.1188 + 0.01473 = 0.13353 Ω at the least, 0.12 allowed. Ratio 4: 4 · 20 = 80 above 60.
#[test]
fn says_which_limit_cannot_be_met_and_by_how_much() {
    let error = least_cost(
        &FusedBranch {
            ratio: 2.0,
            branch: &[0],
        }
        .problem(),
    )
    .unwrap_err();
    let SizingError::Impossible(obstacles) = error else {
        panic!("{error}")
    };
    let [
        Obstacle::Resistance {
            limit: 1,
            least,
            most: Some(most),
        },
    ] = obstacles[..]
    else {
        panic!("{obstacles:?}")
    };
    assert!((least.ohms() - 0.133_53).abs() < 1e-9 && (most.ohms() - 0.12).abs() < 1e-9);
    let error = least_cost(
        &FusedBranch {
            ratio: 4.0,
            branch: &[1],
        }
        .problem(),
    )
    .unwrap_err();
    assert_eq!(
        error,
        SizingError::Impossible(vec![Obstacle::Selectivity {
            section: 1,
            upstream: 0
        }])
    );
    let error = least_cost(
        &FusedBranch {
            ratio: 2.0,
            branch: &[],
        }
        .problem(),
    )
    .unwrap_err();
    assert_eq!(
        error,
        SizingError::Impossible(vec![Obstacle::NoChoice { section: 1 }])
    );
}

/// Thin feeder with the large fuse and thick with the small one only: each limit can be kept, not both.
/// Two choices: 0.05 Ω with 10 A, 0.02 Ω with 60 A; allowed 0.04 Ω with 10 A, 0.01 Ω with 60 A.
#[test]
fn says_what_cannot_be_met_together() {
    let choices = vec![
        wire(1.0, 0.0, 0.05, Some(10)),
        wire(1.0, 0.0, 0.02, Some(60)),
    ];
    let table = [(10, 0.04), (60, 0.01)]
        .map(|(rating, ohms)| (amperes(rating), Resistance::from_ohms(ohms)));
    let limit = Limit {
        sections: vec![0],
        most_drop: None,
        fault: Some(FaultLimit {
            at: 0,
            table: table.into(),
        }),
    };
    let problem = Problem {
        sections: vec![section(None, choices)],
        limits: vec![limit],
        alike: vec![],
    };
    let error = least_cost(&problem).unwrap_err();
    let together = Obstacle::Together {
        limits: vec![0],
        sections: vec![],
    };
    assert_eq!(error, SizingError::Impossible(vec![together]));
}

/// Of equal cost the lighter: 7 for both, 3 kg against 2 kg.
#[test]
fn of_equal_cost_the_lighter() {
    let with_mass = |cost: f64, kilograms: f64| Choice {
        mass: Mass::from_kilograms(kilograms),
        ..wire(cost, 0.1, 0.0, None)
    };
    let choices = vec![
        with_mass(7.0, 3.0),
        with_mass(7.0, 2.0),
        with_mass(7.000_01, 1.0),
    ];
    let problem = Problem {
        sections: vec![section(None, choices)],
        ..Problem::default()
    };
    assert_eq!(least_cost(&problem).unwrap().chosen, [1]);
}

#[test]
fn nonsense_is_refused() {
    let fine = FusedBranch {
        ratio: 2.0,
        branch: &[1],
    }
    .problem();
    let refused = |change: fn(&mut Problem)| {
        let mut problem = fine.clone();
        change(&mut problem);
        matches!(least_cost(&problem), Err(SizingError::Refused(_)))
    };
    assert!(refused(|problem| problem.sections[0].parent = Some(1)));
    assert!(refused(|problem| problem.sections[0].parent = Some(7)));
    assert!(refused(|problem| problem.sections[1].choices[0].cost = -1.0));
    assert!(refused(
        |problem| problem.sections[1].choices[0].cost = f64::NAN
    ));
    assert!(refused(
        |problem| problem.sections[1].choices[0].drop = Voltage::from_volts(f64::INFINITY)
    ));
    assert!(refused(|problem| problem.limits[0].sections = vec![0, 0]));
    assert!(refused(|problem| problem.limits[0].sections = vec![5]));
    assert!(refused(|problem| problem.alike = vec![vec![0, 1]]));
    assert!(refused(|problem| problem.limits[0]
        .fault
        .as_mut()
        .unwrap()
        .table
        .reverse()));
    assert!(appraise(&fine, &[0]).is_err() && appraise(&fine, &[0, 9]).is_err());
    assert!(least_cost(&Problem::default()).unwrap().proven);
}

/// Two devices of one group, with another device between them: nothing decides which comes first.
#[test]
fn groups_that_feed_one_another_crosswise_are_refused() {
    let fused = |parent| section(parent, vec![wire(1.0, 0.0, 0.0, Some(10)); 2]);
    let problem = Problem {
        sections: vec![fused(None), fused(Some(0)), fused(Some(1))],
        alike: vec![vec![0, 2]],
        ..Problem::default()
    };
    assert!(matches!(least_cost(&problem), Err(SizingError::Refused(_))));
}

/// Cost in cents; none when nothing keeps all limits.
fn cents(problem: &Problem) -> Option<i64> {
    match least_cost(problem) {
        Ok(plan) => {
            assert!(plan.proven && plan.lower_bound <= plan.appraisal.cost + 1e-6);
            assert!(appraise(problem, &plan.chosen).unwrap().holds());
            Some((plan.appraisal.cost * 100.0).round() as i64)
        }
        Err(SizingError::Impossible(_)) => None,
        Err(other) => panic!("{other}"),
    }
}

/// `None` is above everything.
fn no_cheaper(one: Option<i64>, than: Option<i64>) -> bool {
    one.unwrap_or(i64::MAX) >= than.unwrap_or(i64::MAX)
}

#[test]
fn laws_of_least_cost() {
    let plants = (0..12).map(|seed| {
        let kinds = [
            None,
            Some(Minus::Alike),
            Some(Minus::OneBar),
            Some(Minus::CrossBars),
        ];
        let minus = kinds[seed as usize % 4];
        plant(
            seed,
            Plant {
                circuits: 8,
                blocks: 2,
                minus,
            },
        )
    });
    for problem in (0..300).map(tiny).chain(plants) {
        let cost = cents(&problem);
        let mut tighter = problem.clone();
        for limit in &mut tighter.limits {
            limit.most_drop = limit.most_drop.map(|drop| drop * 0.9);
        }
        assert!(no_cheaper(cents(&tighter), cost), "a tighter limit");
        let mut fewer = problem.clone();
        fewer.sections[0].choices.truncate(1);
        if problem.alike.iter().all(|group| !group.contains(&0)) {
            assert!(no_cheaper(cents(&fewer), cost), "fewer choices");
        }
        let mut looser = problem.clone();
        for section in &mut looser.sections {
            section.upstream_ratio = section.upstream_ratio * 0.5;
        }
        assert!(
            no_cheaper(cost, cents(&looser)),
            "devices closer to one another"
        );
        let mut dearer = problem.clone();
        for choice in dearer
            .sections
            .iter_mut()
            .flat_map(|section| &mut section.choices)
        {
            choice.cost *= 3.0;
        }
        assert_eq!(
            cents(&dearer),
            cost.map(|cost| cost * 3),
            "all costs threefold"
        );
        assert_eq!(cents(&backwards(&problem)), cost, "another order");
    }
}

/// The same problem with all lists in the opposite order.
fn backwards(problem: &Problem) -> Problem {
    let last = problem.sections.len() - 1;
    let mut other = problem.clone();
    other.sections.reverse();
    other.limits.reverse();
    for section in &mut other.sections {
        section.parent = section.parent.map(|parent| last - parent);
        section.choices.reverse();
    }
    for limit in &mut other.limits {
        limit
            .sections
            .iter_mut()
            .for_each(|section| *section = last - *section);
        if let Some(fault) = &mut limit.fault {
            fault.at = last - fault.at;
        }
    }
    for section in other.alike.iter_mut().flatten() {
        *section = last - *section;
    }
    other
}
