//! The fault study against a slow simulator of its own: dense elimination for the currents, small steps
//! of time for the melting of the devices, on small random networks. And properties.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod fuses;
mod wires;

use fuses::*;
use proptest::prelude::*;
use wainwright_engines::conductor_heat::Surroundings;
use wainwright_engines::faults::*;
use wainwright_engines::network::{Branch, Element, Network};
use wainwright_units::*;
use wires::{amperes, awg, celsius, close};

const ZERO: f64 = 1e-3;

/// Which devices are early: none, all, or one.
#[derive(Clone, Copy, PartialEq)]
enum Early {
    None,
    All,
    One(usize),
}

struct Plain<'a> {
    net: &'a Network,
    devices: &'a [Device],
    case: FaultCase,
}

struct Story {
    order: Vec<usize>,
    cleared: Option<f64>,
    /// ∫I²dt of each branch while the fault lasts.
    energy: Vec<f64>,
}

impl Plain<'_> {
    /// Current of the short and of every branch, by dense elimination of the node equations. A tiny
    /// conductance to ground holds parts that hang in the air.
    fn currents(&self, open: &[usize]) -> (f64, Vec<f64>) {
        let nodes = self.net.node_count;
        let mut matrix = vec![vec![0.0; nodes + 1]; nodes];
        let mut stamp = |from: usize, to: usize, conductance: f64, pushed: f64| {
            matrix[from][from] += conductance;
            matrix[to][to] += conductance;
            matrix[from][to] -= conductance;
            matrix[to][from] -= conductance;
            matrix[from][nodes] += pushed;
            matrix[to][nodes] -= pushed;
        };
        for (index, branch) in self.net.branches.iter().enumerate() {
            if open.contains(&index) {
                continue;
            }
            match branch.element {
                Element::Resistor(value) => stamp(branch.from, branch.to, 1.0 / value.ohms(), 0.0),
                Element::Source { emf, resistance } => {
                    let conductance = 1.0 / resistance.ohms();
                    stamp(
                        branch.from,
                        branch.to,
                        conductance,
                        emf.volts() * conductance,
                    );
                }
                _ => unreachable!("only resistors and sources are made here"),
            }
        }
        stamp(
            self.case.from,
            self.case.to,
            1.0 / self.case.bridge.ohms(),
            0.0,
        );
        for (node, row) in matrix.iter_mut().enumerate() {
            row[node] += if node == self.net.ground { 1e6 } else { 1e-9 };
        }
        let volts = eliminate(matrix);
        let branches = self.net.branches.iter().enumerate().map(|(index, branch)| {
            let across = volts[branch.from] - volts[branch.to];
            match branch.element {
                _ if open.contains(&index) => 0.0,
                Element::Resistor(value) => across / value.ohms(),
                Element::Source { emf, resistance } => (emf.volts() - across) / resistance.ohms(),
                _ => unreachable!("only resistors and sources are made here"),
            }
        });
        let total = (volts[self.case.from] - volts[self.case.to]) / self.case.bridge.ohms();
        (total, branches.collect())
    }

    /// Steps through time: each device melts by dt/t(I), the first to reach one opens.
    fn story(&self, early: Early) -> Story {
        let mut open = Vec::new();
        let mut melted = vec![0.0; self.devices.len()];
        let mut story = Story {
            order: vec![],
            cleared: None,
            energy: vec![0.0; self.net.branches.len()],
        };
        let mut clock = 0.0;
        for _ in 0..=self.devices.len() {
            let (total, branches) = self.currents(&open);
            if total.abs() < ZERO {
                story.cleared = Some(clock);
                return story;
            }
            let times: Vec<f64> = (0..self.devices.len())
                .map(|index| {
                    self.time(
                        index,
                        branches[self.devices[index].branch].abs(),
                        &open,
                        early,
                    )
                })
                .collect();
            let left = |melted: &[f64]| {
                let each = times
                    .iter()
                    .zip(melted)
                    .filter(|(time, _)| time.is_finite());
                each.map(|(time, done)| time * (1.0 - done))
                    .fold(f64::INFINITY, f64::min)
            };
            if left(&melted).is_infinite() {
                let carrying = branches
                    .iter()
                    .enumerate()
                    .filter(|(_, amps)| amps.abs() >= ZERO);
                carrying.for_each(|(index, _)| story.energy[index] = f64::INFINITY);
                return story;
            }
            let step = left(&melted) / 400.0;
            let opened = loop {
                clock += step;
                for (energy, amps) in story.energy.iter_mut().zip(&branches) {
                    *energy += if amps.abs() >= ZERO {
                        amps * amps * step
                    } else {
                        0.0
                    };
                }
                for (done, time) in melted.iter_mut().zip(&times) {
                    *done += step / time;
                }
                if let Some(first) = melted
                    .iter()
                    .zip(&times)
                    .position(|(done, time)| time.is_finite() && *done >= 1.0 - 1e-9)
                {
                    break first;
                }
            };
            story.order.push(opened);
            open.push(self.devices[opened].branch);
        }
        story
    }

    fn time(&self, index: usize, amps: f64, open: &[usize], early: Early) -> f64 {
        let device = &self.devices[index];
        let multiple = amps / device.rating.amperes();
        if open.contains(&device.branch) || multiple <= 1.0 {
            return f64::INFINITY;
        }
        let band = device.curve.band(multiple);
        let is_early = early == Early::All || early == Early::One(index);
        let time = if is_early { band.earliest } else { band.latest };
        time.map_or(f64::INFINITY, Duration::seconds)
    }
}

