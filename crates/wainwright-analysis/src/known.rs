//! A value and where it came from: typed, taken from a part, looked up in a
//! published table, or assumed because nobody has said yet. Not here: how a
//! value is chosen (the circuit does that).

use wainwright_model::Place;
use wainwright_reference::Source;

/// Where a value came from.
#[derive(Debug, Clone, PartialEq)]
pub enum Basis {
    /// The person typed it in the project file.
    Typed(Place),
    /// It belongs to a part, from the person's own parts or the library.
    Part {
        /// Part id.
        part: String,
        /// The part's own `source` text, when it has one.
        source: Option<String>,
    },
    /// It was read from a published table.
    Table(&'static Source),
    /// It was computed from other values of the model.
    Computed,
    /// Nobody said; a stated conservative value stands in.
    Assumed(Assumption),
}

/// Why a stand-in value is what it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Assumption {
    /// The usual value for this kind of gear.
    UsualForKind,
    /// The usual value for this battery chemistry.
    UsualForChemistry,
    /// The usual value for this family of fuse or breaker.
    UsualForFamily,
    /// The usual value for a joint of this sort.
    UsualForJoint,
    /// The rule profile's limit.
    Profile,
    /// The worst that is plausible, because the real value is unknown.
    Worst,
    /// It cannot be told; the study goes on without this part.
    LeftOut,
}

/// A value with its basis.
#[derive(Debug, Clone, PartialEq)]
pub struct Known<T> {
    /// The value.
    pub value: T,
    /// Where it came from.
    pub basis: Basis,
}

impl<T> Known<T> {
    /// A value with its basis.
    pub fn new(value: T, basis: Basis) -> Self {
        Self { value, basis }
    }

    /// A value that stands in for one nobody gave.
    pub fn assumed(value: T, assumption: Assumption) -> Self {
        Self::new(value, Basis::Assumed(assumption))
    }

    /// A value computed from others.
    pub fn computed(value: T) -> Self {
        Self::new(value, Basis::Computed)
    }

    /// Whether nobody has said this value yet.
    pub fn is_assumed(&self) -> bool {
        matches!(self.basis, Basis::Assumed(_))
    }
}
