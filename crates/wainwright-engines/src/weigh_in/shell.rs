//! Mass and centre of the bare shell, by least squares over weighings with known items aboard; and
//! whether the weighings can all be true. Limits of belief are the caller's.

use wainwright_units::{Length, Mass, Ratio};

use super::chance::chi_squared_tail;
use super::measured::Measured;
use crate::refusal::{Refusal, above_zero, finite, require};

/// One load state that was put on a scale.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighing {
    /// Items aboard that are known: mass \[kg\] and place backwards from the ball \[m\].
    pub added: Vec<(Mass, Length)>,
    /// Load on the ball [kg], its uncertainty above zero; `None` when not weighed.
    pub tongue: Option<Measured<Mass>>,
    /// Load of the axles \[kg\], likewise.
    pub axle: Option<Measured<Mass>>,
    /// All of the trailer on one scale \[kg\], likewise.
    pub whole: Option<Measured<Mass>>,
}

/// Which scale a reading comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scale {
    /// Under the coupling.
    Tongue,
    /// Under the wheels.
    Axle,
    /// Under everything.
    Whole,
}

/// How far a reading is from what the fitted shell predicts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Residual {
    /// Index of the weighing.
    pub weighing: usize,
    /// Which reading of it.
    pub scale: Scale,
    /// Reading minus prediction \[kg\].
    pub off: Mass,
    /// The same in standard uncertainties of the reading.
    pub sigmas: f64,
}

/// The bare shell.
#[derive(Debug, Clone, PartialEq)]
pub struct Shell {
    /// Its mass \[kg\].
    pub mass: Measured<Mass>,
    /// Its centre, backwards from the ball \[m\].
    pub centre: Measured<Length>,
    /// Its moment about the ball [kg·m] and the standard uncertainty of that.
    pub moment_kg_m: (f64, f64),
    /// Correlation of mass and moment.
    pub correlation: f64,
    /// Sum of squares of the residuals in standard uncertainties.
    pub chi_squared: f64,
    /// Readings beyond the two that are needed.
    pub degrees_of_freedom: usize,
    /// Every reading against the fit.
    pub residuals: Vec<Residual>,
}

/// Why the weighings cannot all be true: an item is missing or misplaced, or a reading is wrong.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contradiction {
    /// Sum of squares for each degree of freedom; `None` without any.
    pub chi_squared_per_freedom: Option<f64>,
    /// The reading that is furthest off.
    pub worst: Residual,
}

/// A reading as an equation: shares of the shell's tongue and axle load, what is left for the shell
/// \[kg\], and its uncertainty \[kg\].
struct Equation {
    weighing: usize,
    scale: Scale,
    shares: [f64; 2],
    shell: f64,
    sigma: f64,
}

/// Fits the shell to the weighings.
///
/// # Errors
/// A value that cannot be, an uncertainty of zero, too few kinds of readings, or a shell without
/// mass.
pub fn shell(coupling_to_axle: Length, weighings: &[Weighing]) -> Result<Shell, Refusal> {
    let length = coupling_to_axle.metres();
    above_zero("ball to axle [m]", length)?;
    let mut equations = Vec::new();
    for (index, weighing) in weighings.iter().enumerate() {
        equations_of(index, weighing, length, &mut equations)
            .map_err(|refusal| refusal.at("weighing", index))?;
    }
    let (parts, covariance) = solve(&equations)?;
    let mass = parts[0] + parts[1];
    above_zero("mass of the shell [kg]", mass)?;
    let [[own, cross], [_, axle]] = covariance;
    let mass_variance = own + 2.0 * cross + axle;
    let moment_variance = length * length * axle;
    let both = length * (cross + axle);
    let (moment, ratio) = (length * parts[1], length * parts[1] / (mass * mass));
    let centre_variance =
        ratio * ratio * mass_variance - 2.0 * ratio * both / mass + moment_variance / (mass * mass);
    let residuals: Vec<Residual> = equations.iter().map(|one| one.residual(parts)).collect();
    Ok(Shell {
        mass: measured(mass, mass_variance, Mass::from_kilograms),
        centre: measured(moment / mass, centre_variance, Length::from_metres),
        moment_kg_m: (moment, moment_variance.sqrt()),
        correlation: both / (mass_variance * moment_variance).sqrt(),
        chi_squared: residuals.iter().map(|one| one.sigmas * one.sigmas).sum(),
        degrees_of_freedom: equations.len() - 2,
        residuals,
    })
}

