//! Dynamic programming from the leaves of the forest to its roots. Not here: the forest (`forest`), what
//! happens when a front had to be cut (`search`).

use super::forest::{Base, Domain, Forest, Node, Passing, upstream, used};
use super::front::{Cut, Front};
use super::whole::{Choice, Price, Rank, UNLIMITED, Whole};
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::rc::Rc;

/// Most plans of each of two fronts that are put together when both are long.
const MOST_PAIRED: usize = 1000;
/// Most pairs of plans made at once.
const MOST_PAIRS: usize = MOST_PAIRED * MOST_PAIRED;

/// What one climb found.
#[derive(Debug, Clone)]
pub(super) struct Found {
    /// The lowest price; a bound when fronts were merged.
    pub price: Price,
    /// For each variable the option taken, by index.
    pub options: Vec<usize>,
}

/// Where a plan comes from.
#[derive(Debug, Clone, Copy)]
enum Origin {
    Nothing,
    Both(u32, u32),
    /// Variable, option, and the plan below.
    Taken(u32, u32, u32),
}

/// The best plan with the options left and a price below `under`, if there is one; whether fronts were
/// cut, so that its price is not proven; plans looked at.
pub(super) fn climb(
    whole: &Whole,
    forest: &Forest,
    domain: &Domain,
    cut: Cut,
    under: Price,
) -> (Option<Found>, bool, usize) {
    let mut climb = Climb::new(whole, forest, domain, cut);
    climb.under = under;
    let mut price = Price::default();
    let mut options = vec![0; whole.variables.len()];
    for &root in &forest.roots {
        let front = climb.front(root, &[]);
        let (Some(&least), Some(&(origin, _))) = (front.prices.first(), front.origins.first())
        else {
            return (None, climb.was_cut, climb.plans);
        };
        price = price + least;
        climb.follow(origin, &mut options);
    }
    (Some(Found { price, options }), climb.was_cut, climb.plans)
}

/// A climb at work.
pub(super) struct Climb<'w> {
    pub whole: &'w Whole,
    forest: &'w Forest,
    pub domain: &'w Domain,
    cut: Cut,
    /// Plans that come to this or more are of no use.
    under: Price,
    /// For each variable the least price of all variables that are not in its subtree.
    outside: Vec<Price>,
    /// For each variable the least price of an option.
    pub least: Vec<Price>,
    pub was_cut: bool,
    pub plans: usize,
    origins: Vec<Origin>,
    /// Fronts by variable and the ratings upstream that it has to know.
    fronts: BTreeMap<(usize, Vec<Rank>), Rc<Front>>,
}

impl<'w> Climb<'w> {
    pub(super) fn new(whole: &'w Whole, forest: &'w Forest, domain: &'w Domain, cut: Cut) -> Self {
        let least = least_prices(whole, domain);
        Self {
            whole,
            forest,
            domain,
            cut,
            under: Price::ENDLESS,
            outside: outside(forest, &least),
            least,
            was_cut: false,
            plans: 0,
            origins: vec![Origin::Nothing],
            fronts: BTreeMap::new(),
        }
    }

    /// The least price of a subtree, limits left aside.
    pub(super) fn inside(&self, variable: usize) -> Price {
        let children = self.forest.nodes[variable].children.iter();
        children.fold(self.least[variable], |sum, &child| sum + self.inside(child))
    }

    /// The front of some subtrees that leave the same amounts over and know the same ratings.
    pub(super) fn together(&mut self, subtrees: &[usize], width: usize, ratings: &[Rank]) -> Front {
        let measures: Vec<usize> = (0..width).collect();
        let mut all = Front::nothing(width);
        for &subtree in subtrees {
            let front = self.front(subtree, ratings);
            all = self.both(&all, &front, &measures, Price::default());
        }
        all
    }
}

