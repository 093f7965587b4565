//! Where wires run, how long they are for that reason, and what that means for
//! their study. Lengths are added up by hand beside each project.

use super::{assess, close, read};
use wainwright_analysis::known::{Assumption, Basis};
use wainwright_analysis::result::{Assessment, Lack, Route, Run, Through};
use wainwright_analysis::{Ask, assess as assess_project, catalogue, working};
use wainwright_model::{Side, parse};

/// A battery on the floor, a lamp high on the left wall, and a trunk along
/// that wall in its hot cavity.
pub(super) const METRIC: &str = r#"
wainwright = 1
[project]
units = "metric"
region = "EU"
[trailer]
inside_length = "3 m"
inside_width = "1.8 m"
inside_height = "1.9 m"
[item.bat]
kind = "battery"
chemistry = "lfp"
cells = 4
capacity = "100 Ah"
resistance = "10 mohm"
spot = "300 mm, 100 mm, 0 mm"
size = "300 mm x 200 mm x 200 mm"
[item.lamp]
kind = "load"
label = "Reading lamp"
current = "5 A"
spot = "2000 mm, 0 mm, 1700 mm"
size = "100 mm x 100 mm x 100 mm"
[trunk.left]
label = "Left wall"
path = ["200 mm, 0 mm, 1500 mm", "2800 mm, 0 mm, 1500 mm"]
runs = "cavity"
behind = "the lining"
[wire.plus]
from = "bat.+"
to = "lamp.+"
size = "2.5 mm2"
insulation = "gxl"
[wire.minus]
from = "lamp.-"
to = "bat.-"
like = "plus"
"#;

/// The same in the other units and other figures, with a typed length.
pub(super) const US: &str = r#"
wainwright = 1
[project]
units = "us"
region = "US"
[trailer]
inside_length = "12 ft"
inside_width = "6 ft"
inside_height = "6 ft 6 in"
[item.bat]
kind = "battery"
chemistry = "lfp"
cells = 4
capacity = "100 Ah"
resistance = "10 mohm"
spot = "12 in, 12 in, 0 in"
[item.fan]
kind = "load"
current = "3 A"
spot = "96 in, 36 in, 78 in"
[trunk.roof]
path = ["12 in, 12 in, 76 in", "120 in, 12 in, 76 in"]
runs = "open"
[wire.plus]
from = "bat.+"
to = "fan.+"
size = "12 AWG"
insulation = "gxl"
[wire.minus]
from = "fan.-"
to = "bat.-"
size = "12 AWG"
insulation = "gxl"
length = "15 ft"
"#;

fn route<'a>(found: &'a Assessment, wire: &str) -> &'a Route {
    found.routing.wire(wire).unwrap().route.as_ref().unwrap()
}

#[test]
fn the_length_of_a_wire_comes_from_its_route() {
    let found = assess(METRIC);
    let way = route(&found, "plus");
    // Battery's middle: 450, 200, 100. Lamp's middle: 2050, 50, 1750.
    // Up 1400 and 200 across to the trunk, 1600 along it, 50 across and up 250.
    let legs: Vec<f64> = way
        .legs
        .iter()
        .map(|leg| leg.length.millimetres())
        .collect();
    assert_eq!(legs.len(), 3);
    for (leg, by_hand) in legs.iter().zip([1600.0, 1600.0, 300.0]) {
        close(*leg, by_hand, 1e-6);
    }
    close(way.bare.millimetres(), 3500.0, 1e-6);
    // A twentieth for bends, 150 for the loop, 100 at each end of thin wire.
    close(way.slack.bends.value.millimetres(), 175.0, 1e-6);
    close(way.slack.drop_loop.value.millimetres(), 150.0, 1e-6);
    let ends = way.slack.terminations.as_ref().unwrap();
    close(ends.value.millimetres(), 200.0, 1e-6);
    close(way.cut.millimetres(), 4025.0, 1e-6);
    let wire = found.wire("plus").unwrap();
    assert_eq!(wire.length.basis, Basis::Computed);
    close(wire.length.value.metres(), 4.025, 1e-9);
    assert!(
        found
            .assumptions
            .iter()
            .all(|a| !a.path.contains(&"length".to_owned()))
    );
}

#[test]
fn the_drop_follows_the_route() {
    let near = METRIC.replace("2000 mm, 0 mm, 1700 mm", "1000 mm, 0 mm, 1700 mm");
    let (far, near) = (assess(METRIC), assess(&near));
    let ohms = |found: &Assessment| found.wire("plus").unwrap().resistance_20.ohms();
    // One metre less, and its twentieth: 4.025 m against 2.975 m.
    close(ohms(&far) / ohms(&near), 4.025 / 2.975, 1e-9);
}

