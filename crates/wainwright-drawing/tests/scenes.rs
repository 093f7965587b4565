//! What must hold on every scene: texts apart and on the sheet, true to scale,
//! the right way round, the same bytes.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod common;

use common::clear;
use common::nonsense::senseless;
use common::reader::{Element, attribute, check};
use common::scenes::{bars, camper, spot, thing, wired};
use wainwright_drawing::scene::{
    Axis, Dimension, Face, Facing, Fit, Layer, Options, Scene, View, draw,
};
use wainwright_drawing::{Picture, Style};

const FACES: [Face; 5] = [
    Face::Floor,
    Face::Left,
    Face::Right,
    Face::Front,
    Face::Rear,
];
const FACINGS: [Facing; 4] = [Facing::Left, Facing::Up, Facing::Right, Facing::Down];

fn options(width: f64, height: f64, top: Layer) -> Options {
    Options {
        fit: Fit::Within { width, height },
        top,
        scale_bars: bars(),
        ..Options::default()
    }
}

fn views() -> Vec<View> {
    let mut views = Vec::new();
    for front in FACINGS {
        views.push(View {
            front,
            ..View::plan()
        });
    }
    for face in FACES {
        views.push(View::wall_inside(face));
        views.push(View::outside(face));
    }
    views
}

fn read(picture: &Picture) -> Vec<Element> {
    check(&picture.svg(&Style::default()))
}

/// The numbers of the rectangle with this class in the group with this id.
fn body(elements: &[Element], id: &str) -> [f64; 4] {
    let at = elements
        .iter()
        .position(|e| attribute(e, "data-id") == Some(id))
        .unwrap();
    let is_body = |e: &&Element| attribute(e, "class") == Some("body");
    let body = elements[at..].iter().find(is_body).unwrap();
    ["x", "y", "width", "height"].map(|key| attribute(body, key).unwrap().parse().unwrap())
}

#[test]
fn texts_of_the_camper_are_clear_in_every_view_and_size() {
    for (scene, top) in [(camper(), Layer::Things), (wired(), Layer::Wires)] {
        for view in views() {
            for (width, height) in [
                (340.0, 700.0),
                (366.0, 760.0),
                (760.0, 500.0),
                (1160.0, 560.0),
            ] {
                let picture = draw(&scene, &view, &options(width, height, top));
                clear(&format!("{view:?} {width}"), &picture);
                read(&picture);
            }
        }
    }
}

#[test]
fn texts_of_senseless_scenes_are_clear() {
    let views = views();
    for seed in 0..300 {
        let scene = senseless(seed);
        let view = views[seed as usize % views.len()];
        let top = if seed % 3 == 0 {
            Layer::Wires
        } else {
            Layer::Things
        };
        let options = match seed % 4 {
            0 => options(360.0, 700.0, top),
            1 => options(1160.0, 560.0, top),
            2 => options(800.0, 800.0, top),
            _ => Options {
                fit: Fit::Scale { units_per_m: 150.0 },
                ..options(1.0, 1.0, top)
            },
        };
        let picture = draw(&scene, &view, &options);
        clear(&format!("seed {seed}"), &picture);
        read(&picture);
    }
}

#[test]
fn nearly_all_names_of_the_camper_are_read_on_a_desktop() {
    let picture = draw(
        &camper(),
        &View::plan(),
        &options(1160.0, 560.0, Layer::Things),
    );
    let read = |name: &str| picture.texts.iter().any(|text| text.text == name);
    for name in [
        "Fridge",
        "Bed platform",
        "Galley",
        "Inverter",
        "Shunt",
        "side door",
        "13' 10\"",
        "front",
    ] {
        assert!(read(name), "{name} is not on the drawing");
    }
}

#[test]
fn every_name_is_on_the_drawing_or_in_its_list() {
    for (width, height) in [(340.0, 700.0), (1160.0, 560.0)] {
        let scene = camper();
        let picture = draw(
            &scene,
            &View::plan_upright(),
            &options(width, height, Layer::Things),
        );
        let words: Vec<&str> = picture
            .texts
            .iter()
            .flat_map(|text| text.text.split(' '))
            .collect();
        for thing in &scene.things {
            for word in thing.label.split(' ') {
                assert!(
                    words.contains(&word),
                    "{word} of {} at {width}",
                    thing.label
                );
            }
        }
    }
}

