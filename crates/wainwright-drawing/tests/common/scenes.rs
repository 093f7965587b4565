//! A small camper as a scene.
#![allow(dead_code)]

use wainwright_drawing::scene::{
    Axis, Dimension, Extent, Hitch, Leaf, Mark, MarkKind, Opening, Outline, Rib, Route,
    RunningGear, ScaleBar, Scene, Space, Spot, Thing, Trunk, Wall, Zone,
};
use wainwright_drawing::{Pole, Tone};

const INCH: f64 = 0.0254;

/// A space in inches: from front, from left, up; along, across, up.
pub fn space(at: [f64; 3], size: [f64; 3]) -> Space {
    let [a, b, c] = at.map(|inches| inches * INCH);
    let [l, w, h] = size.map(|inches| inches * INCH);
    Space {
        at: Spot::new(a, b, c),
        size: Extent::new(l, w, h),
    }
}

pub fn spot(a: f64, b: f64, c: f64) -> Spot {
    Spot::new(a * INCH, b * INCH, c * INCH)
}

pub fn thing(id: &str, label: &str, note: &str, at: [f64; 3], size: [f64; 3]) -> Thing {
    Thing {
        id: id.into(),
        label: label.into(),
        note: note.into(),
        words: format!("{label}, {note}"),
        space: space(at, size),
        tone: Tone::Calm,
        selected: false,
        movable: true,
        outline: Outline::Solid,
    }
}

/// A box of 14 by 7 feet with its furniture, wiring and weights.
pub fn camper() -> Scene {
    let mut scene = Scene {
        inside: Extent::new(166.0 * INCH, 78.0 * INCH, 76.0 * INCH),
        wall_m: 1.5 * INCH,
        hitch: Some(Hitch {
            ball_ahead_m: 48.0 * INCH,
            ball_up_m: -4.0 * INCH,
        }),
        running_gear: Some(RunningGear {
            axles_from_front_m: vec![84.0 * INCH, 118.0 * INCH],
            wheel_radius_m: 13.5 * INCH,
            wheel_width_m: 8.0 * INCH,
            track_m: 90.0 * INCH,
            floor_above_ground_m: 20.0 * INCH,
        }),
        ..Scene::default()
    };
    for number in 0..=10 {
        for wall in [Wall::Left, Wall::Right, Wall::Roof] {
            let at_m = f64::from(number) * 16.0 * INCH + 3.0 * INCH;
            scene.ribs.push(Rib {
                wall,
                at_m,
                width_m: 1.25 * INCH,
            });
        }
    }
    openings(&mut scene);
    furniture(&mut scene);
    gear(&mut scene);
    scene
}

pub fn opening(
    id: &str,
    label: &str,
    wall: Wall,
    space: Space,
    leaf: Leaf,
    glazed: bool,
) -> Opening {
    Opening {
        id: id.into(),
        label: label.into(),
        words: format!("{label} in the wall"),
        wall,
        space,
        leaf,
        glazed,
        selected: false,
    }
}

fn openings(scene: &mut Scene) {
    let hinged = Leaf::Hinged {
        edge: Wall::Front,
        outwards: true,
    };
    let double = Leaf::Double { outwards: true };
    scene.openings = vec![
        opening(
            "side-door",
            "side door",
            Wall::Right,
            space([20.0, 78.0, 0.0], [32.0, 1.0, 72.0]),
            hinged,
            false,
        ),
        opening(
            "rear-doors",
            "rear doors",
            Wall::Rear,
            space([166.0, 4.0, 0.0], [1.0, 70.0, 72.0]),
            double,
            false,
        ),
        opening(
            "window-left",
            "window",
            Wall::Left,
            space([100.0, 0.0, 40.0], [30.0, 1.0, 15.0]),
            Leaf::Slides,
            true,
        ),
        opening(
            "roof-fan",
            "roof fan",
            Wall::Roof,
            space([70.0, 32.0, 76.0], [14.0, 14.0, 1.0]),
            Leaf::Fixed,
            true,
        ),
    ];
}

