//! Cabinets: the face as somebody sees it, depth, overlaps, air worked out by hand, and wires and fuses judged in it.

use super::{BATTERY, close, read};
use wainwright_analysis::result::cabinet::*;
use wainwright_analysis::{assess, cabinets};
use wainwright_model::Side;

const US: &str = include_str!("../../../../examples/dark-sky.toml");

/// 100 W in a plywood cabinet on the left wall, a fan of 40 m³/h, a fuse in it and a load outside.
const CABINET: &str = r#"
[project]
units = "metric"
region = "EU"
[trailer]
summer_air = "40 °C"
[item.maker]
kind = "load"
current = "1 A"
heat_loss = "100 W"
spot = "1.2 m, 0.1 m, 0.1 m"
size = "0.2 m x 0.3 m x 0.2 m"
mounted_on = "face"
hole_width = "100 mm"
hole_round = true
depth_behind = "420 mm"
bend_room = "100 mm"
[item.fuse]
kind = "fuse"
family = "blade"
rating = "10 A"
spot = "1.35 m, 0 m, 0.2 m"
size = "0.1 m x 0.1 m x 0.1 m"
mounted_on = "face"
hole_width = "40 mm"
hole_height = "20 mm"
[item.lamp]
kind = "load"
current = "2 A"
[wire.a]
from = "bat.+"
to = "fuse.in"
size = "6 mm2"
insulation = "h07v-k"
length = "1 m"
[wire.b]
from = "fuse.out"
to = "maker.+"
like = "a"
[wire.c]
from = "maker.-"
to = "bat.-"
like = "a"
[wire.d]
from = "fuse.out"
to = "lamp.+"
like = "a"
[wire.e]
from = "lamp.-"
to = "bat.-"
like = "a"
[cabinet.box]
label = "Cabinet"
holds = ["maker", "fuse"]
spot = "1 m, 0 m, 0 m"
size = "1 m x 0.5 m x 0.5 m"
faces = "right"
board = "12.7 mm"
fan_flow = "40 m3/h"
door = false
"#;

fn text() -> String {
    format!("{BATTERY}{CABINET}")
}

fn one(text: &str) -> CabinetResult {
    let project = read(text);
    let all = cabinets::study(&project, Some(&assess(&project)));
    assert_eq!(all.len(), 1);
    assert!(all[0].refused.is_empty(), "{:?}", all[0].refused);
    all[0].clone()
}

fn device<'a>(found: &'a CabinetResult, id: &str) -> &'a CabinetDevice {
    found
        .devices
        .iter()
        .find(|d| d.item.as_str() == id)
        .unwrap()
}

#[test]
fn the_face_is_seen_from_before_it() {
    // Who looks at a face that looks right has the front of the trailer at the right hand: x runs from the rear end of
    // the cabinet, 2.0 m, forwards. The maker ends at 1.4 m: x = 0.6 m. It stands 0.4 m out: 0.1 m behind the face.
    let found = one(&text());
    let face = found.face.unwrap();
    close(face.width.metres(), 1.0, 1e-12);
    close(face.depth.metres(), 0.5, 1e-12);
    close(face.board.x.metres(), -0.0127, 1e-12);
    close(face.board.width.metres(), 1.0254, 1e-12);
    let maker = device(&found, "maker");
    let rect = maker.rect.unwrap();
    close(rect.x.metres(), 0.6, 1e-12);
    close(rect.y.metres(), 0.1, 1e-12);
    close(maker.behind.unwrap().metres(), 0.1, 1e-12);
    let hole = maker.hole.unwrap();
    assert!(hole.round);
    close(hole.rect.x.metres(), 0.65, 1e-12);
    close(hole.rect.height.metres(), 0.1, 1e-12);
    // From the other side it is the other way round.
    let left = one(&text().replace("faces = \"right\"", "faces = \"left\""));
    close(device(&left, "maker").rect.unwrap().x.metres(), 0.2, 1e-12);
    close(device(&left, "maker").behind.unwrap().metres(), 0.1, 1e-12);
    for (word, x, behind) in [("rear", 0.1, 0.6), ("front", 0.1, 0.2)] {
        let turned = one(&text().replace("faces = \"right\"", &format!("faces = \"{word}\"")));
        let maker = device(&turned, "maker");
        close(maker.rect.unwrap().x.metres(), x, 1e-12);
        close(maker.behind.unwrap().metres(), behind, 1e-12);
    }
}

#[test]
fn depth_overlap_reach_and_holes_are_found() {
    let found = one(&text());
    // 420 + 100 mm behind a face with 500 mm.
    let depth = device(&found, "maker").depth.unwrap();
    assert!(!depth.fits);
    close(depth.needed.metres(), 0.52, 1e-12);
    // The fuse: 1.35 to 1.45 m along, 0.2 to 0.3 m up; the maker to 1.4 m and from 0.1 to 0.3 m: they overlap.
    let (a, b) = &found.overlaps[0];
    assert_eq!((a.as_str(), b.as_str()), ("maker", "fuse"));
    let apart = one(&text().replace("1.35 m, 0 m, 0.2 m", "1.41 m, 0 m, 0.2 m"));
    assert!(apart.overlaps.is_empty());
    assert_eq!(found.fuses.len(), 1);
    assert!(!found.door.unwrap().value);
    let template = cabinets::template(&one(&text())).unwrap();
    assert_eq!(template.cuts.len(), 2);
    // One pilot, four corners; every drill lies inside its hole.
    assert_eq!(template.drills.len(), 5);
    for drill in &template.drills {
        let inside = template.cuts.iter().any(|cut| {
            let rect = cut.hole.rect;
            let half = drill.diameter * 0.5;
            drill.x - half >= rect.x - half * 1e-9
                && drill.x + half <= rect.x + rect.width + half * 1e-9
                && drill.y - half >= rect.y - half * 1e-9
                && drill.y + half <= rect.y + rect.height + half * 1e-9
        });
        assert!(inside, "{drill:?}");
    }
    let outside = one(&text().replace("spot = \"1.2 m, 0.1 m", "spot = \"0.9 m, 0.1 m"));
    assert_eq!(device(&outside, "maker").inside, Some(false));
}