impl Climb<'_> {
    /// The front of a subtree, once for each set of ratings upstream.
    fn front(&mut self, variable: usize, ratings: &[Rank]) -> Rc<Front> {
        if let Some(front) = self.fronts.get(&(variable, ratings.to_vec())) {
            return Rc::clone(front);
        }
        let front = Rc::new(self.make(variable, ratings));
        self.fronts
            .insert((variable, ratings.to_vec()), Rc::clone(&front));
        front
    }

    fn make(&mut self, variable: usize, ratings: &[Rank]) -> Front {
        let (whole, forest) = (self.whole, self.forest);
        let node = &forest.nodes[variable];
        let mut front = Front::new(node.measures.len());
        let mut below: BTreeMap<Vec<Rank>, Front> = BTreeMap::new();
        let mut left = vec![UNLIMITED; node.measures.len()];
        for &option in &self.domain[variable] {
            let choice = &whole.variables[variable].options[option];
            let Some(known) = Known::new(whole, node, variable, choice, ratings) else {
                continue;
            };
            let passed = known.passed_down(forest, node);
            let plans = below
                .entry(passed)
                .or_insert_with(|| self.children(variable, &known));
            let limits: Vec<i64> = node
                .passings
                .iter()
                .map(|passing| room(whole, passing, choice, &known))
                .collect();
            for plan in 0..plans.len() {
                let price = choice.price + plans.prices[plan];
                if price + self.outside[variable] >= self.under {
                    break;
                }
                if leave(node, &limits, plans.left(plan), &mut left) {
                    front.push(price, &left, (option as u32, plans.origins[plan].0));
                }
            }
        }
        self.plans += front.len();
        self.was_cut |= front.thin(self.cut, front.most_kept());
        for origin in &mut front.origins {
            let (option, below) = *origin;
            self.origins
                .push(Origin::Taken(variable as u32, option, below));
            *origin = (self.origins.len() as u32 - 1, 0);
        }
        front
    }

    /// The fronts of all children put together.
    fn children(&mut self, variable: usize, known: &Known) -> Front {
        let forest = self.forest;
        let node = &forest.nodes[variable];
        let mut parts: Vec<(Rc<Front>, &[usize])> = Vec::with_capacity(node.children.len());
        let mut rest = self.outside[variable] + self.least[variable];
        for (&child, measures) in node.children.iter().zip(&node.child_measures) {
            let ratings = known.of(&forest.nodes[child].needs);
            let front = self.front(child, &ratings);
            let Some(&least) = front.prices.first() else {
                return Front::new(node.below.len());
            };
            rest = rest + least;
            parts.push((front, measures));
        }
        parts.sort_by_key(|(part, _)| part.len());
        let mut all = Front::nothing(node.below.len());
        for (part, measures) in parts {
            rest = rest - part.prices[0];
            all = self.both(&all, &part, measures, rest);
        }
        all
    }

    /// Two fronts put together. What comes besides them costs `rest` at least.
    fn both(&mut self, one: &Front, other: &Front, measures: &[usize], rest: Price) -> Front {
        let (mut one, mut other) = (Cow::Borrowed(one), Cow::Borrowed(other));
        if one.len() * other.len() > MOST_PAIRS {
            self.was_cut |= one.to_mut().thin(self.cut, MOST_PAIRED);
            self.was_cut |= other.to_mut().thin(self.cut, MOST_PAIRED);
        }
        let mut front = Front::new(one.width);
        let mut left = vec![0; one.width];
        for first in 0..one.len() {
            for second in 0..other.len() {
                let price = one.prices[first] + other.prices[second];
                if price + rest >= self.under {
                    break;
                }
                left.copy_from_slice(one.left(first));
                for (&measure, &own) in measures.iter().zip(other.left(second)) {
                    left[measure] = left[measure].min(own);
                }
                let origin = (one.origins[first].0, other.origins[second].0);
                front.push(price, &left, origin);
            }
        }
        self.plans += front.len();
        self.was_cut |= front.thin(self.cut, front.most_kept());
        for origin in &mut front.origins {
            self.origins.push(Origin::Both(origin.0, origin.1));
            *origin = (self.origins.len() as u32 - 1, 0);
        }
        front
    }

    /// Writes down the options a plan is made of.
    pub(super) fn follow(&self, from: u32, options: &mut [usize]) {
        let mut open = vec![from];
        while let Some(origin) = open.pop() {
            match self.origins[origin as usize] {
                Origin::Nothing => {}
                Origin::Both(one, other) => open.extend([one, other]),
                Origin::Taken(variable, option, below) => {
                    options[variable as usize] = option as usize;
                    open.push(below);
                }
            }
        }
    }
}