#[test]
fn a_typed_length_always_wins() {
    let found = assess(US);
    close(found.wire("minus").unwrap().length.value.feet(), 15.0, 1e-9);
    assert!(matches!(
        found.wire("minus").unwrap().length.basis,
        Basis::Typed(_)
    ));
    // Up 76 in, 84 in along the trunk, 24 in across and 2 in up: 186 in bare.
    let way = route(&found, "minus");
    close(way.bare.inches(), 186.0, 1e-6);
    let routed = found.routing.wire("minus").unwrap();
    close(
        routed.typed_share().unwrap().fraction(),
        180.0 / 186.0,
        1e-9,
    );
    assert_eq!(found.routing.wire("plus").unwrap().typed_share(), None);
    // 186 in and a twentieth, 150 mm, twice 100 mm.
    let cut = found.wire("plus").unwrap().length.value.millimetres();
    close(cut, 186.0 * 25.4 * 1.05 + 350.0, 1e-6);
}

#[test]
fn out_and_return_in_one_trunk_are_a_bundle_of_two() {
    let found = assess(METRIC);
    for id in ["plus", "minus"] {
        let wire = found.wire(id).unwrap();
        assert_eq!((wire.run.value, wire.bundle.value), (Run::Cavity, 2));
        let bundle = &route(&found, id).bundle;
        assert_eq!(bundle.loaded, 2);
        assert_eq!(bundle.with.len(), 1);
    }
    let trunk = found.routing.trunk("left").unwrap();
    assert_eq!(trunk.wires.len(), 2);
    let fullest = trunk.fullest.as_ref().unwrap();
    assert_eq!(fullest.loaded, 2);
    // From 450 to 2050, counted from the trunk's first corner at 200.
    close(fullest.from.millimetres(), 250.0, 1e-6);
    close(fullest.to.millimetres(), 1850.0, 1e-6);
    close(trunk.shared.millimetres(), 1600.0, 1e-6);
    let open = assess(US);
    assert_eq!(open.wire("plus").unwrap().run.value, Run::Bundle);
    assert_eq!(open.wire("plus").unwrap().bundle.value, 2);
}

#[test]
fn a_wire_is_judged_in_the_worst_of_its_surroundings() {
    let found = assess(METRIC);
    let (way, wire) = (route(&found, "plus"), found.wire("plus").unwrap());
    let met: Vec<Run> = way.surroundings.iter().map(|met| met.run.value).collect();
    assert_eq!(met, [Run::Open, Run::Cavity]);
    close(way.surroundings[0].length.millimetres(), 1900.0, 1e-6);
    close(way.surroundings[1].length.millimetres(), 1600.0, 1e-6);
    assert_eq!(way.worst, 1);
    assert!(
        matches!(wire.run.basis, Basis::Typed(_)),
        "the trunk says it"
    );
    assert_eq!(wire.air.value, found.limits.cavity_air.value);
    let cool = METRIC.replace("runs = \"cavity\"", "runs = \"cavity\"\nair = \"10 °C\"");
    let cool = assess(&cool);
    assert_eq!(
        route(&cool, "plus").worst,
        0,
        "a cool cavity is better than a warm room"
    );
    assert_eq!(cool.wire("plus").unwrap().run.value, Run::Open);
}

#[test]
fn foam_round_a_trunk_takes_ampacity() {
    let foam = METRIC.replace(
        "runs = \"cavity\"",
        "runs = \"foam\"\nfoam_cover = \"25 mm\"",
    );
    let open = METRIC.replace("runs = \"cavity\"", "runs = \"open\"");
    let (foam, open) = (assess(&foam), assess(&open));
    let bears = |found: &Assessment| found.wire("plus").unwrap().ampacity.in_force.amperes();
    assert_eq!(foam.wire("plus").unwrap().run.value, Run::Foam);
    assert!(
        bears(&foam) < 0.8 * bears(&open),
        "{} {}",
        bears(&foam),
        bears(&open)
    );
    let listed = |found: &Assessment, path: [&str; 3]| {
        let mut all = found.assumptions.iter();
        all.any(|known| known.path == path)
    };
    assert!(!listed(&foam, ["trunk", "left", "foam_cover"]));
    let unsaid = METRIC.replace("runs = \"cavity\"", "runs = \"foam\"");
    assert!(listed(&assess(&unsaid), ["trunk", "left", "foam_cover"]));
    let bare = METRIC.replace("runs = \"cavity\"\n", "");
    assert!(listed(&assess(&bare), ["trunk", "left", "runs"]));
}

