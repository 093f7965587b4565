//! Worked cases with printed results. Expected values are those printed by the case; tolerances are half a unit of
//! the last digit printed, or said otherwise.

use super::{close, state, study};
use wainwright_analysis::result::road::{Level, RoadStateKind};

/// A small trailer with its things, two of which change on a trip: all masses, places and results as in the worked
/// case of statics. Places are backwards from the ball, left of the middle and up; here the front wall is 1 m behind
/// the ball, the left wall 0.8 m left, the floor 0.3 m up.
pub(super) const SMALL: &str = r#"
wainwright = 1
[project]
units = "metric"
region = "US"
[trailer]
inside_length = "3.05 m"
inside_width = "1.60 m"
inside_height = "1.8 m"
ball_to_front = "1.0 m"
ball_to_axle = "2.90 m"
axles = 1
track = "1.60 m"
floor_height = "0.3 m"
wheel_radius = "0.3 m"
coupling_height = "0.42 m"
empty_mass = "430 kg"
empty_tongue = "41.5172414 kg"
empty_centre_height = "0.72 m"
brakes = true
[item.bed]
kind = "furniture"
mass = "95 kg"
spot = "1.35 m, 1.05 m, 0.25 m"
[item.battery]
kind = "battery"
mass = "35 kg"
spot = "0.95 m, 0.35 m, 0.05 m"
[item.inverter]
kind = "inverter"
mass = "14 kg"
spot = "0.80 m, 0.25 m, 0.50 m"
[item.fresh]
kind = "tank"
holds = "fresh"
mass = "16 kg"
capacity = "60 L"
spot = "1.60 m, 0.80 m, 0 m"
[item.grey]
kind = "tank"
holds = "grey"
mass = "0 kg"
capacity = "45 L"
spot = "2.45 m, 0.80 m, -0.05 m"
[item.food]
kind = "cargo"
mass = "60 kg"
mass_end = "48 kg"
spot = "1.20 m, 0.70 m, 0.40 m"
[item.kitchen]
kind = "furniture"
mass = "55 kg"
spot = "3.05 m, 0.80 m, 0.50 m"
[item.gas]
kind = "cargo"
mass = "10 kg"
mass_end = "6 kg"
spot = "-0.25 m, 0.80 m, 0.25 m"
"#;

/// Two people of 90 kg, 4.30 m behind the ball.
const PEOPLE: &str = r#"
[item.one]
kind = "person"
mass = "90 kg"
spot = "3.30 m, 0.80 m, 0 m"
[item.other]
kind = "person"
mass = "90 kg"
spot = "3.30 m, 0.80 m, 0 m"
"#;

const LEAVING: [Level; 3] = [Level::Full, Level::Empty, Level::Start];
const COMING_HOME: [Level; 3] = [Level::Empty, Level::Full, Level::End];

#[test]
fn the_small_trailer_leaving_has_the_printed_loads() {
    let found = study(SMALL);
    let leaving = state(&found, &LEAVING);
    close(leaving.mass.kilograms(), 775.00, 0.005);
    close(leaving.tongue.kilograms(), 84.26, 0.005);
    close(leaving.share.percent(), 10.87, 0.005);
    close(leaving.axle.kilograms(), 690.74, 0.005);
    close(leaving.left.kilograms(), 348.93, 0.005);
    close(leaving.right.kilograms(), 341.81, 0.005);
    close(leaving.centre.x.metres(), 2.5847, 0.00005);
    close(leaving.centre.y.metres(), 0.0074, 0.00005);
    close(leaving.centre.z.metres(), 0.6446, 0.00005);
    close(leaving.yaw_inertia_kg_m2, 632.0, 0.05);
    close(leaving.yaw_radius.metres(), 0.903, 0.0005);
}