/// Gaussian elimination with row exchange on an augmented matrix.
fn eliminate(mut rows: Vec<Vec<f64>>) -> Vec<f64> {
    let count = rows.len();
    for column in 0..count {
        let best = (column..count)
            .max_by(|&a, &b| rows[a][column].abs().total_cmp(&rows[b][column].abs()))
            .expect("rows are left");
        rows.swap(column, best);
        for row in column + 1..count {
            let share = rows[row][column] / rows[column][column];
            let (above, below) = rows.split_at_mut(row);
            for (target, value) in below[0].iter_mut().zip(&above[column]).skip(column) {
                *target -= share * value;
            }
        }
    }
    let mut solution = vec![0.0; count];
    for row in (0..count).rev() {
        let known: f64 = (row + 1..count)
            .map(|column| rows[row][column] * solution[column])
            .sum();
        solution[row] = (rows[row][count] - known) / rows[row][row];
    }
    solution
}

#[derive(Debug, Clone)]
struct Plant {
    net: Network,
    devices: Vec<Device>,
    case: FaultCase,
}

/// A tree of up to seven nodes with some loops, one to three sources, devices in some branches.
fn plant() -> impl Strategy<Value = Plant> {
    (3usize..8).prop_flat_map(|nodes| {
        let tree = prop::collection::vec((any::<prop::sample::Index>(), 0.001..0.05f64), nodes - 1);
        let loops = prop::collection::vec((0..nodes, 0..nodes, 0.002..0.1f64), 0..3);
        let sources = prop::collection::vec((1..nodes, 12.0..14.5f64, 0.003..0.03f64), 1..4);
        let fuses = prop::collection::vec(
            (any::<prop::sample::Index>(), 10.0..150.0f64, any::<bool>()),
            0..5,
        );
        (tree, loops, sources, fuses, 1..nodes, 0.0005..0.05f64).prop_map(
            move |(tree, loops, sources, fuses, at, bridge)| {
                let mut branches: Vec<Branch> = tree
                    .iter()
                    .enumerate()
                    .map(|(index, (parent, ohms))| {
                        resistor(index + 1, parent.index(index + 1), *ohms)
                    })
                    .collect();
                let real = loops.into_iter().filter(|(from, to, _)| from != to);
                branches.extend(real.map(|(from, to, ohms)| resistor(from, to, ohms)));
                branches.extend(
                    sources
                        .into_iter()
                        .map(|(at, volts, ohms)| source(at, 0, volts, ohms)),
                );
                let mut devices: Vec<Device> = Vec::new();
                for (branch, rating, large) in fuses {
                    let branch = branch.index(branches.len());
                    let curve = if large { large_blade() } else { medium_blade() };
                    if !devices.iter().any(|device| device.branch == branch) {
                        devices.push(device(branch, rating, curve, 1000.0));
                    }
                }
                let bridge = Resistance::from_ohms(bridge);
                let case = FaultCase {
                    place: 3,
                    from: at,
                    to: 0,
                    bridge,
                };
                let net = Network {
                    node_count: nodes,
                    ground: 0,
                    branches,
                };
                Plant { net, devices, case }
            },
        )
    })
}