#[test]
fn the_air_is_the_heat_over_fan_and_boards() {
    // Air of 40 °C at sea level: 101325/(287.05 · 313.15) = 1.1272 kg/m³ of 1006 J/(kg·K): 40 m³/h carry 12.60 W/K.
    // Boards: top 1.4 · 0.5, front 0.9 · 0.5, back at the wall 0.5 · 0.5, ends 1.8 · 0.25 m²: 1.85 m². A board of
    // 12.7 mm where 12 mm let 2.92 W/(m²K) through: 1/(1/2.92 + 0.0007/0.13) = 2.875: 5.318 W/K.
    // 100 W over 17.92 W/K: 5.58 K.
    let found = one(&text());
    close(found.air.skin_watts_per_kelvin, 5.318, 0.005);
    let joints: f64 = found.devices.iter().map(|d| d.heat[0].watts()).sum::<f64>() - 100.0;
    assert!((0.0..2.0).contains(&joints), "{joints}");
    let expected = (100.0 + joints) / 17.92;
    close(found.air.rise.unwrap().kelvins(), expected, 0.03);
    close(found.air.for_wires.unwrap().celsius(), 45.58, 0.03);
    close(
        (found.air.by_air + found.air.by_skin).watts(),
        found.air.heat.watts(),
        1e-6,
    );
    // What is said to be enough is enough.
    let closed = text().replace("fan_flow = \"40 m3/h\"\n", "");
    let hot = one(&closed);
    assert_eq!(hot.air.cooling, CoolingFound::Closed);
    assert!(hot.air.rise.unwrap().kelvins() > 15.0);
    let fan = hot.air.fan_for_ten.unwrap().cubic_metres_per_hour();
    let fanned = one(&text().replace("40 m3/h", &format!("{fan:.3} m3/h")));
    close(fanned.air.rise.unwrap().kelvins(), 10.0, 0.01);
    assert!(hot.air.opening_for_ten.is_some());
}

#[test]
fn a_fuse_and_a_wire_in_a_hot_cabinet_are_judged_in_its_air() {
    let project = read(&text());
    let found = assess(&project);
    let fuse = found.device("fuse", 0).unwrap();
    close(fuse.air.as_ref().unwrap().value.celsius(), 45.58, 0.03);
    // A blade fuse loses 0.275 % with each kelvin above 25 °C: 20.58 K cost 5.66 %.
    close(fuse.warm_share.fraction(), 0.9434, 0.0002);
    // Both ends in it: its air. One end outside: that of the room.
    close(found.wire("b").unwrap().air.value.celsius(), 45.58, 0.03);
    close(found.wire("a").unwrap().air.value.celsius(), 40.0, 1e-9);
    close(found.wire("d").unwrap().air.value.celsius(), 40.0, 1e-9);
    // It bears less there.
    let amps = |id: &str| found.wire(id).unwrap().ampacity.in_force.amperes();
    assert!(amps("b") < amps("a"));
    // Typed air wins.
    let typed = text().replace("to = \"maker.+\"\n", "to = \"maker.+\"\nair = \"30 °C\"\n");
    let typed = assess(&read(&typed));
    close(typed.wire("b").unwrap().air.value.celsius(), 30.0, 1e-9);
    // Without a cabinet nothing is warm.
    let none = text().replace("holds = [\"maker\", \"fuse\"]", "holds = []");
    let none = assess(&read(&none));
    let fuse = none.device("fuse", 0).unwrap();
    assert!(fuse.air.is_none() && fuse.warm_share.fraction() == 1.0);
    close(none.wire("b").unwrap().air.value.celsius(), 40.0, 1e-9);
}

#[test]
fn the_cabinet_of_the_example_is_warm_on_shore_power() {
    let found = one(US);
    assert_eq!(found.faces.value, Side::Right);
    assert_eq!(found.devices.len(), 14);
    assert_eq!(found.air.situation, Situation::Shore);
    // The shore charger: 14.4 V · 40 A · (1/0.87 − 1) = 86.07 W.
    close(device(&found, "shore").heat[2].watts(), 86.07, 1.5);
    // 400 W of modules through 95 %: 21.05 W.
    close(device(&found, "solar").heat[0].watts(), 21.05, 1.5);
    // About 120 W through 8 W/K of boards and a little air: 12 to 14 K over 40 °C.
    let rise = found.air.rise.unwrap().kelvins();
    assert!((10.0..16.0).contains(&rise), "{rise}");
    // The charger on the tow vehicle stands with half of itself behind the cabinet's end.
    assert_eq!(device(&found, "dcdc").inside, Some(false));
}