#[test]
fn things_are_true_to_scale_and_where_they_are() {
    let picture = draw(
        &camper(),
        &View::plan(),
        &options(1160.0, 560.0, Layer::Things),
    );
    let elements = read(&picture);
    let root = |key: &str| attribute(&elements[0], key).unwrap().to_owned();
    let number = |key: &str| root(key).parse::<f64>().unwrap();
    let mm = number("data-mm-per-unit");
    // The battery: 2 in behind the front wall, 40 in from the left wall, 21 in by 11 in.
    let [x, y, width, height] = body(&elements, "bat");
    // Each number of the drawing is rounded to a tenth: 0.05 units each.
    let near = |value: f64, rounded: f64, expected: f64| {
        let tolerance = (0.05 * rounded + 0.001) * mm;
        assert!(
            (value - expected).abs() <= tolerance,
            "{value} mm, expected {expected} mm"
        );
    };
    near(width * mm, 1.0, 21.0 * 25.4);
    near(height * mm, 1.0, 11.0 * 25.4);
    assert_eq!(root("data-right"), "+from-front");
    assert_eq!(root("data-down"), "-from-left");
    near((x - number("data-origin-x")) * mm, 1.0, 2.0 * 25.4);
    near(
        (number("data-origin-y") - (y + height)) * mm,
        2.0,
        40.0 * 25.4,
    );
}

#[test]
fn a_fixed_scale_is_kept() {
    let fit = Fit::Scale { units_per_m: 200.0 };
    let options = Options {
        fit,
        ..Options::default()
    };
    let elements = read(&draw(&camper(), &View::plan(), &options));
    let [_, _, width, _] = body(&elements, "bat");
    assert!((width - 21.0 * 0.0254 * 200.0).abs() <= 0.06);
    assert_eq!(attribute(&elements[0], "data-mm-per-unit"), Some("5.0000"));
}

/// Two marks at known places: one front left below, one rear right above.
fn corners(view: View) -> ([f64; 4], [f64; 4]) {
    let mut scene = Scene {
        inside: camper().inside,
        wall_m: 0.04,
        ..Scene::default()
    };
    scene.things = vec![
        thing("low", "", "", [5.0, 5.0, 5.0], [10.0, 10.0, 10.0]),
        thing("high", "", "", [140.0, 60.0, 60.0], [10.0, 10.0, 10.0]),
    ];
    let elements = read(&draw(&scene, &view, &options(800.0, 600.0, Layer::Things)));
    (body(&elements, "low"), body(&elements, "high"))
}

#[test]
fn every_view_is_the_right_way_round() {
    let plan = |front: Facing| View {
        front,
        ..View::plan()
    };
    // Whether what is front, left and low is left of, and above, what is rear, right and high.
    for (view, left, above) in [
        (plan(Facing::Left), true, false),
        (plan(Facing::Up), true, true),
        (plan(Facing::Right), false, true),
        (plan(Facing::Down), false, false),
        (View::wall_inside(Face::Left), false, false),
        (View::outside(Face::Left), true, false),
        (View::wall_inside(Face::Right), true, false),
        (View::outside(Face::Right), false, false),
        (View::wall_inside(Face::Front), true, false),
        (View::outside(Face::Front), false, false),
        (View::wall_inside(Face::Rear), false, false),
        (View::outside(Face::Rear), true, false),
    ] {
        let (low, high) = corners(view);
        assert_eq!(low[0] < high[0], left, "{view:?}");
        assert_eq!(low[1] < high[1], above, "{view:?}");
    }
}

#[test]
fn what_is_nearer_lies_over_what_is_farther() {
    let elements = read(&draw(
        &camper(),
        &View::plan(),
        &options(800.0, 600.0, Layer::Things),
    ));
    let place = |id: &str| {
        elements
            .iter()
            .position(|e| attribute(e, "data-id") == Some(id))
            .unwrap()
    };
    assert!(
        place("galley") < place("stove"),
        "the stove stands on the galley"
    );
    assert!(place("fresh") < place("bed"), "the tank is under the bed");
    assert!(
        place("stove") < place("overhead"),
        "the cabinet hangs over the stove"
    );
}

#[test]
fn everything_can_be_reached_and_only_movable_things_dragged() {
    let scene = camper();
    let drawn = draw(&scene, &View::plan(), &options(800.0, 600.0, Layer::Things));
    let (_, said) = common::reader::read(&drawn.svg(&Style::default()));
    let elements = read(&drawn);
    for thing in &scene.things {
        let of = |e: &&Element| attribute(e, "data-id") == Some(thing.id.as_str());
        let group = elements.iter().find(of).unwrap();
        assert_eq!(attribute(group, "tabindex"), Some("0"));
        assert_eq!(attribute(group, "role"), Some("button"));
        assert_eq!(attribute(group, "data-kind"), Some("thing"));
        assert!(said.contains(&thing.words), "{}", thing.id);
        assert_eq!(
            attribute(group, "data-drag").is_some(),
            thing.movable,
            "{}",
            thing.id
        );
    }
}