#[test]
fn the_small_trailer_coming_home_has_the_printed_loads() {
    let found = study(SMALL);
    let home = state(&found, &COMING_HOME);
    close(home.mass.kilograms(), 744.00, 0.005);
    close(home.tongue.kilograms(), 63.66, 0.005);
    close(home.share.percent(), 8.56, 0.005);
    close(home.axle.kilograms(), 680.34, 0.005);
    close(home.left.kilograms(), 342.98, 0.005);
    close(home.right.kilograms(), 337.36, 0.005);
}

#[test]
fn two_people_at_the_rear_tip_the_small_trailer() {
    let found = study(&format!("{SMALL}{PEOPLE}"));
    let parked = state(&found, &LEAVING).parked.unwrap();
    close(parked.nose.kilograms(), -2.6, 0.05);
    // People are aboard when parked only.
    close(state(&found, &LEAVING).mass.kilograms(), 775.0, 0.005);
}

#[test]
fn the_bare_trailer_is_the_shell_alone() {
    let found = study(SMALL);
    let bare = &found.states[0];
    assert_eq!(bare.kind, RoadStateKind::Bare);
    close(bare.mass.kilograms(), 430.0, 1e-9);
    close(bare.centre.x.metres(), 2.62, 1e-6);
    // Printed: its own inertia as an even box of 3.05 m by 1.60 m.
    close(bare.yaw_inertia_kg_m2, 425.1, 0.05);
}

/// The rig that the sway was studied with: 900 kg, axle 2.9 m behind the ball, 10 % on it, radius of inertia 1.10 m
/// (a box of 3.502856 m by 1.5 m: (l² + b²)/12 = 1.21), behind the measured mid-size vehicle that stands in anyway.
fn rig(share: f64, long: f64, speed: &str) -> f64 {
    let text = format!(
        "wainwright = 1\n[project]\nunits = \"metric\"\nregion = \"EU\"\n[towing]\nspeed = \"{speed}\"\n[trailer]\n\
         inside_length = \"{long} m\"\ninside_width = \"1.5 m\"\nball_to_axle = \"2.9 m\"\naxles = 1\n\
         empty_mass = \"900 kg\"\nempty_tongue = \"{} kg\"\n[vehicle]\nball_overhang = \"1.15 m\"\n",
        900.0 * share
    );
    let found = study(&text);
    let planned = found.sway.iter().find(|one| one.planned).unwrap();
    assert!(planned.vehicle_assumed);
    planned.damping.unwrap().fraction()
}

#[test]
fn damping_is_that_of_the_studied_rig_with_half_a_metre_of_relaxation() {
    // Printed: 0.239 at 80 km/h and 0.185 at 100 km/h; with radius 1.5 m and 5 %: 0.071 and 0.010.
    close(rig(0.10, 3.502856, "80 km/h"), 0.239, 0.0005);
    close(rig(0.10, 3.502856, "100 km/h"), 0.185, 0.0005);
    // (l² + b²)/12 = 2.25
    close(rig(0.05, 4.974937, "80 km/h"), 0.071, 0.0005);
    close(rig(0.05, 4.974937, "100 km/h"), 0.010, 0.0005);
}

#[test]
fn the_d_value_is_the_printed_one() {
    // Printed: 2.2 t and 0.9 t ask 6.266 kN; 2.4 t and 1.6 t ask 9.418 kN.
    for (car, trailer, printed) in [(2200, 900, 6.266), (2400, 1600, 9.418)] {
        let text = format!(
            "wainwright = 1\n[trailer]\ngross_rating = \"{trailer} kg\"\nd_value = \"8 kN\"\n\
             [vehicle]\ngross_rating = \"{car} kg\"\n"
        );
        let check = study(&text).d_value.unwrap();
        close(check.asked.newtons() / 1000.0, printed, 0.0005);
        close(check.rated.value.newtons(), 8000.0, 1e-9);
    }
}

