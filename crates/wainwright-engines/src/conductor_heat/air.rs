//! Heat given off by a horizontal cylinder to still air: natural convection and radiation.
//! Only the outside surface; what is inside it is in `path.rs`.

/// Kelvin at 0 °C.
const KELVIN: f64 = 273.15;
/// Stefan–Boltzmann constant [W/(m²·K⁴)].
pub(crate) const STEFAN_BOLTZMANN: f64 = 5.670e-8;
/// Acceleration of gravity [m/s²].
const GRAVITY: f64 = 9.806_65;
/// Prandtl number of dry air (memory).
pub(crate) const PRANDTL: f64 = 0.707;
/// Temperature at which the fits below are anchored [K].
const ANCHOR: f64 = 300.0;
/// Conductivity of dry air at the anchor [W/(m·K)] (memory), rising with T^0.85.
const CONDUCTIVITY: f64 = 0.02624;
const CONDUCTIVITY_POWER: f64 = 0.85;
/// Viscosity of dry air at the anchor [Pa·s] (memory), rising with T^0.70.
const VISCOSITY: f64 = 1.846e-5;
const VISCOSITY_POWER: f64 = 0.70;
/// Density of dry air times temperature [kg·K/m³] at sea level.
const DENSITY_TEMPERATURE: f64 = 353.0;

/// Conductivity of dry air [W/(m·K)].
pub(crate) fn conductivity(kelvin: f64) -> f64 {
    CONDUCTIVITY * (kelvin / ANCHOR).powf(CONDUCTIVITY_POWER)
}

/// Kinematic viscosity of dry air at sea level [m²/s].
pub(crate) fn kinematic_viscosity(kelvin: f64) -> f64 {
    VISCOSITY * (kelvin / ANCHOR).powf(VISCOSITY_POWER) * kelvin / DENSITY_TEMPERATURE
}

/// A round surface in still air, with everything that does not change with temperature worked out.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cylinder {
    ambient_kelvin: f64,
    /// π·k300 [W/(m·K)]: Nusselt number times this is watts per metre and kelvin.
    convection: f64,
    /// 0.387/(1 + (0.559/Pr)^(9/16))^(8/27) times the part of Ra^(1/6) that is fixed.
    buoyancy: f64,
    /// π·D·ε·σ.
    radiation: f64,
}

impl Cylinder {
    /// Diameter [m], emissivity 0–1, ambient [°C].
    pub(super) fn new(diameter_metres: f64, emissivity: f64, ambient_celsius: f64) -> Self {
        let kinematic = VISCOSITY * ANCHOR / DENSITY_TEMPERATURE;
        let rayleigh = GRAVITY * diameter_metres.powi(3) * PRANDTL / (ANCHOR * kinematic.powi(2));
        let shape = (1.0 + (0.559 / PRANDTL).powf(9.0 / 16.0)).powf(8.0 / 27.0);
        Self {
            ambient_kelvin: ambient_celsius + KELVIN,
            convection: std::f64::consts::PI * CONDUCTIVITY,
            buoyancy: 0.387 / shape * rayleigh.powf(1.0 / 6.0),
            radiation: std::f64::consts::PI * diameter_metres * emissivity * STEFAN_BOLTZMANN,
        }
    }

    /// Heat given off at a surface temperature [W/m] and its slope [W/(m·K)].
    ///
    /// Churchill and Chu's correlation for a horizontal cylinder, air properties at the mean of
    /// surface and ambient. Two logarithms and two exponentials, because this is the inner loop.
    pub(super) fn loss(&self, surface_celsius: f64) -> (f64, f64) {
        let surface = (surface_celsius + KELVIN).max(1.0);
        let difference = surface - self.ambient_kelvin;
        let film = 0.5 * (surface + self.ambient_kelvin);
        let film_log = (film / ANCHOR).ln();
        let magnitude = difference.abs().max(1e-9);
        // Rayleigh number ∝ ΔT · T^−(1 + 2 (1 + 0.70)).
        let film_power = 1.0 + 2.0 * (1.0 + VISCOSITY_POWER);
        let sixth = self.buoyancy * ((magnitude.ln() - film_power * film_log) / 6.0).exp();
        let root = 0.60 + sixth;
        let conductance = self.convection * (CONDUCTIVITY_POWER * film_log).exp() * root * root;
        // d ln(conductance)/dΔT, times ΔT, from the two powers above.
        let bend = 2.0 * sixth / root / 6.0 * (1.0 - film_power * difference / (2.0 * film))
            + CONDUCTIVITY_POWER * difference / (2.0 * film);
        let (surface_4, ambient_4) = (surface.powi(4), self.ambient_kelvin.powi(4));
        let heat = conductance * difference + self.radiation * (surface_4 - ambient_4);
        let slope = conductance * (1.0 + bend) + self.radiation * 4.0 * surface.powi(3);
        (heat, slope)
    }
}

#[cfg(test)]
mod tests {
    use super::Cylinder;

    #[test]
    fn slope_is_the_derivative() {
        for diameter in [0.0015, 0.004, 0.02] {
            let cylinder = Cylinder::new(diameter, 0.9, 30.0);
            for surface in [-10.0, 31.0, 60.0, 105.0, 400.0] {
                let step = 1e-4;
                let (above, _) = cylinder.loss(surface + step);
                let (below, _) = cylinder.loss(surface - step);
                let (_, slope) = cylinder.loss(surface);
                let numeric = (above - below) / (2.0 * step);
                assert!((slope / numeric - 1.0).abs() < 1e-4, "{diameter} {surface}");
            }
        }
    }

    #[test]
    fn nothing_leaves_at_ambient() {
        let (heat, slope) = Cylinder::new(0.003, 0.9, 25.0).loss(25.0);
        assert!(heat.abs() < 1e-12 && slope > 0.0);
    }
}
