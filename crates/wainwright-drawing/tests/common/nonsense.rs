//! Seeded scenes without any sense: sizes, places and names by chance.
#![allow(dead_code)]

use super::{Dice, scenes};
use wainwright_drawing::scene::{
    Axis, Dimension, Extent, Leaf, Mark, MarkKind, Outline, Route, Scene, Space, Spot, Thing,
    Trunk, Wall, Zone,
};
use wainwright_drawing::{Pole, Tone};

const NAMES: &[&str] = &[
    "Pump",
    "House battery",
    "Inverter",
    "A very long name of a small lamp by the door",
    "Tank",
    "Solar controller",
    "Fuse block 2",
    "Bed",
    "X",
];

/// A crowded scene of nonsense: sizes, places and names by chance.
pub fn senseless(seed: u64) -> Scene {
    let mut dice = Dice::new(seed);
    let mut scene = Scene {
        inside: Extent::new(
            2.0 + dice.below(60) as f64 / 10.0,
            1.2 + dice.below(14) as f64 / 10.0,
            1.5 + dice.below(8) as f64 / 10.0,
        ),
        wall_m: dice.below(12) as f64 / 100.0,
        ..Scene::default()
    };
    let (long, wide, high) = (
        scene.inside.along_m,
        scene.inside.across_m,
        scene.inside.up_m,
    );
    let any = move |dice: &mut Dice| {
        Spot::new(
            (dice.below(110) as f64 / 100.0 - 0.05) * long,
            (dice.below(110) as f64 / 100.0 - 0.05) * wide,
            dice.below(100) as f64 / 100.0 * high,
        )
    };
    let tones = [
        Tone::Calm,
        Tone::Watch,
        Tone::Bad,
        Tone::Off,
        Tone::Scale(0.6),
    ];
    for number in 0..dice.below(40) {
        let at = any(&mut dice);
        let mut size = || 0.02 + dice.below(80) as f64 / 100.0;
        let size = Extent::new(size(), size(), size());
        scene.things.push(Thing {
            id: format!("t{number}"),
            label: NAMES[dice.below(NAMES.len())].into(),
            note: if dice.chance(50) {
                format!("{} lb", dice.below(300))
            } else {
                String::new()
            },
            words: format!("thing {number}"),
            space: Space { at, size },
            tone: tones[dice.below(tones.len())],
            selected: dice.chance(5),
            movable: dice.chance(80),
            outline: if dice.chance(15) {
                Outline::Dashed
            } else {
                Outline::Solid
            },
        });
    }
    let walls = [
        Wall::Front,
        Wall::Rear,
        Wall::Left,
        Wall::Right,
        Wall::Roof,
        Wall::Floor,
    ];
    for number in 0..dice.below(6) {
        let wall = walls[dice.below(6)];
        let leaf = match dice.below(4) {
            0 => Leaf::Fixed,
            1 => Leaf::Slides,
            2 => Leaf::Double {
                outwards: dice.chance(50),
            },
            _ => Leaf::Hinged {
                edge: walls[dice.below(6)],
                outwards: dice.chance(50),
            },
        };
        let space = Space {
            at: any(&mut dice),
            size: Extent::new(0.6, 0.5, 0.4),
        };
        scene.openings.push(scenes::opening(
            &format!("o{number}"),
            NAMES[dice.below(NAMES.len())],
            wall,
            space,
            leaf,
            dice.chance(50),
        ));
    }
    for number in 0..dice.below(5) {
        scene.points.push(Mark {
            id: format!("p{number}"),
            label: NAMES[dice.below(NAMES.len())].into(),
            words: "place".into(),
            at: any(&mut dice),
            travel: (0..dice.below(5)).map(|_| any(&mut dice)).collect(),
            spread: dice.chance(50).then(|| Extent::new(0.1, 0.05, 0.1)),
            kind: [MarkKind::Centre, MarkKind::Anchor, MarkKind::Dot][dice.below(3)],
            tone: tones[dice.below(tones.len())],
        });
    }
    for number in 0..dice.below(3) {
        scene.zones.push(Zone {
            id: format!("z{number}"),
            label: "may go here".into(),
            words: "zone".into(),
            spaces: (0..1 + dice.below(2))
                .map(|_| Space {
                    at: any(&mut dice),
                    size: Extent::new(0.8, 0.5, 0.3),
                })
                .collect(),
            tone: Tone::Calm,
        });
    }
    let path = |dice: &mut Dice| (0..dice.below(6)).map(|_| any(dice)).collect::<Vec<Spot>>();
    for number in 0..dice.below(4) {
        scene.trunks.push(Trunk {
            id: format!("d{number}"),
            label: "trunk".into(),
            words: String::new(),
            path: path(&mut dice),
            hidden: dice.chance(50),
            selected: false,
        });
    }
    for number in 0..dice.below(12) {
        let path = match scene.trunks.first() {
            Some(trunk) if dice.chance(60) => trunk.path.clone(),
            _ => path(&mut dice),
        };
        scene.routes.push(Route {
            id: format!("w{number}"),
            label: if dice.chance(30) {
                format!("W{number}")
            } else {
                String::new()
            },
            words: String::new(),
            path,
            pole: [Pole::Plus, Pole::Minus, Pole::Neutral][dice.below(3)],
            tone: tones[dice.below(tones.len())],
            thickness: dice.below(7) as u8,
            selected: dice.chance(10),
        });
    }
    for _ in 0..dice.below(9) {
        scene.dimensions.push(Dimension {
            from: any(&mut dice),
            to: any(&mut dice),
            axis: [Axis::Along, Axis::Across, Axis::Up][dice.below(3)],
            text: ["2\"", "4' 7-1/2\"", "1.245 m to the axle"][dice.below(3)].into(),
        });
    }
    scene
}