/// For each variable the least price of the options left; nothing when there are none.
fn least_prices(whole: &Whole, domain: &Domain) -> Vec<Price> {
    let options = domain.iter().zip(&whole.variables);
    let prices = options.map(|(left, variable)| {
        left.iter()
            .map(|&option| variable.options[option].price)
            .min()
    });
    prices.map(Option::unwrap_or_default).collect()
}

/// For each variable the sum of the least prices outside its subtree.
fn outside(forest: &Forest, least: &[Price]) -> Vec<Price> {
    let mut inside = least.to_vec();
    for &variable in forest.order.iter().rev() {
        for &child in &forest.nodes[variable].children {
            inside[variable] = inside[variable] + inside[child];
        }
    }
    let roots = forest.roots.iter().map(|&root| inside[root]);
    let all = roots.fold(Price::default(), |sum, price| sum + price);
    inside.iter().map(|&price| all - price).collect()
}

/// Device ratings known where a variable is settled.
struct Known(BTreeMap<usize, Rank>);

impl Known {
    /// Those upstream and the variable's own; `None` when one of its devices does not suit.
    fn new(
        whole: &Whole,
        node: &Node,
        variable: usize,
        choice: &Choice,
        ratings: &[Rank],
    ) -> Option<Self> {
        let mut known = Self(
            node.needs
                .iter()
                .copied()
                .zip(ratings.iter().copied())
                .collect(),
        );
        for (&member, &own) in whole.variables[variable]
            .members
            .iter()
            .zip(&choice.devices)
        {
            if whole.device_at[member] != Some(member) {
                continue;
            }
            let above = upstream(whole, member).map_or(0, |section| known.at(section));
            if whole.ratio[member] > 0.0 && !whole.selective(member, own, above) {
                return None;
            }
            known.0.insert(member, if own == 0 { above } else { own });
        }
        Some(known)
    }

    fn at(&self, section: usize) -> Rank {
        self.0.get(&section).copied().unwrap_or(0)
    }

    fn of(&self, sections: &[usize]) -> Vec<Rank> {
        sections.iter().map(|&section| self.at(section)).collect()
    }

    /// All ratings that some child has to know.
    fn passed_down(&self, forest: &Forest, node: &Node) -> Vec<Rank> {
        let needs = node
            .children
            .iter()
            .flat_map(|&child| &forest.nodes[child].needs);
        let mut needs: Vec<usize> = needs.copied().collect();
        needs.sort_unstable();
        needs.dedup();
        self.of(&needs)
    }
}

/// What a passing amount has left once the variable's own use is taken off; to be added to what comes from
/// below when it comes from there.
fn room(whole: &Whole, passing: &Passing, choice: &Choice, known: &Known) -> i64 {
    let own = used(choice, passing.kind, &passing.members);
    match passing.base {
        Base::Drop(most) => most - own,
        Base::Below(_) => -own,
        Base::Ohms(limit, at, taken) => {
            let rank = at.map_or(0, |section| known.at(section));
            let table = whole.limits[limit].fault.as_ref().map(|fault| &fault.1);
            let most =
                table.and_then(|table| table.get(usize::from(rank).wrapping_sub(1)).copied());
            most.map_or(UNLIMITED, |most| if most < 0 { -1 } else { most - taken }) - own
        }
    }
}

/// Works out what a plan leaves over; `false` when it leaves too little.
fn leave(node: &Node, rooms: &[i64], below: &[i64], left: &mut [i64]) -> bool {
    left.fill(UNLIMITED);
    for (passing, &room) in node.passings.iter().zip(rooms) {
        let amount = match passing.base {
            Base::Below(index) => below[index] + room,
            Base::Drop(_) | Base::Ohms(..) => room,
        };
        match passing.target {
            None if amount < 0 => return false,
            None => {}
            Some(target) => left[target] = left[target].min(amount),
        }
    }
    for ((amount, sums), &whole) in left.iter_mut().zip(&node.sums).zip(&node.sums_whole) {
        let below = sums.partition_point(|sum| sum <= amount);
        if below == 0 {
            return false;
        }
        // Only sums that occur further up matter: more left over than the next lower one is of no use.
        if whole || below == sums.len() {
            *amount = sums[below - 1];
        }
    }
    true
}