#[test]
fn the_vehicles_axles_change_as_printed() {
    // Printed: 90 kg on a ball 1.15 m behind the rear axle of a 2.827 m wheelbase: +126.6 and -36.6 kg.
    let text = SMALL
        .replace("41.5172414 kg", "90 kg")
        .split("[item.bed]")
        .next()
        .unwrap()
        .to_owned()
        + "[vehicle]\nfront_axle = \"1000 kg\"\nrear_axle = \"1000 kg\"\nwheelbase = \"2.827 m\"\n\
           ball_overhang = \"1.15 m\"\n";
    let found = study(&text);
    let hitch = found.states[0].hitch.unwrap();
    close(hitch.rear_change.kilograms(), 126.6, 0.05);
    close(hitch.front_change.kilograms(), -36.6, 0.05);
    close(hitch.combination.kilograms(), 2430.0, 1e-9);
}

#[test]
fn the_shell_from_three_weighings_is_the_printed_one() {
    // Printed: states empty; with 76 kg of water at 2.60 m; with battery 35 kg at 1.95 m and kitchen 55 kg at
    // 4.05 m too; tongue 41.9, 48.8, 37.6 kg, axles 389.5, 457.0, 559.0 kg, standard uncertainties 1.5 and 5 kg:
    // 430.60 ± 3.01 kg, centre 2.6241 ± 0.0056 m, sum of squares 0.790 over 4 spare readings. The text says how far
    // a scale may be off either way, √3 times as much as the standard uncertainty.
    let mut text = SMALL.split("[item.bed]").next().unwrap().to_owned();
    text += "[item.battery]\nkind = \"battery\"\nmass = \"35 kg\"\nspot = \"0.95 m, 0.35 m, 0.05 m\"\n\
             [item.kitchen]\nkind = \"furniture\"\nmass = \"55 kg\"\nspot = \"3.05 m, 0.80 m, 0.50 m\"\n\
             [item.fresh]\nkind = \"tank\"\nholds = \"fresh\"\nmass = \"0 kg\"\ncapacity = \"76 L\"\nspot = \"1.60 m, 0.80 m, 0 m\"\n";
    let aboard = ["[]", "[\"fresh\"]", "[\"fresh\", \"battery\", \"kitchen\"]"];
    let readings = [(41.9, 389.5), (48.8, 457.0), (37.6, 559.0)];
    for (index, (items, (tongue, axle))) in aboard.iter().zip(readings).enumerate() {
        for (by, reading, off) in [("tongue", tongue, 2.598_076), ("axle", axle, 8.660_254)] {
            text += &format!(
                "[weighing.{by}-{index}]\nby = \"{by}\"\nreading = \"{reading} kg\"\naccuracy = \"{off} kg\"\n\
                 aboard = {items}\nfull = {}\n",
                if index == 0 { "[]" } else { "[\"fresh\"]" }
            );
        }
    }
    let shell = study(&text).shell_found.unwrap();
    close(shell.mass.value.kilograms(), 430.60, 0.005);
    close(shell.mass.sigma.kilograms(), 3.01, 0.005);
    close(shell.centre.value.metres(), 2.6241, 0.00005);
    close(shell.centre.sigma.metres(), 0.0056, 0.00005);
    close(shell.chi_squared, 0.790, 0.0005);
    assert_eq!(shell.spare_readings, 4);
    assert_eq!(shell.contradiction, None);
    // Each load on the ball was weighed to 1.5 kg, three of them: the mean is known to 1.5/√3.
    close(shell.tongue.sigma.kilograms(), 0.866, 0.0005);
}

#[test]
fn the_battery_pulls_at_its_holding_as_printed() {
    // Printed for 35 kg: 0.5/0.6/0.8 g = 172/206/275 N; the boat rule 400 N; three g 1030 N.
    for (against, sideways, asked) in [
        ("road", 172.0, 275.0),
        ("van", 206.0, 275.0),
        ("boat", 686.0, 400.0),
        ("three-g", 1030.0, 1030.0),
    ] {
        let text = format!("{SMALL}[towing]\nhold_against = \"{against}\"\n");
        let found = study(&text);
        let forces = found.hold("battery").unwrap().forces;
        close(forces.all.sideways.newtons(), sideways, 0.6);
        close(forces.asked.newtons(), asked, 0.6);
    }
}
