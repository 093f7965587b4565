//! Guards, bare lengths, sides and lasting currents against brute force: take
//! a device away and see what is still reached; try every set of devices as a
//! cut and take the cheapest.

use crate::random::{Gear, Link, Made, make};
use std::cell::Cell;
use std::collections::BTreeSet;
use wainwright_analysis::assess;
use wainwright_analysis::result::{Assessment, Guard, Side, WireResult};

const PROJECTS: u64 = 150;

fn each(check: impl Fn(&Made, &Assessment)) {
    for seed in 0..PROJECTS {
        let made = make(seed);
        check(&made, &assess(&made.project()));
    }
}

fn sources(made: &Made) -> impl Iterator<Item = &Gear> {
    made.gear.iter().filter(|gear| gear.gives.is_some())
}

fn everything(_: &Link) -> bool {
    false
}

#[test]
fn every_wire_has_the_side_that_walking_from_the_sources_gives() {
    each(|made, found| {
        let plus: Vec<usize> = sources(made).map(|s| s.plus).collect();
        let minus: Vec<usize> = sources(made).map(|s| s.minus).collect();
        let reached = [plus, minus].map(|starts| made.reach(&starts, &everything));
        for (end, _, id, _) in made.wires() {
            let side = match [0, 1].map(|side| reached[side].contains(&end)) {
                [true, false] => Side::Plus,
                [false, true] => Side::Minus,
                [true, true] => Side::Both,
                [false, false] => Side::Neither,
            };
            assert_eq!(found.wire(id).unwrap().side, side, "{id} in\n{}", made.text);
        }
    });
}

#[test]
fn a_guard_is_the_smallest_device_whose_loss_cuts_the_wire_off() {
    let compared = Cell::new(0);
    each(|made, found| {
        for (wire, source, guard) in plus_guards(made, found) {
            let cuts = |device: &str| {
                let without = |link: &Link| matches!(link, Link::Device(id, _) if id == device);
                let left = made.reach(&[source.plus], &without);
                !left.contains(&wire.0) && !left.contains(&wire.1)
            };
            let devices = made.devices();
            let smallest = devices
                .iter()
                .filter(|(id, _)| cuts(id))
                .map(|(_, amps)| *amps);
            let smallest = smallest.min_by(f64::total_cmp);
            compared.set(compared.get() + 1);
            let ours = guard
                .device
                .map(|d| found.devices[d].rating.value.amperes());
            assert_eq!(
                ours, smallest,
                "{} from {} in\n{}",
                wire.2, source.item, made.text
            );
        }
    });
    let compared = compared.get();
    assert!(compared > 1000, "only {compared} guards were compared");
}

#[test]
fn a_bare_length_is_the_shortest_way_without_a_device() {
    each(|made, found| {
        for (wire, source, guard) in plus_guards(made, found) {
            let metres = bellman_ford(made, source.plus);
            let far = metres[wire.0].min(metres[wire.1]) + wire.3;
            match guard.bare_length {
                Some(bare) => assert!((bare.metres() - far).abs() < 1e-9, "{}", made.text),
                None => assert!(far.is_infinite(), "{} in\n{}", wire.2, made.text),
            }
        }
    });
}

#[test]
fn sources_together_push_what_the_cheapest_cut_lets_through() {
    each(|made, found| {
        for (from, to, id, _) in made.wires() {
            let wire = found.wire(id).unwrap();
            let most = match wire.side {
                Side::Minus => returning(made, id, (from, to)),
                _ => feeding(made, id, (from, to)),
            };
            let ours = wire.together.map_or(f64::INFINITY, |amps| amps.amperes());
            assert!(
                ours == most || (ours - most).abs() < 1e-9,
                "{id} {:?}: {ours} against {most} in\n{}",
                wire.side,
                made.text
            );
        }
    });
}

type Wire<'a> = (usize, usize, &'a str, f64);

/// Every wire that conductors join to the plus terminal of a source.
fn plus_guards<'a>(made: &'a Made, found: &Assessment) -> Vec<(Wire<'a>, &'a Gear, Guard)> {
    let mut all = Vec::new();
    for source in sources(made) {
        let reached = made.reach(&[source.plus], &everything);
        for wire in made.wires().filter(|wire| reached.contains(&wire.0)) {
            let result = found.wire(wire.2).unwrap();
            let guard = from(result, source).unwrap_or_else(|| panic!("{}", made.text));
            all.push((wire, source, guard));
        }
    }
    all
}