impl Shell {
    /// What speaks against the weighings, when the sum of squares for each degree of freedom or a
    /// residual in standard uncertainties is above the limits given.
    #[must_use]
    pub fn contradiction(&self, most_per_freedom: f64, most_sigmas: f64) -> Option<Contradiction> {
        let per_freedom = (self.degrees_of_freedom > 0)
            .then(|| self.chi_squared / self.degrees_of_freedom as f64);
        let worst = *self
            .residuals
            .iter()
            .max_by(|a, b| a.sigmas.abs().total_cmp(&b.sigmas.abs()))?;
        let against = per_freedom.is_some_and(|value| value > most_per_freedom)
            || worst.sigmas.abs() > most_sigmas;
        against.then_some(Contradiction {
            chi_squared_per_freedom: per_freedom,
            worst,
        })
    }
}

impl Shell {
    /// Probability that the stated uncertainties alone give at least this sum of squares; `None`
    /// without spare readings.
    #[must_use]
    pub fn chance(&self) -> Option<Ratio> {
        chi_squared_tail(self.chi_squared, self.degrees_of_freedom).ok()
    }
}

impl Equation {
    fn residual(&self, parts: [f64; 2]) -> Residual {
        let off = self.shell - self.shares[0] * parts[0] - self.shares[1] * parts[1];
        Residual {
            weighing: self.weighing,
            scale: self.scale,
            off: Mass::from_kilograms(off),
            sigmas: off / self.sigma,
        }
    }
}

fn equations_of(
    index: usize,
    weighing: &Weighing,
    length: f64,
    equations: &mut Vec<Equation>,
) -> Result<(), Refusal> {
    let (mut mass, mut axle) = (0.0, 0.0);
    for (item, place) in &weighing.added {
        finite("mass of a known item [kg]", item.kilograms())?;
        finite("place of a known item [m]", place.metres())?;
        mass += item.kilograms();
        axle += item.kilograms() * place.metres() / length;
    }
    let readings = [
        (Scale::Tongue, weighing.tongue, [1.0, 0.0], mass - axle),
        (Scale::Axle, weighing.axle, [0.0, 1.0], axle),
        (Scale::Whole, weighing.whole, [1.0, 1.0], mass),
    ];
    for (scale, reading, shares, known) in readings {
        let Some(reading) = reading else { continue };
        reading.check("reading [kg]")?;
        above_zero("uncertainty of a reading [kg]", reading.sigma.kilograms())?;
        equations.push(Equation {
            weighing: index,
            scale,
            shares,
            shell: reading.value.kilograms() - known,
            sigma: reading.sigma.kilograms(),
        });
    }
    Ok(())
}

/// Tongue and axle load of the shell and their covariance, by the normal equations.
fn solve(equations: &[Equation]) -> Result<([f64; 2], [[f64; 2]; 2]), Refusal> {
    let (mut normal, mut right) = ([0.0; 3], [0.0; 2]);
    for one in equations {
        let weight = 1.0 / (one.sigma * one.sigma);
        let [tongue, axle] = one.shares;
        right[0] += weight * tongue * one.shell;
        right[1] += weight * axle * one.shell;
        normal[0] += weight * tongue * tongue;
        normal[1] += weight * tongue * axle;
        normal[2] += weight * axle * axle;
    }
    let [a, b, c] = normal;
    let whole = a * c - b * b;
    let kinds = [Scale::Tongue, Scale::Axle, Scale::Whole]
        .into_iter()
        .filter(|kind| equations.iter().any(|one| one.scale == *kind))
        .count();
    require(
        "kinds of readings (tongue, axle, whole)",
        kinds as f64,
        kinds >= 2 && whole > 0.0,
        "at least two",
    )?;
    let covariance = [[c / whole, -b / whole], [-b / whole, a / whole]];
    let parts = covariance.map(|row| row[0] * right[0] + row[1] * right[1]);
    Ok((parts, covariance))
}

fn measured<Q>(value: f64, variance: f64, from: fn(f64) -> Q) -> Measured<Q> {
    Measured {
        value: from(value),
        sigma: from(variance.max(0.0).sqrt()),
    }
}
