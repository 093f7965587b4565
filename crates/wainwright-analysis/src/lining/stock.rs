//! What can be cut from: planks, sheets and foam on sale or in the shed. Not here: how it is cut.

use super::lower::Desk;
use super::material::same;
use crate::result::lining::LiningWanted;
use wainwright_model::{FieldExt, Goods, Id};
use wainwright_units::{Length, Mass, Ratio};

/// Widths and thicknesses that differ by less are the same \[mm\].
const SAME_WIDTH_MM: f64 = 1.0;
const SAME_THICKNESS_MM: f64 = 0.6;

/// An entry of the stock.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct StockInputs {
    pub(super) id: Option<Id>,
    pub(super) goods: Goods,
    pub(super) material: Option<String>,
    pub(super) length: Length,
    pub(super) width: Option<Length>,
    pub(super) thickness: Option<Length>,
    pub(super) owned: u32,
    pub(super) price: Option<f64>,
    /// Any number can be bought: it has a price, or is an entry without any pieces.
    pub(super) on_sale: bool,
    pub(super) mass: Option<Mass>,
    pub(super) faulty: Ratio,
    pub(super) aisle: Option<String>,
}

/// What is wanted, to be compared with the stock.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Wanted {
    pub(super) goods: Goods,
    pub(super) material: String,
    pub(super) width: Option<Length>,
    pub(super) thickness: Length,
}

/// Everything there is to cut from, in file order.
pub(super) fn stocks(desk: &mut Desk<'_>) -> Vec<StockInputs> {
    let mut found = Vec::new();
    for (id, stock) in desk.project.stock.iter() {
        let Some(goods @ (Goods::Plank | Goods::Sheet | Goods::Foam)) = stock.of.value().copied()
        else {
            continue;
        };
        let path = |name: &'static str| ["stock", id.as_str(), name];
        let Some(length) = stock.length.value().copied() else {
            desk.lack(&path("length"), LiningWanted::StockSize);
            continue;
        };
        let width = stock.width.value().copied();
        if width.is_none() && goods != Goods::Plank {
            desk.lack(&path("width"), LiningWanted::StockSize);
            continue;
        }
        let owned = stock.count.value().copied().unwrap_or(0);
        let price = stock.price.value().copied();
        if price.is_none() && owned == 0 {
            desk.lack(&path("price"), LiningWanted::Price);
        }
        found.push(StockInputs {
            id: Some(id.clone()),
            goods,
            material: stock.material.value().cloned(),
            length,
            width,
            thickness: stock.thickness.value().copied(),
            owned,
            price: price.filter(|price| price.is_finite() && *price >= 0.0),
            on_sale: price.is_some() || owned == 0,
            mass: stock.mass.value().copied(),
            faulty: stock.faulty.value().copied().unwrap_or(Ratio::ZERO),
            aisle: stock.aisle.value().cloned(),
        });
    }
    found
}

impl StockInputs {
    /// Whether it is what is wanted; what it does not say does not matter.
    pub(super) fn is(&self, wanted: &Wanted) -> bool {
        let near = |said: Option<Length>, own: Option<Length>, slack: f64| match (said, own) {
            (Some(said), Some(own)) => (said - own).millimetres().abs() <= slack,
            _ => true,
        };
        let material = self.material.as_deref();
        self.goods == wanted.goods
            && material.is_none_or(|said| same(said, &wanted.material))
            && (wanted.goods != Goods::Plank || near(self.width, wanted.width, SAME_WIDTH_MM))
            && near(self.thickness, Some(wanted.thickness), SAME_THICKNESS_MM)
    }

    /// Density by the mass of one piece \[kg/m³\].
    pub(super) fn density(&self, wanted: &Wanted) -> Option<f64> {
        let width = self.width.or(wanted.width)?;
        let volume = self.length.metres() * width.metres() * wanted.thickness.metres();
        let density = self.mass?.kilograms() / volume;
        (density.is_finite() && density > 0.0).then_some(density)
    }
}