#[test]
fn what_is_typed_at_the_wire_wins_over_its_trunk() {
    let typed = "insulation = \"gxl\"\nruns = \"open\"\nbundle = 1\nair = \"33 °C\"";
    let found = assess(&METRIC.replacen("insulation = \"gxl\"", typed, 1));
    let wire = found.wire("plus").unwrap();
    assert_eq!((wire.run.value, wire.bundle.value), (Run::Open, 1));
    close(wire.air.value.celsius(), 33.0, 1e-9);
}

#[test]
fn ends_are_where_the_gear_faces() {
    let text = METRIC.replace("current = \"5 A\"", "current = \"5 A\"\nfaces = \"left\"");
    // The left side of the lamp is on the wall: the 50 across fall away.
    close(
        route(&assess(&text), "plus").bare.millimetres(),
        3450.0,
        1e-6,
    );
}

#[test]
fn a_wire_follows_the_trunks_it_must() {
    let right =
        "[trunk.right]\npath = [\"200 mm, 1800 mm, 1500 mm\", \"2800 mm, 1800 mm, 1500 mm\"]\n";
    let forced = METRIC.replace(
        "size = \"2.5 mm2\"",
        "size = \"2.5 mm2\"\nroute = [\"right\"]",
    );
    let found = assess(&(forced + right));
    // Up 1400, 1600 to the right wall, 1600 along, 1750 back and up 250.
    close(route(&found, "plus").bare.millimetres(), 6600.0, 1e-6);
    let stub = METRIC.replace("\"200 mm, 0 mm, 1500 mm\", ", "");
    let stub = stub.replace(
        "size = \"2.5 mm2\"",
        "size = \"2.5 mm2\"\nroute = [\"left\"]",
    );
    let stub = assess(&stub);
    let plus = stub.routing.wire("plus").unwrap();
    assert!(plus.route.is_none());
    assert!(matches!(&plus.lacks[..], [Lack::Trunk(id)] if *id == *"left"));
}

#[test]
fn stretches_say_where_not_to_drill() {
    let found = assess(METRIC);
    let trunk = &found.routing.trunk("left").unwrap().stretches[0];
    assert_eq!(trunk.on, Some(Side::Left));
    let measures: Vec<(Side, f64, f64)> = trunk
        .measures
        .iter()
        .map(|m| {
            (
                m.edge,
                m.from.millimetres().round(),
                m.to.millimetres().round(),
            )
        })
        .collect();
    assert_eq!(
        measures,
        [(Side::Front, 200.0, 2800.0), (Side::Floor, 1500.0, 1500.0)]
    );
    let roof = assess(US);
    let roof = &roof.routing.trunk("roof").unwrap().stretches[0];
    assert_eq!(roof.on, Some(Side::Roof));
    close(roof.off.inches(), 2.0, 1e-6);
    assert_eq!(roof.measures[1].edge, Side::Left);
}

#[test]
fn a_route_across_a_window_names_the_window() {
    let window = |up: &str| {
        format!(
            "{METRIC}[opening.window]\nwall = \"left\"\nspot = \"1000 mm, 0 mm, {up}\"\nsize = \"500 mm x 0 mm x 400 mm\"\n"
        )
    };
    let hit = assess(&window("1400 mm"));
    assert_eq!(
        route(&hit, "plus").crosses,
        [wainwright_model::Id::new("window").unwrap()]
    );
    assert_eq!(hit.routing.trunk("left").unwrap().crosses.len(), 1);
    // Along the upper edge, and below it.
    for clear in ["1100 mm", "700 mm"] {
        assert!(
            route(&assess(&window(clear)), "plus").crosses.is_empty(),
            "{clear}"
        );
    }
    let other = window("1400 mm").replace("wall = \"left\"", "wall = \"right\"");
    assert!(route(&assess(&other), "plus").crosses.is_empty());
}

#[test]
fn going_behind_the_lining_and_through_the_roof_is_counted() {
    let found = assess(METRIC);
    let linings = route(&found, "plus").passes.iter();
    let linings = linings.filter(|pass| matches!(pass.through, Through::Lining(_)));
    assert_eq!(linings.count(), 2, "in and out of the cavity");
    let roof = METRIC.replace("2000 mm, 0 mm, 1700 mm", "2000 mm, 0 mm, 2000 mm");
    let found = assess(&roof);
    let passes = &route(&found, "plus").passes;
    let walls = passes
        .iter()
        .filter(|p| p.through == Through::Wall(Side::Roof));
    let walls: Vec<_> = walls.collect();
    assert_eq!(walls.len(), 1);
    close(walls[0].at.above_floor.millimetres(), 1900.0, 1e-6);
}

