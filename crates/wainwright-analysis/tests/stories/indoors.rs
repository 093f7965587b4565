//! The box as a room: figures worked out by hand, energy that adds up, foil that keeps a wall dry, and any project at
//! all.

use super::{close, read};
use wainwright_analysis::result::indoors::*;
use wainwright_analysis::{catalogue, indoors};
use wainwright_model::{Side, parse};
use wainwright_units::Power;

const US: &str = include_str!("../../../../examples/dark-sky.toml");
const METRIC: &str = include_str!("../../../../examples/dark-sky-metric.toml");

/// A box of 4 m x 2 m x 2 m at −10 °C with people in it.
const BOX: &str = r#"
wainwright = 1
[project]
units = "metric"
region = "EU"
[trailer]
inside_length = "4 m"
inside_width = "2 m"
inside_height = "2 m"
[living]
people = 2
winter_air = "-10 °C"
inside_air = "20 °C"
humidity = "60 %"
air_changes = 0.5
[climate.here]
latitude = "50 deg"
longitude = "10 deg"
altitude = "200 m"
sun = [0.8, 1.5, 2.6, 4.0, 5.0, 5.4, 5.2, 4.4, 3.1, 1.8, 0.9, 0.6]
mean = ["-4 °C", "-2 °C", "3 °C", "8 °C", "13 °C", "16 °C", "18 °C", "17 °C", "13 °C", "8 °C", "3 °C", "-2 °C"]
[layer.skin]
on = ["left"]
order = 1
of = "skin"
material = "aluminium"
thickness = "1 mm"
[layer.foam]
on = ["left"]
order = 3
of = "foam"
material = "xps"
thickness = "40 mm"
[layer.lining]
on = ["left"]
order = 4
of = "sheets"
material = "plywood"
thickness = "10 mm"
"#;

const BATTENS: &str = r#"
[layer.battens]
on = ["left"]
order = 2
of = "battens"
material = "softwood"
thickness = "40 mm"
width = "40 mm"
spacing = "400 mm"
"#;

const RIBS: &str = r#"inside_height = "2 m"
rib_spacing = "400 mm"
rib_width = "25 mm"
rib_depth = "40 mm"
rib_metal = "1.5 mm"
"#;

fn with_ribs() -> String {
    BOX.replace("inside_height = \"2 m\"\n", RIBS)
}

fn study(text: &str) -> IndoorsResult {
    let found = indoors::study(&read(text));
    assert!(found.refused.is_empty(), "{:?}", found.refused);
    found
}

#[test]
fn a_wall_with_battens_lets_through_what_the_combined_method_says() {
    // Films 0.13 + 0.04. XPS 0.040/0.0288 = 1.388889, softwood 0.040/0.12 = 0.333333, plywood 0.010/0.13 = 0.076923,
    // aluminium 0.001/160 = 0.000006. Battens 40 of 400 mm: a tenth.
    // Between them R = 0.17 + 0.000006 + 1.388889 + 0.076923 = 1.635818, at them 0.580262.
    // Upper: 1/(0.9/1.635818 + 0.1/0.580262) = 1.384047.
    // Lower: the plane of foam and wood 1/(0.9/1.388889 + 0.1/0.333333) = 1.054852, with the rest 1.301781.
    // Mean 1.342914, U = 0.744649.
    let found = study(&format!("{BOX}{BATTENS}"));
    let wall = found.side(Side::Left).unwrap();
    close(wall.u.value, 0.744_649, 2e-6);
    close(wall.u_clear, 1.0 / 1.635_818, 2e-6);
    close(wall.u_ribs.unwrap(), 1.0 / 0.580_262, 1e-5);
    let (low, high) = wall.u_span.unwrap();
    close(low, 1.0 / 1.384_047, 2e-6);
    close(high, 1.0 / 1.301_781, 2e-6);
    assert!(!wall.ribs.as_ref().unwrap().metal);
}

