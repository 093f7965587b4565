//! What every face, window, air and person brings into a room. Not here: where U comes from, how
//! the sun stands.

use wainwright_units::{Airflow, Area, Power, Ratio, Temperature, TemperatureDifference, Volume};

use crate::refusal::{Refusal, above_zero, finite, not_below_zero, require};

/// Difference allowed between the parts of a balance and the whole, as a share of them.
const CLOSES: f64 = 1e-9;

/// A wall, roof or floor of a room, without its windows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Face {
    /// Area \[m²\], zero or above.
    pub area: Area,
    /// U [W/(m²K)], zero or above.
    pub watts_per_m2_kelvin: f64,
    /// Light of the sun on it [W/m²]; 0 in the shade and at night.
    pub sun_watts_per_m2: f64,
    /// Absorbed share over the outer film, α/h_o [m²K/W], zero or above.
    pub absorbing_m2_kelvin_per_watt: f64,
    /// How much the open sky cools it: a few kelvins for a roof, none for a wall.
    pub sky: TemperatureDifference,
}

/// A window.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// Area \[m²\], zero or above.
    pub area: Area,
    /// U [W/(m²K)], zero or above.
    pub watts_per_m2_kelvin: f64,
    /// Share of the sun's light that heats the room, 0 to 1.
    pub solar_gain: Ratio,
    /// Light of the sun on it [W/m²].
    pub sun_watts_per_m2: f64,
}

/// Outside air that comes in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AirExchange {
    /// Through gaps.
    pub leaking: Airflow,
    /// Through openings and fans.
    pub ventilating: Airflow,
    /// Heat of a volume of air [J/(m³·K)], above zero.
    pub joules_per_m3_kelvin: f64,
}

/// Heat of people.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gain {
    /// Heat that warms the air.
    pub sensible: Power,
    /// Heat in the water they give off.
    pub latent: Power,
}

/// A room.
#[derive(Debug, Clone, PartialEq)]
pub struct Room {
    /// Walls, roof, floor.
    pub faces: Vec<Face>,
    /// Windows.
    pub windows: Vec<Window>,
    /// Air.
    pub air: AirExchange,
    /// People.
    pub people: Gain,
    /// Heat of lamps, cooking and electronics.
    pub devices: Power,
}

/// What a face brings in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FaceHeat {
    /// Air temperature that would do the same without sun and sky.
    pub sol_air: Temperature,
    /// Heat into the room; below zero when it leaves.
    pub into_room: Power,
}

/// What a window brings in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WindowHeat {
    /// By the difference of the airs.
    pub conducted: Power,
    /// By the sun.
    pub sun: Power,
}

/// Everything that goes into a room; below zero when it leaves.
#[derive(Debug, Clone, PartialEq)]
pub struct Balance {
    /// Each face.
    pub faces: Vec<FaceHeat>,
    /// Each window.
    pub windows: Vec<WindowHeat>,
    /// Air through gaps.
    pub leaking: Power,
    /// Air through openings and fans.
    pub ventilating: Power,
    /// People, sensible.
    pub people: Power,
    /// Devices.
    pub devices: Power,
    /// Sum of all of them: what a heater makes up for when it is below zero, a cooler when above.
    pub sensible: Power,
    /// Heat in water, which a cooler takes out besides.
    pub latent: Power,
    /// Through faces and windows [W/K].
    pub skin_watts_per_kelvin: f64,
    /// With the air [W/K].
    pub air_watts_per_kelvin: f64,
}

/// What a cooler must take out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cooler {
    /// Heat of the air.
    pub sensible: Power,
    /// Heat in the water.
    pub latent: Power,
    /// Both.
    pub total: Power,
}

/// What goes into a room held at a temperature.
///
/// # Errors
/// A value that cannot be.
pub fn balance(room: &Room, inside: Temperature, outside: Temperature) -> Result<Balance, Refusal> {
    finite("temperature inside [°C]", inside.celsius())?;
    finite("temperature outside [°C]", outside.celsius())?;
    check(room)?;
    let warmer = (outside - inside).kelvins();
    let faces: Vec<FaceHeat> = room
        .faces
        .iter()
        .map(|face| face_heat(face, inside, outside))
        .collect();
    let windows: Vec<WindowHeat> = room
        .windows
        .iter()
        .map(|window| window_heat(window, warmer))
        .collect();
    let per_kelvin =
        |flow: Airflow| flow.cubic_metres_per_hour() / 3600.0 * room.air.joules_per_m3_kelvin;
    let leaking = Power::from_watts(per_kelvin(room.air.leaking) * warmer);
    let ventilating = Power::from_watts(per_kelvin(room.air.ventilating) * warmer);
    let through_faces: Power = faces.iter().map(|face| face.into_room).sum();
    let through_windows: Power = windows.iter().map(|one| one.conducted + one.sun).sum();
    let gains = room.people.sensible + room.devices;
    let found = Balance {
        sensible: through_faces + through_windows + leaking + ventilating + gains,
        faces,
        windows,
        leaking,
        ventilating,
        people: room.people.sensible,
        devices: room.devices,
        latent: room.people.latent,
        skin_watts_per_kelvin: skin(room),
        air_watts_per_kelvin: per_kelvin(room.air.leaking) + per_kelvin(room.air.ventilating),
    };
    closes(room, &found, warmer)?;
    Ok(found)
}