fn withstand(branch: usize, name: &str) -> Withstand {
    Withstand {
        branch,
        build: awg(name),
        surroundings: Surroundings::Open,
        ambient: celsius(30.0),
        start: celsius(60.0),
        insulation_limit: celsius(105.0),
        short_limit: celsius(160.0),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(200) })]

    /// Current, order, time and energies. 1 %: the simulator steps in 1/400 of the time to the first opening.
    #[test]
    fn agrees_with_the_slow_simulator(plant in plant()) {
        let Plant { net, devices, case } = &plant;
        let conductors: Vec<Withstand> =
            (0..net.branches.len()).map(|branch| withstand(branch, "2/0")).collect();
        let study = study(net, net, devices, &conductors, &[*case]).unwrap();
        let found = &study.cases[0].largest;
        let plain = Plain { net, devices, case: *case };
        let (total, branches) = plain.currents(&[]);
        let gap = (found.current.amperes() - total.abs()).abs();
        prop_assert!(gap < ZERO + 1e-6 * total.abs(), "{found:?}");
        let slow = plain.story(Early::None);
        let order: Vec<usize> = found.openings.iter().map(|opening| opening.device).collect();
        prop_assert_eq!(&order, &slow.order);
        // Every course that the study may follow; at most five devices, so none is left out.
        let mixed: Vec<Story> =
            (0..devices.len()).map(|device| plain.story(Early::One(device))).collect();
        let late = || mixed.iter().chain([&slow]);
        let fast = plain.story(Early::All);
        let first = late().chain([&fast]).filter_map(|story| story.cleared).reduce(f64::min);
        let last = late().map(|story| story.cleared).collect::<Option<Vec<f64>>>();
        let last = last.map(|times| times.into_iter().fold(0.0, f64::max));
        match found.clearing {
            Clearing::NoCurrent => prop_assert!(total.abs() < 2.0 * ZERO),
            Clearing::Cleared { earliest, latest } => {
                prop_assert!(close(earliest.seconds(), first.unwrap(), 0.01), "{earliest:?} {first:?}");
                let last = last.unwrap_or(f64::INFINITY);
                prop_assert!(close(latest.seconds(), last, 0.01), "{latest:?} {last:?}");
            }
            Clearing::Uncertain { earliest, .. } => {
                prop_assert!(close(earliest.seconds(), first.unwrap(), 0.01));
                prop_assert!(last.is_none());
            }
            Clearing::Never { .. } => prop_assert!(first.is_none()),
        }
        for stress in &found.stresses {
            let worst = late().map(|story| story.energy[stress.conductor]).fold(0.0, f64::max);
            prop_assert!(stress.current.amperes() >= branches[stress.conductor].abs() * (1.0 - 1e-6) - ZERO);
            match stress.basis {
                // Without loss the hottest course is the one of most energy, unless a course that is
                // longer than 5 s has more, which heat loss makes the cooler one.
                Basis::Adiabatic if last.is_some_and(|last| last <= 5.0) => prop_assert!(
                    close(stress.let_through, worst, 0.01), "{stress:?} against {worst}"
                ),
                Basis::Adiabatic | Basis::WithLoss => prop_assert!(stress.let_through <= 1.01 * worst),
                Basis::Settled => prop_assert!(worst.is_infinite()),
            }
            prop_assert_eq!(stress.lasts.is_none(), stress.let_through.is_infinite());
        }
        // Every branch with current is there.
        let carrying = branches.iter().filter(|amps| amps.abs() > 1.1 * ZERO).count();
        prop_assert!(total.abs() < 2.0 * ZERO || found.stresses.len() >= carrying);
    }

    /// On a path every device carries current, the sources are sources, and the nearest device of a
    /// branch in which a fuse sits right before the fault is that fuse.
    #[test]
    fn nearest_device_is_the_nearest(plant in plant(), rating in 5.0..40.0f64) {
        let Plant { mut net, mut devices, mut case } = plant;
        let end = net.node_count;
        net.node_count += 1;
        net.branches.push(resistor(case.from, end, 0.005));
        devices.push(device(net.branches.len() - 1, rating, medium_blade(), 1000.0));
        case.from = end;
        let study = study(&net, &net, &devices, &[], &[case]).unwrap();
        let found = &study.cases[0].largest;
        prop_assume!(found.current.amperes() > 1.0);
        prop_assert!(!found.paths.is_empty());
        let settled = |path: &SourcePath| !matches!(path.selectivity, Selectivity::NotProven { .. });
        let all_settled = found.paths.iter().all(settled);
        for path in &found.paths {
            prop_assert_eq!(path.devices[0].device, devices.len() - 1);
            prop_assert!(close(path.devices[0].current.amperes(), found.current.amperes(), 1e-6));
            for source in &path.sources {
                let is_source = matches!(net.branches[*source].element, Element::Source { .. });
                prop_assert!(is_source);
            }
        }
        // Where every way is selective and nothing beside the ways opens, only the nearest may.
        let ways = found.paths.iter().flat_map(|path| &path.devices);
        let on_ways: Vec<usize> = ways.map(|duty| duty.device).collect();
        let opened = found.openings.iter().map(|opening| opening.device);
        let mut acting = opened.chain(found.may_open_too.iter().copied());
        let beside = acting.any(|device| !on_ways.contains(&device));
        if all_settled && !beside {
            let nearest = devices.len() - 1;
            prop_assert!(found.may_open_too.iter().all(|device| *device == nearest), "{found:?}");
        }
    }

    /// No current between the start of promised opening and the short circuit lets more energy through
    /// in up to 5 s than the one that the completeness check names.
    #[test]
    fn completeness_misses_nothing(
        rating in 5.0..100.0f64, short in 100.0..3000.0f64, part in 0.0..1.0f64, large in any::<bool>(),
    ) {
        let curve = if large { large_blade() } else { medium_blade() };
        let fuse = device(0, rating, curve, 1000.0);
        let wire = withstand(0, "12");
        let found = overload(&fuse, &wire, amperes(short)).unwrap();
        prop_assume!(short > 1.35 * rating);
        let check = found.completeness.unwrap();
        let amps = 1.35 * rating * (short / (1.35 * rating)).powf(part);
        let latest = fuse.curve.band(amps / rating).latest.unwrap().seconds();
        if latest <= 5.0 {
            let warmed = (234.5 + 60.0) * (amps * amps * latest / (226.0_f64 * 3.309).powi(2)).exp() - 234.5;
            prop_assert!(check.hottest.celsius() >= warmed - 1e-6 * warmed, "{check:?} {warmed}");
        }
    }
}
