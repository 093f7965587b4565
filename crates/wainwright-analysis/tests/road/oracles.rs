//! Slow plain sums against the study: every thing by itself in every corner, with as many fills as the study does not
//! list any more.

use super::{close, study};

/// Numbers that look random and are the same each time.
struct Numbers(u64);

impl Numbers {
    fn next(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * ((self.0 >> 33) as f64 / (1u64 << 31) as f64)
    }
}

const AXLE: f64 = 3.2;
const TRACK: f64 = 1.7;

/// One thing: its two masses, its place behind the ball and left of the middle, its length and width.
struct Thing {
    masses: [f64; 2],
    at: [f64; 2],
    size: [f64; 2],
}

/// Mass, tongue, left less right, and yaw inertia about the common centre.
fn plain(things: &[Thing], choice: usize, fills: usize) -> [f64; 4] {
    let mass = |index: usize, thing: &Thing| {
        if index < fills {
            thing.masses[(choice >> index) & 1]
        } else {
            thing.masses[0]
        }
    };
    let (mut all, mut moment, mut side) = (0.0, 0.0, 0.0);
    for (index, thing) in things.iter().enumerate() {
        let m = mass(index, thing);
        all += m;
        moment += m * thing.at[0];
        side += m * thing.at[1];
    }
    let mut inertia = 0.0;
    for (index, thing) in things.iter().enumerate() {
        let (x, y) = (thing.at[0] - moment / all, thing.at[1] - side / all);
        let own = (thing.size[0].powi(2) + thing.size[1].powi(2)) / 12.0;
        inertia += mass(index, thing) * (x * x + y * y + own);
    }
    [all, all - moment / AXLE, 2.0 * side / TRACK, inertia]
}

/// A trailer text and its things: `fills` tanks, some furniture, the shell last.
fn random(seed: u64, fills: usize) -> (String, Vec<Thing>) {
    let mut numbers = Numbers(seed);
    let mut text = format!(
        "wainwright = 1\n[trailer]\ninside_length = \"4 m\"\ninside_width = \"2 m\"\ninside_height = \"2 m\"\n\
         ball_to_front = \"1 m\"\nfloor_height = \"0.5 m\"\nball_to_axle = \"{AXLE} m\"\ntrack = \"{TRACK} m\"\n\
         axles = 1\nempty_mass = \"600 kg\"\nempty_tongue = \"60 kg\"\nempty_centre_height = \"0.8 m\"\n"
    );
    let mut things = Vec::new();
    for index in 0..fills + 5 {
        let [long, wide] = [0.1, 0.2].map(|least| numbers.next(least, 0.6));
        let (front, left) = (numbers.next(-0.5, 3.5), numbers.next(0.0, 1.5));
        let (mass, water) = (numbers.next(1.0, 80.0), numbers.next(5.0, 90.0));
        let kind = if index < fills {
            format!("kind = \"tank\"\nholds = \"grey\"\ncapacity = \"{water} L\"")
        } else {
            "kind = \"furniture\"".to_owned()
        };
        text += &format!(
            "[item.i{index}]\n{kind}\nmass = \"{mass} kg\"\nsize = \"{long} m x {wide} m x 0.3 m\"\nspot = \"{front} m, {left} m, 0 m\"\n"
        );
        things.push(Thing {
            masses: [mass, mass + water],
            at: [1.0 + front + long / 2.0, 1.0 - left - wide / 2.0],
            size: [long, wide],
        });
    }
    things.push(Thing {
        masses: [600.0; 2],
        at: [AXLE * 0.9, 0.0],
        size: [4.0, 2.0],
    });
    (text, things)
}

#[test]
fn every_corner_is_that_of_plain_sums() {
    for seed in 1..20 {
        let fills = 1 + seed as usize % 5;
        let (text, things) = random(seed, fills);
        let found = study(&text);
        assert!(found.every_corner);
        assert_eq!(found.fill_states().count(), 1 << fills);
        for (_, state) in found.fill_states() {
            let mut choice = 0;
            for (index, level) in state.levels.iter().enumerate() {
                if *level == wainwright_analysis::result::road::Level::Full {
                    choice |= 1 << index;
                }
            }
            let [all, tongue, side, inertia] = plain(&things, choice, fills);
            close(state.mass.kilograms(), all, 1e-8);
            close(state.tongue.kilograms(), tongue, 1e-8);
            close(state.side_difference().kilograms(), side, 1e-8);
            close(state.yaw_inertia_kg_m2, inertia, 1e-7);
        }
    }
}

#[test]
fn with_too_many_tanks_the_worst_are_still_exact() {
    for seed in 30..40 {
        let fills = 9;
        let (text, things) = random(seed, fills);
        let found = study(&text);
        assert!(!found.every_corner);
        assert!(found.states.len() < 20);
        let every: Vec<[f64; 4]> = (0..1 << fills)
            .map(|choice| plain(&things, choice, fills))
            .collect();
        let most =
            |score: fn(&[f64; 4]) -> f64| every.iter().map(score).fold(f64::NEG_INFINITY, f64::max);
        let worst = found.worst.unwrap();
        let at = |index: usize| &found.states[index];
        close(
            at(worst.lowest_share).share.fraction(),
            -most(|s| -s[1] / s[0]),
            1e-10,
        );
        close(
            at(worst.highest_share).share.fraction(),
            most(|s| s[1] / s[0]),
            1e-10,
        );
        close(
            at(worst.least_tongue).tongue.kilograms(),
            -most(|s| -s[1]),
            1e-8,
        );
        close(
            at(worst.most_tongue).tongue.kilograms(),
            most(|s| s[1]),
            1e-8,
        );
        close(at(worst.most_mass).mass.kilograms(), most(|s| s[0]), 1e-8);
        close(
            at(worst.most_difference)
                .side_difference()
                .kilograms()
                .abs(),
            most(|s| s[2].abs()),
            1e-8,
        );
        close(
            at(worst.most_left).left.kilograms(),
            most(|s| (s[0] - s[1] + s[2]) / 2.0),
            1e-8,
        );
        close(
            at(worst.most_right).right.kilograms(),
            most(|s| (s[0] - s[1] - s[2]) / 2.0),
            1e-8,
        );
    }
}