#[test]
fn a_wall_with_metal_ribs_lets_through_what_the_zone_method_says() {
    // Zone: flange 25 mm and twice 13 mm, the least distance that counts: 51 mm of 400 mm, 0.1275.
    // In it, twice the flange: 1.5 mm over (25 · 50 + 26 · 0.0288)/51 W/(m·K) = 0.0000612 m²K/W each;
    // the two webs: 37 mm over (3 · 50 + 48 · 0.0288)/51 = 2.968282: 0.012465. Together 0.012587.
    // Zone: 0.17 + 0.000006 + 0.012587 + 0.076923 = 0.259517, U 3.85332.
    // U = 0.1275 · 3.85332 + 0.8725 / 1.635818 = 1.02467.
    let found = study(&with_ribs());
    let wall = found.side(Side::Left).unwrap();
    close(wall.u.value, 1.024_67, 2e-4);
    close(wall.u_ribs.unwrap(), 3.853_32, 2e-3);
    let ribs = wall.ribs.as_ref().unwrap();
    assert!(ribs.metal);
    close(ribs.share.fraction(), 0.1275, 1e-9);
    // More than half as much again as the foam alone promises.
    assert!(wall.u.value > 1.6 * wall.u_clear);
}

#[test]
fn what_leaves_adds_up() {
    for text in [US, METRIC, &with_ribs(), &format!("{BOX}{BATTENS}")] {
        let found = study(text);
        let night = found.night.as_ref().unwrap();
        let sum: Power = night.leaving.iter().map(|one| one.heat).sum();
        close(sum.watts(), night.total.watts(), 1e-9 * night.total.watts());
        let warmer = (night.inside.value - night.outside.value).kelvins();
        for side in &found.sides {
            let by = LeavingBy::Side(side.side);
            let one = night.leaving.iter().find(|one| one.by == by).unwrap();
            let own = side.u.value * side.area.square_metres() * warmer;
            close(one.heat.watts(), own, 1e-9 * own.abs() + 1e-9);
            let both = (side.area + side.openings).square_metres();
            close(both, side.whole.square_metres(), 1e-9);
        }
        close(
            found.lost_per_kelvin.value,
            night.total.watts() / warmer,
            1e-9 * found.lost_per_kelvin.value,
        );
        close(
            indoors::lost_per_kelvin(&read(text)).value,
            found.lost_per_kelvin.value,
            1e-9,
        );
        let day = found.day.as_ref().unwrap();
        let faces: Power = day.sides.iter().map(|side| side.heat).sum();
        let panes: Power = day.panes.iter().map(|pane| pane.conducted + pane.sun).sum();
        let sum = faces + panes + day.air + day.people;
        close(sum.watts(), day.sensible.watts(), 1e-6);
        close(day.total.watts(), (day.sensible + day.latent).watts(), 1e-9);
    }
}

#[test]
fn the_night_of_the_example_is_what_a_pencil_says() {
    // 12 x 6 ft x 6'3": walls and roof between ribs of 16 in: about 22.4 m² of 1.2 W/m²K, the bare floor 6.7 m² of
    // 2.8, doors 4.2 m² of 2.5, bare skin beside the ramp 0.7 m² of 5.9, glass 0.34 m² of 5.7, half an air change of
    // 12.7 m³ and 9 sq in of vents: 65 to 68 W/K; from 18 to 62 °F are 24.4 K.
    let found = study(US);
    let night = found.night.as_ref().unwrap();
    let per_kelvin = found.lost_per_kelvin.value;
    assert!((62.0..72.0).contains(&per_kelvin), "{per_kelvin}");
    let watts = night.total.watts();
    assert!((1500.0..1760.0).contains(&watts), "{watts}");
    assert_eq!(night.there.watts(), 2000.0);
    assert!(night.advised.0.watts() < 2000.0);
    // τ of 190 kJ/K over 66 W/K is 48 min; from 24.4 K to nothing with 2 kW of 1.62: 1.66 τ.
    let minutes = night.warm_up.unwrap().time.unwrap().minutes();
    assert!((50.0..110.0).contains(&minutes), "{minutes}");
    // The hottest hour of a clear day lies in the afternoon.
    let day = found.day.as_ref().unwrap();
    assert!((12.0..18.0).contains(&day.hour), "{}", day.hour);
    let taken = day.total.watts();
    assert!((600.0..1400.0).contains(&taken), "{taken}");
}

