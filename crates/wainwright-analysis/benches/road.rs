//! Times the road study: of a demo, and while something is dragged in a trailer of 200 things and 64 fill states;
//! the latter against adding up every thing anew for every state. Prints a table; asserts that both agree.

use std::hint::black_box;
use std::time::{Duration, Instant};
use wainwright_analysis::result::road::{Level, RoadLoad, RoadResult, RoadStateKind};
use wainwright_analysis::road::LayoutOptions;
use wainwright_analysis::{catalogue, road};
use wainwright_engines::balance::{Chassis, Load, Statics, Suspension, statics};
use wainwright_model::{Id, Spot, parse};
use wainwright_units::frame::{Point, Vector};
use wainwright_units::{Length, Mass};

const DEMOS: [(&str, &str); 2] = [
    ("US demo", include_str!("../../../examples/dark-sky.toml")),
    (
        "metric demo",
        include_str!("../../../examples/dark-sky-metric.toml"),
    ),
];
const ROUNDS: usize = 1000;

fn main() {
    println!(
        "{:28} {:>8} {:>8} {:>10} {:>10} {:>10} {:>10}",
        "", "items", "states", "p50", "p90", "p99", "most"
    );
    for (name, text) in DEMOS {
        let project = parse(text, catalogue()).project;
        let mut times: Vec<Duration> = (0..ROUNDS)
            .map(|_| timed(|| drop(black_box(road::study(black_box(&project))))))
            .collect();
        let found = road::study(&project);
        row(name, found.loads.len(), found.states.len(), &mut times);
    }
    for (name, text) in DEMOS {
        let project = parse(text, catalogue()).project;
        let found = road::study(&project);
        let search = || {
            drop(black_box(road::better_layout(
                &project,
                &found,
                &LayoutOptions::default(),
            )))
        };
        let mut times: Vec<Duration> = (0..5).map(|_| timed(search)).collect();
        row(
            &format!("{name}, better layout"),
            found.loads.len(),
            found.states.len(),
            &mut times,
        );
    }
    let project = parse(&large(200), catalogue()).project;
    let mut times: Vec<Duration> = (0..ROUNDS)
        .map(|step| {
            let moves = [dragged(step)];
            timed(|| drop(black_box(road::road_with(black_box(&project), &moves))))
        })
        .collect();
    let found = road::road_with(&project, &[dragged(7)]);
    row(
        "dragging",
        found.loads.len(),
        found.states.len(),
        &mut times,
    );
    let ours = median(&mut times);
    let mut plain: Vec<Duration> = (0..ROUNDS / 5)
        .map(|_| timed(|| drop(black_box(naive(black_box(&found))))))
        .collect();
    row(
        "loads alone, thing by thing",
        found.loads.len(),
        found.states.len(),
        &mut plain,
    );
    let theirs = median(&mut plain);
    println!(
        "The whole study, text of stand-ins, margins, damping and collisions included, takes {:.2} times what adding \
         up the loads thing by thing for every state takes alone.",
        ours.as_secs_f64() / theirs.as_secs_f64()
    );
    agree(&found, &naive(&found));
}

/// Every fill state from the single things.
fn naive(found: &RoadResult) -> Vec<Statics> {
    let own = &found.trailer;
    let length = |known: &Option<wainwright_analysis::known::Known<Length>>| {
        known.as_ref().map_or(Length::ZERO, |known| known.value)
    };
    let axle = length(&own.ball_to_axle);
    let chassis = Chassis {
        coupling_to_axle: axle,
        track: length(&own.track),
        suspension: Suspension::Single,
    };
    let mass = own
        .empty_mass
        .as_ref()
        .map_or(Mass::ZERO, |known| known.value);
    let tongue = own
        .empty_tongue
        .as_ref()
        .map_or(Mass::ZERO, |known| known.value);
    let shell = Load {
        mass,
        centre: Point::new(
            axle * (1.0 - tongue / mass),
            Length::ZERO,
            length(&own.empty_centre_height),
        ),
        extent: Vector::new(
            length(&own.inside_length),
            length(&own.inside_width),
            Length::ZERO,
        ),
    };
    let states = found.states.iter();
    let fills = states.filter(|state| state.kind == RoadStateKind::Fills);
    fills
        .filter_map(|state| {
            let mut loads = vec![shell];
            for load in &found.loads {
                loads.push(Load {
                    mass: mass_at(load, &state.levels),
                    centre: load.centre,
                    extent: load.extent,
                });
            }
            statics(&chassis, &loads).ok()
        })
        .collect()
}