fn furniture(scene: &mut Scene) {
    let mut bed = thing(
        "bed",
        "Bed platform",
        "110 lb",
        [106.0, 0.0, 0.0],
        [60.0, 78.0, 30.0],
    );
    bed.movable = false;
    let mut overhead = thing(
        "overhead",
        "Overhead cabinet",
        "38 lb",
        [46.0, 0.0, 56.0],
        [58.0, 12.0, 14.0],
    );
    overhead.outline = Outline::Dashed;
    scene.things = vec![
        bed,
        overhead,
        thing(
            "galley",
            "Galley",
            "95 lb",
            [46.0, 0.0, 0.0],
            [58.0, 21.0, 36.0],
        ),
        thing("sink", "Sink", "6 lb", [80.0, 3.0, 30.0], [18.0, 15.0, 6.0]),
        thing(
            "stove",
            "Stove",
            "9 lb",
            [52.0, 3.0, 36.0],
            [20.0, 14.0, 4.0],
        ),
        thing(
            "fridge",
            "Fridge",
            "62 lb",
            [56.0, 56.0, 0.0],
            [24.0, 21.0, 34.0],
        ),
        thing(
            "fresh",
            "Fresh water tank",
            "30 gal · 250 lb",
            [108.0, 2.0, 0.0],
            [36.0, 20.0, 12.0],
        ),
        thing(
            "grey",
            "Grey water tank",
            "20 gal",
            [0.5, 2.0, 0.0],
            [18.0, 30.0, 10.0],
        ),
    ];
}

fn gear(scene: &mut Scene) {
    let mut battery = thing(
        "bat",
        "House battery",
        "104 lb",
        [2.0, 40.0, 0.0],
        [21.0, 11.0, 11.0],
    );
    battery.selected = true;
    let mut inverter = thing(
        "inv",
        "Inverter",
        "14 lb",
        [3.0, 54.0, 14.0],
        [14.0, 10.0, 6.0],
    );
    inverter.tone = Tone::Watch;
    let mut block = thing(
        "fb",
        "Fuse block",
        "1 lb",
        [1.0, 66.0, 30.0],
        [3.0, 7.0, 6.0],
    );
    block.tone = Tone::Bad;
    scene.things.extend([
        battery,
        inverter,
        block,
        thing(
            "mppt",
            "Solar controller",
            "3 lb",
            [1.0, 74.0, 44.0],
            [3.0, 4.0, 8.0],
        ),
        thing("sw", "Main switch", "", [7.0, 74.0, 30.0], [4.0, 3.0, 4.0]),
        thing("shunt", "Shunt", "", [13.0, 74.0, 30.0], [4.0, 2.0, 2.0]),
        thing(
            "pump",
            "Water pump",
            "5 lb",
            [98.0, 14.0, 0.0],
            [9.0, 5.0, 5.0],
        ),
        thing(
            "heater",
            "Air heater",
            "12 lb",
            [90.0, 66.0, 0.0],
            [14.0, 6.0, 6.0],
        ),
        thing(
            "lamp",
            "Reading lamp",
            "",
            [150.0, 72.0, 48.0],
            [4.0, 4.0, 4.0],
        ),
    ]);
    scene.zones.push(Zone {
        id: "bat-zone".into(),
        label: "battery may go here".into(),
        words: "Allowed zone for the battery".into(),
        spaces: vec![space([1.0, 22.0, 0.0], [42.0, 54.0, 11.0])],
        tone: Tone::Calm,
    });
    scene.points.push(Mark {
        id: "cg".into(),
        label: "centre of gravity".into(),
        words: "Centre of gravity, 62 in from the front wall".into(),
        at: spot(76.0, 37.0, 24.0),
        travel: vec![
            spot(70.0, 38.0, 22.0),
            spot(76.0, 37.0, 24.0),
            spot(84.0, 35.0, 23.0),
        ],
        spread: Some(Extent::new(3.0 * INCH, 2.0 * INCH, 4.0 * INCH)),
        kind: MarkKind::Centre,
        tone: Tone::Calm,
    });
    for (number, (x, y)) in [(40.0, 2.0), (40.0, 76.0), (104.0, 76.0), (160.0, 2.0)]
        .into_iter()
        .enumerate()
    {
        scene.points.push(Mark {
            id: format!("ring{number}"),
            label: String::new(),
            words: format!("Tie-down ring {}", number + 1),
            at: spot(x, y, 0.0),
            travel: Vec::new(),
            spread: None,
            kind: MarkKind::Anchor,
            tone: Tone::Off,
        });
    }
    let corner = spot(0.0, 0.0, 0.0);
    for (from, to, axis, text) in [
        (
            spot(0.0, 78.0, 0.0),
            spot(166.0, 78.0, 0.0),
            Axis::Along,
            "13' 10\"",
        ),
        (corner, spot(2.0, 40.0, 0.0), Axis::Along, "2\""),
        (
            spot(2.0, 40.0, 0.0),
            spot(23.0, 40.0, 0.0),
            Axis::Along,
            "21\"",
        ),
        (
            corner,
            spot(84.0, 0.0, 0.0),
            Axis::Along,
            "7' 0\" to the axle",
        ),
        (
            spot(166.0, 0.0, 0.0),
            spot(166.0, 78.0, 0.0),
            Axis::Across,
            "6' 6\"",
        ),
        (corner, spot(2.0, 40.0, 0.0), Axis::Across, "40\""),
        (corner, spot(0.0, 0.0, 76.0), Axis::Up, "6' 4\""),
        (corner, spot(46.0, 0.0, 36.0), Axis::Up, "36\""),
    ] {
        scene.dimensions.push(Dimension {
            from,
            to,
            axis,
            text: text.into(),
        });
    }
}