#[test]
fn gear_without_a_place_leaves_its_wires_without_a_route() {
    let text = METRIC.replace("spot = \"2000 mm, 0 mm, 1700 mm\"\n", "");
    let found = assess(&text);
    assert!(!found.routing.begun || !found.routing.unplaced.is_empty());
    assert_eq!(found.routing.unplaced.len(), 1);
    assert!(found.routing.unplaced[0].item == *"lamp");
    assert_eq!(found.routing.unplaced[0].wires.len(), 2);
    let wire = found.wire("plus").unwrap();
    assert_eq!(wire.length.basis, Basis::Assumed(Assumption::UsualForKind));
    assert_eq!(wire.run.value, Run::Open);
}

#[test]
fn half_a_project_has_half_its_routes() {
    for text in [
        "",
        "[trunk.a]\n",
        "[trunk.a]\npath = []\n",
        "[trunk.a]\npath = [\"0, 0, 0\", \"0, 0, 0\"]\n",
        "[wire.w]\nfrom = \"a.+\"\n",
        "[item.a]\nspot = \"1 m, 1 m, 1 m\"\n[wire.w]\nfrom = \"a.+\"\nto = \"a.-\"\n",
        "[item.a]\nspot = \"1 m, 1 m, 1 m\"\n[item.b]\n[wire.w]\nfrom = \"a.+\"\nto = \"b.-\"\nroute = [\"x\"]\n",
        "[opening.o]\n[trunk.t]\npath = [\"0, 0, 0\", \"1 m, 0, 0\"]\n",
    ] {
        let project = parse(text, catalogue()).project;
        let found = assess_project(&project);
        assert!(
            found
                .routing
                .wires
                .iter()
                .all(|wire| wire.route.is_none() || wire.lacks.is_empty())
        );
        let takeoff = wainwright_analysis::takeoff(&project, &found);
        assert!(takeoff.lines.iter().all(|line| line.cost.is_none()));
        let _ = wainwright_analysis::schedules(&project, &found);
    }
    // A wire without a size has a route, though the study leaves it out.
    let sizeless = METRIC.replace("size = \"2.5 mm2\"\n", "");
    let found = assess(&sizeless);
    assert!(found.wire("plus").is_none());
    assert!(route(&found, "plus").slack.terminations.is_none());
    close(route(&found, "plus").cut.millimetres(), 3825.0, 1e-6);
}

#[test]
fn the_working_of_a_length_adds_up() {
    let project = read(METRIC);
    let found = assess_project(&project);
    let ask = |wire: &str| Ask::WireLength {
        wire: wire.to_owned(),
    };
    let shown = working(&project, &found, &ask("plus")).unwrap();
    let symbols: Vec<&str> = shown.steps.iter().map(|step| step.symbol).collect();
    assert_eq!(symbols, ["l", "b", "L"]);
    assert_eq!(shown.steps[2].result, "4.025 m");
    assert_eq!(shown.steps[2].numbers, "3.5 m + 175 mm + 150 mm + 200 mm");
    assert!(working(&project, &found, &ask("nobody")).is_none());
}

#[test]
fn moving_gear_by_a_step_moves_the_length_by_no_more_than_the_step_along_three_axes() {
    let at = |place: [i64; 3]| {
        let text = format!("{} mm, {} mm, {} mm", place[0], place[1], place[2]);
        METRIC.replace("2000 mm, 0 mm, 1700 mm", &text)
    };
    let legs = |way: &Route| {
        way.legs
            .iter()
            .map(|leg| leg.trunk.clone())
            .collect::<Vec<_>>()
    };
    let mut compared = 0;
    for number in 0..60_i64 {
        // Steps of all directions over the whole left half, by two primes.
        let start = [
            400 + number * 37 % 2000,
            number * 53 % 700,
            300 + number * 71 % 1400,
        ];
        let step = [
            (number * 29) % 101 - 50,
            (number * 31) % 61 - 30,
            (number * 43) % 81 - 40,
        ];
        let end = [0, 1, 2].map(|axis| start[axis] + step[axis]);
        let (one, other) = (assess(&at(start)), assess(&at(end)));
        let (one, other) = (route(&one, "plus"), route(&other, "plus"));
        if legs(one) != legs(other) {
            continue;
        }
        compared += 1;
        let square: i64 = step.iter().map(|d| d * d).sum();
        #[allow(clippy::cast_precision_loss, reason = "small numbers")]
        let most = (square as f64).sqrt() * 3.0_f64.sqrt();
        let change = (one.bare.millimetres() - other.bare.millimetres()).abs();
        assert!(
            change <= most + 1e-6,
            "{start:?} by {step:?}: {change} over {most}"
        );
    }
    assert!(compared > 40, "{compared}");
}