#[test]
fn the_air_of_a_night_is_that_of_the_exponential() {
    // 16 m³, half an air change: 8 m³/h. Two people asleep give 2 · 0.0037 · 0.95 L/s = 0.025308 m³/h:
    // steady 420 + 1e6 · 0.025308/8 = 3583.5 ppm; after 8 h, exp(−4) of the difference is left: 3525.6 ppm.
    let found = study(BOX);
    let air = found.air.as_ref().unwrap();
    let shut = &air.curves[0];
    assert_eq!(shut.from, AirFrom::Leaks);
    close(shut.airflow.cubic_metres_per_hour(), 8.0, 1e-9);
    close(shut.steady_ppm.unwrap(), 3583.5, 0.1);
    close(shut.end_ppm, 3525.6, 0.2);
    let last = shut.points.last().unwrap();
    close(last.0, 8.0, 1e-9);
    close(last.1, shut.end_ppm, 1e-9);
    assert!(shut.points.windows(2).all(|two| two[0].1 <= two[1].1));
    // What is said to be enough is enough: with that opening low and high the morning is at the limit.
    let each = air.needed.opening.unwrap().square_metres() * 1e4;
    let apart = air.needed.height.value;
    let low = 0.2;
    let text = format!(
        "{BOX}\n[opening.low]\nwall = \"left\"\nspot = \"1 m, 0 m, {low} m\"\nsize = \"0.1 m x 0 m x 0 m\"\nopen_area = \"{each:.2} cm²\"\n[opening.high]\nwall = \"left\"\nspot = \"2 m, 0 m, {} m\"\nsize = \"0.1 m x 0 m x 0 m\"\nopen_area = \"{each:.2} cm²\"\n",
        low + apart.metres()
    );
    let opened = study(&text);
    let curves = &opened.air.as_ref().unwrap().curves;
    let open = curves.iter().find(|one| one.from == AirFrom::Openings);
    close(open.unwrap().end_ppm, 1500.0, 5.0);
}

#[test]
fn foil_keeps_the_foam_dry_and_foam_over_the_ribs_keeps_them_warm() {
    let bare = study(&with_ribs());
    let side = |found: &IndoorsResult| found.damp.as_ref().unwrap().sides[0].clone();
    let wet = side(&bare);
    assert_eq!(wet.side, Side::Left);
    let (between, ribs) = (&wet.ways[0], &wet.ways[1]);
    assert_eq!(
        (between.kind, ribs.kind),
        (WayKind::Between, WayKind::AtRib)
    );
    assert!(between.peak > 20.0, "{}", between.peak);
    // The water is behind the skin, the tightest and coldest layer.
    assert_eq!(between.places[0].place, WetPlace::After(0));
    assert!(ribs.mould.humidity > between.mould.humidity);
    assert!(!ribs.mould.holds);
    let foiled = with_ribs().replace(
        "thickness = \"40 mm\"",
        "thickness = \"40 mm\"\nfoil = true",
    );
    let dry = side(&study(&foiled));
    assert!(
        dry.ways[0].peak < 5.0 && dry.ways[0].dries,
        "{}",
        dry.ways[0].peak
    );
    // What is said to help, helps: foam of that thickness over the ribs, as one layer more.
    let help = wet.helps.iter().find_map(|help| match &help.change {
        DampChange::OverRibs { thickness, .. } if help.cures_mould => Some(*thickness),
        _ => None,
    });
    let thickness = help.unwrap();
    let mm = (thickness.millimetres() * 10.0).ceil() / 10.0;
    let over = with_ribs().replace(
        "[layer.lining]\non = [\"left\"]\norder = 4",
        &format!(
            "[layer.over]\non = [\"left\"]\norder = 4\nof = \"foam\"\nmaterial = \"xps\"\nthickness = \"{mm} mm\"\n[layer.lining]\non = [\"left\"]\norder = 5"
        ),
    );
    let warm = side(&study(&over));
    assert!(warm.ways.iter().all(|way| way.mould.holds), "{warm:?}");
    // And the most humid air that is said to do, does.
    let most = wet.helps.iter().find_map(|help| match help.change {
        DampChange::Humidity { most } => Some(most),
        _ => None,
    });
    let percent = most.unwrap().percent();
    let drier = with_ribs().replace(
        "humidity = \"60 %\"",
        &format!("humidity = \"{percent} %\""),
    );
    let drier = side(&study(&drier));
    assert!(
        drier
            .ways
            .iter()
            .all(|way| way.mould.holds && way.dries && !way.runs_off)
    );
}