/// The same camper with trunks and wires.
pub fn wired() -> Scene {
    let mut scene = camper();
    scene.zones.clear();
    scene.dimensions.truncate(1);
    for thing in &mut scene.things {
        thing.selected = false;
    }
    let trunk = |id: &str, label: &str, path: Vec<Spot>, hidden: bool| Trunk {
        id: id.into(),
        label: label.into(),
        words: format!("Trunk {id}"),
        path,
        hidden,
        selected: false,
    };
    scene.trunks = vec![
        trunk(
            "right",
            "trunk right wall",
            vec![
                spot(2.0, 70.0, 34.0),
                spot(2.0, 77.0, 60.0),
                spot(164.0, 77.0, 60.0),
            ],
            true,
        ),
        trunk(
            "front",
            "trunk front wall",
            vec![
                spot(2.0, 70.0, 34.0),
                spot(2.0, 1.0, 34.0),
                spot(100.0, 1.0, 34.0),
                spot(100.0, 16.0, 4.0),
            ],
            false,
        ),
    ];
    for (number, (end, trunk)) in [
        (spot(151.0, 74.0, 50.0), 0),
        (spot(97.0, 69.0, 3.0), 0),
        (spot(97.0, 69.0, 3.0), 0),
        (spot(68.0, 66.0, 30.0), 0),
        (spot(102.0, 16.0, 4.0), 1),
        (spot(102.0, 16.0, 4.0), 1),
        (spot(60.0, 10.0, 60.0), 1),
        (spot(77.0, 39.0, 76.0), 1),
    ]
    .into_iter()
    .enumerate()
    {
        let start = spot(2.5, 70.0, 34.0);
        let mut path = vec![start];
        match trunk {
            0 => path.extend([
                spot(2.0, 77.0, 60.0),
                Spot {
                    from_left_m: 77.0 * INCH,
                    up_m: 60.0 * INCH,
                    ..end
                },
            ]),
            _ => path.extend([
                spot(2.0, 1.0, 34.0),
                Spot {
                    from_left_m: INCH,
                    up_m: 34.0 * INCH,
                    ..end
                },
            ]),
        }
        path.push(end);
        scene.routes.push(Route {
            id: format!("w{number}"),
            label: if number % 3 == 0 {
                format!("W{number} · 14 AWG")
            } else {
                String::new()
            },
            words: format!("Wire {number}"),
            path,
            pole: if number % 2 == 0 {
                Pole::Plus
            } else {
                Pole::Minus
            },
            tone: if number == 3 { Tone::Bad } else { Tone::Calm },
            thickness: (number % 4) as u8,
            selected: number == 6,
        });
    }
    scene
}

pub fn bars() -> Vec<ScaleBar> {
    let bar = |feet: u32| ScaleBar {
        length_m: f64::from(feet) * 0.3048,
        text: format!("{feet} ft"),
    };
    [1, 2, 3, 5, 10].map(bar).to_vec()
}