/// Power of a heater for what leaves the room, times a factor for warming up.
///
/// # Errors
/// A factor below one.
pub fn heater(balance: &Balance, factor: f64) -> Result<Power, Refusal> {
    require(
        "factor for warming up",
        factor,
        factor.is_finite() && factor >= 1.0,
        "1 or more",
    )?;
    Ok((-balance.sensible).max(Power::ZERO) * factor)
}

/// What a cooler must take out; nothing when heat leaves by itself.
pub fn cooler(balance: &Balance) -> Cooler {
    let sensible = balance.sensible.max(Power::ZERO);
    Cooler {
        sensible,
        latent: balance.latent,
        total: sensible + balance.latent,
    }
}

/// Air that changes a volume so many times in an hour.
///
/// # Errors
/// A volume that is not above zero, or a number below zero.
pub fn air_changes(volume: Volume, per_hour: f64) -> Result<Airflow, Refusal> {
    above_zero("volume of the room [L]", volume.litres())?;
    not_below_zero("air changes per hour", per_hour)?;
    Ok(Airflow::from_cubic_metres_per_hour(
        volume.litres() / 1000.0 * per_hour,
    ))
}

fn face_heat(face: &Face, inside: Temperature, outside: Temperature) -> FaceHeat {
    let warmed = face.absorbing_m2_kelvin_per_watt * face.sun_watts_per_m2;
    let sol_air = outside + TemperatureDifference::from_kelvins(warmed) - face.sky;
    let watts = face.watts_per_m2_kelvin * face.area.square_metres() * (sol_air - inside).kelvins();
    FaceHeat {
        sol_air,
        into_room: Power::from_watts(watts),
    }
}

fn window_heat(window: &Window, warmer: f64) -> WindowHeat {
    let area = window.area.square_metres();
    let sun = area * window.solar_gain.fraction() * window.sun_watts_per_m2;
    WindowHeat {
        conducted: Power::from_watts(area * window.watts_per_m2_kelvin * warmer),
        sun: Power::from_watts(sun),
    }
}

/// Area times U of everything [W/K].
fn skin(room: &Room) -> f64 {
    let faces = room
        .faces
        .iter()
        .map(|one| one.area.square_metres() * one.watts_per_m2_kelvin);
    let windows = room
        .windows
        .iter()
        .map(|one| one.area.square_metres() * one.watts_per_m2_kelvin);
    faces.sum::<f64>() + windows.sum::<f64>()
}

/// The sum over the parts must be what the room's coefficient, the sun and the people make.
fn closes(room: &Room, found: &Balance, warmer: f64) -> Result<(), Refusal> {
    let of_face = |face: &Face| {
        face.area.square_metres()
            * face.watts_per_m2_kelvin
            * (face.absorbing_m2_kelvin_per_watt * face.sun_watts_per_m2 - face.sky.kelvins())
    };
    let of_window = |window: &Window| {
        window.area.square_metres() * window.solar_gain.fraction() * window.sun_watts_per_m2
    };
    let sun: f64 = room.faces.iter().map(of_face).sum::<f64>()
        + room.windows.iter().map(of_window).sum::<f64>();
    let coefficient = found.skin_watts_per_kelvin + found.air_watts_per_kelvin;
    let whole = coefficient * warmer + sun + (found.people + found.devices).watts();
    let open = whole - found.sensible.watts();
    let size = coefficient * warmer.abs() + sun.abs() + whole.abs() + 1.0;
    require(
        "heat that the parts leave of the whole [W]",
        open,
        open.abs() <= CLOSES * size,
        "none",
    )
}

fn check(room: &Room) -> Result<(), Refusal> {
    for (index, face) in room.faces.iter().enumerate() {
        check_face(face).map_err(|refusal| refusal.at("face", index))?;
    }
    for (index, window) in room.windows.iter().enumerate() {
        check_window(window).map_err(|refusal| refusal.at("window", index))?;
    }
    not_below_zero(
        "leaking air [m³/h]",
        room.air.leaking.cubic_metres_per_hour(),
    )?;
    not_below_zero(
        "ventilating air [m³/h]",
        room.air.ventilating.cubic_metres_per_hour(),
    )?;
    above_zero("heat of the air [J/(m³·K)]", room.air.joules_per_m3_kelvin)?;
    not_below_zero("heat of people [W]", room.people.sensible.watts())?;
    not_below_zero("heat in people's water [W]", room.people.latent.watts())?;
    not_below_zero("heat of devices [W]", room.devices.watts())
}

fn check_face(face: &Face) -> Result<(), Refusal> {
    not_below_zero("area [m²]", face.area.square_metres())?;
    not_below_zero("U [W/(m²K)]", face.watts_per_m2_kelvin)?;
    not_below_zero("light of the sun [W/m²]", face.sun_watts_per_m2)?;
    not_below_zero(
        "absorbing over film [m²K/W]",
        face.absorbing_m2_kelvin_per_watt,
    )?;
    finite("cooling by the sky [K]", face.sky.kelvins())
}

fn check_window(window: &Window) -> Result<(), Refusal> {
    not_below_zero("area [m²]", window.area.square_metres())?;
    not_below_zero("U [W/(m²K)]", window.watts_per_m2_kelvin)?;
    not_below_zero("light of the sun [W/m²]", window.sun_watts_per_m2)?;
    let gain = window.solar_gain.fraction();
    require(
        "share of the sun's light",
        gain,
        (0.0..=1.0).contains(&gain),
        "0 to 1",
    )
}
