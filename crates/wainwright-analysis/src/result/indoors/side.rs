//! Sides of the box and openings in them. Not here: what leaves through them on a night.

use crate::known::Known;
use wainwright_model::{Id, LayerKind, Side};
use wainwright_units::{Area, Length, Ratio, Temperature};

/// A side of the box, openings left out.
#[derive(Debug, Clone, PartialEq)]
pub struct SideHeat {
    /// Which.
    pub side: Side,
    /// Its whole area.
    pub whole: Area,
    /// Of that, openings.
    pub openings: Area,
    /// What is left: lining.
    pub area: Area,
    /// Whether any layer of it is described; a usual figure stands in otherwise.
    pub described: bool,
    /// Its layers, outside first, air gaps that follow from the ribs counted.
    pub layers: Vec<SideLayer>,
    /// What bridges them.
    pub ribs: Option<RibsFound>,
    /// Heat it lets through, ribs counted [W/(m²K)].
    pub u: Known<f64>,
    /// The same between the ribs; as `u` where nothing bridges.
    pub u_clear: f64,
    /// The same at the ribs or battens, where any bridge.
    pub u_ribs: Option<f64>,
    /// Lowest and highest that the two limits of the method leave, around `u`.
    pub u_span: Option<(f64, f64)>,
}

/// One layer as it was reckoned.
#[derive(Debug, Clone, PartialEq)]
pub struct SideLayer {
    /// The layer of the project; `None` for an air gap that follows from the others.
    pub layer: Option<Id>,
    /// What it is called.
    pub label: String,
    /// What kind it is.
    pub of: LayerKind,
    /// Its material, by the name in the list of materials.
    pub material: Option<Known<String>>,
    /// How thick it is there.
    pub thickness: Known<Length>,
    /// Conductivity [W/(m·K)]; `None` for air and films.
    pub conductivity: Option<Known<f64>>,
    /// Resistance [m²K/W].
    pub resistance: f64,
    /// Still air that holds back as much vapour [m]; from 1000 m on it counts as tight.
    pub vapour_metres: f64,
    /// Whether one face is bright foil.
    pub foil: bool,
    /// Share of the plane taken by battens, where there are any.
    pub battens: Option<Ratio>,
    /// Temperature of its outer and inner face between the ribs on the coldest night.
    pub faces: Option<(Temperature, Temperature)>,
}

/// What bridges the layers of a side.
#[derive(Debug, Clone, PartialEq)]
pub struct RibsFound {
    /// Metal ribs of the trailer; wood battens otherwise.
    pub metal: bool,
    /// Middle to middle.
    pub spacing: Known<Length>,
    /// Width.
    pub width: Known<Length>,
    /// How far they stand in.
    pub depth: Known<Length>,
    /// Thickness of the metal.
    pub sheet: Option<Known<Length>>,
    /// First and last bridged layer of [`SideHeat::layers`].
    pub bridges: (usize, usize),
    /// Share of the side that they cool or are: the zone around a metal rib.
    pub share: Ratio,
}

/// An opening as heat sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct PaneHeat {
    /// The opening.
    pub opening: Id,
    /// Its side.
    pub side: Side,
    /// Its area.
    pub area: Area,
    /// What it is closed with.
    pub kind: Known<PaneKind>,
    /// Heat it lets through [W/(m²K)].
    pub u: Known<f64>,
    /// Share of the sun's light that gets in.
    pub solar_gain: Ratio,
}

/// What an opening is closed with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PaneKind {
    /// One pane.
    Single,
    /// Two panes.
    Double,
    /// Solid, as a door.
    Solid,
}