fn from(wire: &WireResult, source: &Gear) -> Option<Guard> {
    wire.guards
        .iter()
        .find(|guard| guard.source == *source.item.as_str())
        .cloned()
}

fn bellman_ford(made: &Made, start: usize) -> Vec<f64> {
    let mut metres = vec![f64::INFINITY; made.points];
    metres[start] = 0.0;
    for _ in 0..made.points {
        for (a, b, link) in &made.links {
            let step = match link {
                Link::Wire(_, metres) => *metres,
                Link::Other => 0.0,
                Link::Device(..) => continue,
            };
            metres[*a] = metres[*a].min(metres[*b] + step);
            metres[*b] = metres[*b].min(metres[*a] + step);
        }
    }
    metres
}

/// Current into either end of a live wire, the wire taken away.
fn feeding(made: &Made, wire: &str, ends: (usize, usize)) -> f64 {
    let all: Vec<&Gear> = sources(made).collect();
    [ends.0, ends.1]
        .map(|end| cheapest_cut(made, &all, &BTreeSet::from([end]), wire))
        .into_iter()
        .fold(0.0, f64::max)
}

/// Current through a return wire: from sources on one side of it to gear on
/// the other; to all other gear where the wire is one of several ways.
fn returning(made: &Made, wire: &str, ends: (usize, usize)) -> f64 {
    let without = |link: &Link| matches!(link, Link::Wire(id, _) if id == wire);
    let sides = [ends.0, ends.1].map(|end| made.reach(&[end], &without));
    let loops = sides[0].contains(&ends.1);
    let mut most: f64 = 0.0;
    for (here, there) in [(0, 1), (1, 0)] {
        let giving: Vec<&Gear> = sources(made)
            .filter(|s| sides[here].contains(&s.minus))
            .collect();
        let own = |gear: &Gear| loops && giving.iter().any(|source| source.plus == gear.plus);
        let taking = made
            .gear
            .iter()
            .filter(|g| sides[there].contains(&g.minus) && !own(g));
        let taking: BTreeSet<usize> = taking.map(|gear| gear.plus).collect();
        most = most.max(cheapest_cut(made, &giving, &taking, ""));
    }
    most
}

/// The cheapest set of devices and limited sources without which no source
/// reaches any of the ends.
fn cheapest_cut(made: &Made, sources: &[&Gear], ends: &BTreeSet<usize>, wire: &str) -> f64 {
    let devices = made.devices();
    let limited: Vec<(&str, f64)> = sources
        .iter()
        .filter_map(|s| Some((s.item.as_str(), s.gives.filter(|amps| amps.is_finite())?)))
        .collect();
    let reached = made.reach(
        &sources.iter().map(|s| s.plus).collect::<Vec<_>>(),
        &everything,
    );
    let near = devices.iter().filter(|(id, _)| {
        made.links.iter().any(|(a, _, link)| {
            matches!(link, Link::Device(other, _) if other == id) && reached.contains(a)
        })
    });
    let cuttable: Vec<(&str, f64)> = near.copied().chain(limited).collect();
    assert!(cuttable.len() < 16, "too many to try every set");
    let mut cheapest = f64::INFINITY;
    for set in 0..1_u32 << cuttable.len() {
        let chosen = cuttable
            .iter()
            .enumerate()
            .filter(|(n, _)| set >> n & 1 == 1);
        let cost: f64 = chosen.clone().map(|(_, (_, amps))| amps).sum();
        if cost >= cheapest {
            continue;
        }
        let gone: BTreeSet<&str> = chosen.map(|(_, (id, _))| *id).collect();
        let cut = |link: &Link| match link {
            Link::Device(id, _) => gone.contains(id.as_str()),
            Link::Wire(id, _) => id == wire,
            Link::Other => false,
        };
        let left = sources.iter().filter(|s| !gone.contains(s.item.as_str()));
        let starts: Vec<usize> = left.map(|source| source.plus).collect();
        if made.reach(&starts, &cut).is_disjoint(ends) {
            cheapest = cost;
        }
    }
    cheapest
}
