//! Lines of the take-off as they are gathered.

use crate::known::Basis;
use crate::result::{Amount, Asked, AskedFor, Line, Thing, Use};
use wainwright_model::Id;
use wainwright_units::Length;

/// Lines in the order they were first met.
#[derive(Default)]
pub(super) struct Lines {
    lines: Vec<Line>,
    asked: Vec<Asked>,
}

impl Lines {
    /// Adds an amount of a thing, for one element of the project.
    pub(super) fn add(
        &mut self,
        thing: Thing,
        amount: Amount,
        of: (&'static str, &Id),
        basis: Basis,
    ) {
        let known = self.lines.iter_mut().find(|line| line.thing == thing);
        let line = match known {
            Some(line) => line,
            None => {
                self.lines.push(Line::new(thing, amount.nothing(), basis));
                let last = self.lines.len() - 1;
                &mut self.lines[last]
            }
        };
        line.needed = line.needed.plus(amount);
        let of = (of.0, of.1.clone());
        match line.uses.iter_mut().find(|known| known.of == of) {
            Some(known) => known.amount = known.amount.plus(amount),
            None => line.uses.push(Use { of, amount }),
        }
    }

    /// A line that exists or is made, to put something on it.
    pub(super) fn line(&mut self, thing: &Thing) -> Option<&mut Line> {
        self.lines.iter_mut().find(|line| line.thing == *thing)
    }

    /// Asks for a value.
    pub(super) fn ask(&mut self, path: &[&str], why: AskedFor) {
        let path = path.iter().map(|part| (*part).to_owned()).collect();
        let asked = Asked { path, why };
        if !self.asked.contains(&asked) {
            self.asked.push(asked);
        }
    }

    pub(super) fn finished(self) -> (Vec<Line>, Vec<Asked>) {
        (self.lines, self.asked)
    }
}

impl Line {
    pub(super) fn new(thing: Thing, nothing: Amount, basis: Basis) -> Self {
        Self {
            thing,
            needed: nothing,
            more: nothing,
            more_basis: None,
            owned: nothing,
            buy: nothing,
            price: None,
            cost: None,
            uses: Vec::new(),
            basis,
            cuts: None,
            aisle: None,
        }
    }
}

impl Amount {
    /// Nothing of the same sort.
    pub(super) const fn nothing(self) -> Self {
        match self {
            Self::Pieces(_) => Self::Pieces(0),
            Self::Length(_) => Self::Length(Length::ZERO),
        }
    }

    /// Both together; a length and a number of pieces do not add up.
    pub(super) fn plus(self, other: Self) -> Self {
        match (self, other) {
            (Self::Pieces(one), Self::Pieces(other)) => Self::Pieces(one.saturating_add(other)),
            (Self::Length(one), Self::Length(other)) => Self::Length(one + other),
            (same, _) => same,
        }
    }

    /// What is left when some is there already; never below nothing.
    pub(super) fn less(self, other: Self) -> Self {
        match (self, other) {
            (Self::Pieces(one), Self::Pieces(other)) => Self::Pieces(one.saturating_sub(other)),
            (Self::Length(one), Self::Length(other)) => {
                Self::Length((one - other).max(Length::ZERO))
            }
            (same, _) => same,
        }
    }

    /// Rounded up to how it is sold: whole pieces, whole feet or metres.
    pub(super) fn as_sold(self, by_the_foot: bool) -> Self {
        match self {
            Self::Length(length) if by_the_foot => {
                Self::Length(Length::from_feet(whole(length.feet())))
            }
            Self::Length(length) => Self::Length(Length::from_metres(whole(length.metres()))),
            pieces => pieces,
        }
    }

    /// Metres or pieces, for a price.
    pub(super) fn count(self) -> f64 {
        match self {
            Self::Pieces(pieces) => f64::from(pieces),
            Self::Length(length) => length.metres(),
        }
    }
}

/// The next whole number; what is one up to rounding stays.
fn whole(number: f64) -> f64 {
    (number - 1e-9).ceil().max(0.0)
}