fn mass_at(load: &RoadLoad, levels: &[Level]) -> Mass {
    match load.fill.and_then(|fill| levels.get(fill)) {
        Some(Level::Full) => load.most,
        Some(Level::Empty | Level::End) => load.least,
        Some(Level::Start) | None => load.mass.value,
    }
}

fn agree(found: &RoadResult, plain: &[Statics]) {
    let fills: Vec<_> = found.fill_states().collect();
    assert_eq!(fills.len(), plain.len());
    for ((_, ours), theirs) in fills.iter().zip(plain) {
        let off = (ours.tongue - theirs.tongue).abs().kilograms()
            + (ours.left - theirs.left).abs().kilograms()
            + (ours.yaw_inertia_kg_m2 - theirs.yaw_inertia_kg_m2).abs();
        assert!(off < 1e-6, "{off}");
    }
}

/// A trailer with many things in it, five tanks and cargo among them.
fn large(items: usize) -> String {
    let mut text = String::from(
        "wainwright = 1\n[project]\nunits = \"us\"\nregion = \"US\"\n[trailer]\ninside_length = \"142 in\"\n\
         inside_width = \"70 in\"\ninside_height = \"75 in\"\nempty_mass = \"1400 lb\"\nempty_tongue = \"155 lb\"\n\
         gross_rating = \"2990 lb\"\naxle_rating = \"3500 lb\"\ntyre_rating = \"1820 lb\"\n[vehicle]\n\
         front_axle = \"2600 lb\"\nrear_axle = \"2000 lb\"\ngross_rating = \"6000 lb\"\nball_height = \"18 in\"\n\
         [towing]\nspeed = \"60 mph\"\n",
    );
    for index in 0..items {
        let (x, y) = (2 + (index * 37) % 130, 1 + (index * 23) % 60);
        let body = format!(
            "size = \"6 in x 5 in x 4 in\"\nspot = \"{x} in, {y} in, {} in\"\n",
            index % 60
        );
        text += &match index {
            0..5 => format!(
                "[item.tank{index}]\nkind = \"tank\"\nholds = \"fresh\"\nmass = \"4 lb\"\ncapacity = \"5 gal\"\n{body}"
            ),
            5..20 => format!(
                "[item.food{index}]\nkind = \"cargo\"\nmass = \"6 lb\"\nmass_end = \"1 lb\"\n{body}"
            ),
            _ => format!(
                "[item.thing{index}]\nkind = \"furniture\"\nmass = \"{} lb\"\nheld = \"screwed\"\nheld_count = 4\n\
                 held_size = \"0.19 in\"\nheld_into = \"plywood\"\nheld_depth = \"1/2 in\"\n{body}",
                1 + index % 9
            ),
        };
    }
    text
}

/// Where the dragged thing is at a step.
fn dragged(step: usize) -> (Id, Spot) {
    let inches = |number: usize| Length::from_inches(number as f64);
    let id = Id::new("thing30").unwrap_or_else(|| unreachable!("a legal id"));
    let spot = Spot {
        from_front: inches(2 + step % 130),
        from_left: inches(1 + step % 60),
        above_floor: Length::ZERO,
    };
    (id, spot)
}

fn timed(work: impl FnOnce()) -> Duration {
    let start = Instant::now();
    work();
    start.elapsed()
}

fn row(name: &str, items: usize, states: usize, times: &mut [Duration]) {
    let middle = median(times);
    let at = |share: f64| times[((times.len() - 1) as f64 * share) as usize];
    println!(
        "{name:28} {items:>8} {states:>8} {middle:>10.1?} {:>10.1?} {:>10.1?} {:>10.1?}",
        at(0.9),
        at(0.99),
        at(1.0)
    );
}

fn median(times: &mut [Duration]) -> Duration {
    times.sort_unstable();
    times.get(times.len() / 2).copied().unwrap_or_default()
}