#[test]
fn counts_say_how_many_wires_share_a_trunk() {
    let picture = draw(
        &wired(),
        &View::plan(),
        &options(1160.0, 560.0, Layer::Wires),
    );
    let count = |text: &str| {
        picture
            .texts
            .iter()
            .filter(|known| known.text == text)
            .count()
    };
    // Four wires run in each trunk; past the fridge three are left in the right one.
    assert_eq!(count("×4") + count("×3"), 2, "{:?}", picture.texts);
}

#[test]
fn a_dimension_the_view_does_not_show_is_left_out() {
    let mut scene = camper();
    scene.dimensions = [Axis::Along, Axis::Across, Axis::Up]
        .map(|axis| Dimension {
            from: spot(0.0, 0.0, 0.0),
            to: spot(100.0, 70.0, 60.0),
            axis,
            text: format!("{axis:?}"),
        })
        .to_vec();
    let texts = |view: &View| {
        let picture = draw(&scene, view, &options(800.0, 600.0, Layer::Things));
        let texts = picture.texts.into_iter().map(|text| text.text);
        texts
            .filter(|text| ["Along", "Across", "Up"].contains(&text.as_str()))
            .collect::<Vec<_>>()
    };
    assert_eq!(texts(&View::plan()), ["Along", "Across"]);
    assert_eq!(texts(&View::outside(Face::Left)), ["Along", "Up"]);
    assert_eq!(texts(&View::outside(Face::Rear)), ["Across", "Up"]);
}

#[test]
fn what_is_too_far_away_is_named_and_the_rest_keeps_its_size() {
    let size = |scene: &Scene| {
        let elements = read(&draw(
            scene,
            &View::plan(),
            &options(800.0, 600.0, Layer::Things),
        ));
        body(&elements, "fridge")[2]
    };
    let mut scene = camper();
    let before = size(&scene);
    scene.things.push(thing(
        "lost",
        "Lost anchor",
        "",
        [90_000.0, 0.0, 0.0],
        [5.0, 5.0, 5.0],
    ));
    assert_eq!(size(&scene), before);
    let picture = draw(&scene, &View::plan(), &options(800.0, 600.0, Layer::Things));
    assert!(
        picture
            .texts
            .iter()
            .any(|text| text.text.contains("Lost anchor"))
    );
}

#[test]
fn unfinished_scenes_are_drawn() {
    let odd = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, 0.0, 1e300];
    for value in odd {
        let mut scene = wired();
        scene.inside.along_m = value;
        scene.wall_m = value;
        for (number, thing) in scene.things.iter_mut().enumerate() {
            match number % 3 {
                0 => thing.space.at.from_front_m = value,
                1 => thing.space.size.across_m = value,
                _ => {}
            }
        }
        scene.routes[0].path[1].up_m = value;
        scene.openings[0].space.size.along_m = value;
        scene.points[0].at.from_left_m = value;
        if let Some(gear) = &mut scene.running_gear {
            gear.wheel_radius_m = value;
            gear.axles_from_front_m.push(value);
        }
        for view in views() {
            let size = options(value, value, Layer::Wires);
            for options in [options(366.0, 700.0, Layer::Things), size] {
                let picture = draw(&scene, &view, &options);
                clear(&format!("{value} {view:?}"), &picture);
                read(&picture);
            }
        }
    }
    read(&draw(&Scene::default(), &View::plan(), &Options::default()));
}

#[test]
fn same_scene_same_bytes() {
    for seed in 0..20 {
        let text = || {
            let options = options(700.0, 500.0, Layer::Wires);
            draw(&senseless(seed), &View::plan_upright(), &options).svg(&Style::default())
        };
        assert_eq!(text(), text());
    }
}

#[test]
fn two_scenes_on_one_page_keep_their_ids_apart() {
    let ids = |prefix: &str| {
        let options = Options {
            id_prefix: prefix.into(),
            ..Options::default()
        };
        let elements = read(&draw(&wired(), &View::plan(), &options));
        let ids: Vec<String> = elements
            .iter()
            .filter_map(|e| attribute(e, "id"))
            .map(str::to_owned)
            .collect();
        ids
    };
    let (a, b) = (ids("a-"), ids("b-"));
    assert!(!a.is_empty() && a.iter().all(|id| !b.contains(id)));
    let mut once = a.clone();
    once.sort();
    once.dedup();
    assert_eq!(once.len(), a.len(), "ids are unique");
}