#[test]
fn nothing_described_is_the_usual_box() {
    // 2 (4·2 + 4·2 + 2·2) = 40 m² of 1.3 W/(m²K), 16 m³ once an hour: 52 + 16 · 1206/3600 = 57.36 W/K.
    let text = "wainwright = 1\n[trailer]\ninside_length = \"4 m\"\ninside_width = \"2 m\"\ninside_height = \"2 m\"\n";
    let project = read(text);
    close(indoors::lost_per_kelvin(&project).value, 57.36, 0.001);
    let found = indoors::study(&project);
    assert!(!found.begun && found.damp.is_none());
    assert!(found.sides.iter().all(|side| !side.described));
}

#[test]
fn fire_aboard_and_one_door_are_told() {
    let kinds = |text: &str| {
        let found = study(text);
        let kinds: Vec<CautionKind> = found.cautions.iter().map(|one| one.kind).collect();
        kinds
    };
    // The example has a heater, gas, a fan, an alarm and two doors.
    let us = kinds(US);
    assert!(us.contains(&CautionKind::Burning) && us.contains(&CautionKind::FanAndFire));
    assert!(!us.contains(&CautionKind::NoAlarm) && !us.contains(&CautionKind::OneWayOut));
    let heater =
        "[item.stove]\nkind = \"load\"\npower = \"30 W\"\njob = \"heater\"\nheat = \"2 kW\"\n";
    let found = kinds(&format!("{BOX}{heater}"));
    assert!(found.contains(&CautionKind::NoAlarm) && found.contains(&CautionKind::OneWayOut));
    let alarm = "[item.co]\nlabel = \"CO alarm\"\nkind = \"load\"\ncurrent = \"0.1 A\"\n";
    assert!(!kinds(&format!("{BOX}{heater}{alarm}")).contains(&CautionKind::NoAlarm));
}

#[test]
fn any_project_has_an_answer() {
    let mut dice = 0x1d00_u64;
    let mut roll = |most: usize| {
        dice = dice
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(dice >> 33).unwrap() % most
    };
    for round in 0..60 {
        let text = if round % 2 == 0 { US } else { METRIC };
        let whole: Vec<&str> = text.lines().collect();
        let begins = whole
            .iter()
            .position(|l| l.starts_with("[living]"))
            .unwrap();
        let mut lines = whole.clone();
        for _ in 0..8 {
            // Mostly where the box is described.
            let at = if roll(3) > 0 {
                begins + roll(lines.len().saturating_sub(begins).max(1))
            } else {
                roll(lines.len())
            };
            let other = whole[roll(whole.len())];
            match (roll(3), lines.get_mut(at)) {
                (0, Some(line)) => *line = "",
                (1, Some(line)) => *line = other,
                (_, Some(line)) if line.contains('=') => {
                    *line = [
                        "thickness = \"0.01 mm\"",
                        "humidity = \"100 %\"",
                        "order = 1",
                    ][roll(3)];
                }
                _ => {}
            }
        }
        let project = parse(&lines.join("\n"), catalogue()).project;
        let found = indoors::study(&project);
        assert!(found.lost_per_kelvin.value.is_finite());
        for side in &found.sides {
            assert!(side.u.value.is_finite() && side.u.value >= 0.0);
            assert!(side.area.square_metres() >= 0.0);
        }
        if let Some(night) = &found.night {
            let sum: Power = night.leaving.iter().map(|one| one.heat).sum();
            close(
                sum.watts(),
                night.total.watts(),
                1e-6 * (1.0 + night.total.watts().abs()),
            );
        }
        let _ = wainwright_analysis::cabinets::study(&project, None);
    }
}
