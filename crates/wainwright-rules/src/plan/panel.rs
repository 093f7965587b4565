//! Fuse blocks: which way a circuit gets, what feeds them. Not here: heavy
//! gear (`branches`), switches (`switches`).

use super::branches::Taker;
use super::desk::Desk;
use super::draft::{Block, BlockWay, Device, Guard, Laid, NewKind, end};
use super::limits;
use super::switches::Switched;
use wainwright_model::{FieldExt, Kind, Spec};
use wainwright_reference::colour::ColourRole;
use wainwright_reference::protection::{Family, ratings};

impl Desk<'_> {
    /// Gives every light circuit a way of a block, through a switch where
    /// one is free.
    pub(super) fn panels(&mut self, takers: Vec<Taker>) {
        self.read_blocks();
        let switches = self.assign_switches(&takers);
        let (wanting, rest): (Vec<_>, Vec<_>) = takers
            .into_iter()
            .zip(switches)
            .partition(|(taker, _)| taker.loose.0);
        for (taker, _) in rest {
            let label = self.next('L');
            let reach = self.room.reach(false, self.room.load());
            self.return_only(&taker, &label, reach);
        }
        self.feed_old_blocks();
        // The strongest first: ratings in the file suit few of them.
        let mut order: Vec<usize> = (0..wanting.len()).collect();
        order.sort_by(|a, b| {
            wanting[*b]
                .0
                .least
                .total_cmp(&wanting[*a].0.least)
                .then(a.cmp(b))
        });
        let mut ways: Vec<Option<(String, usize)>> = vec![None; wanting.len()];
        for index in &order {
            let (taker, switched) = &wanting[*index];
            if switched.as_ref().is_none_or(|s| s.0 != s.1) {
                ways[*index] = self.old_way(taker);
            }
        }
        let left = ways.iter().filter(|way| way.is_none()).count();
        let mut fresh: Vec<String> = Vec::new();
        for (number, (taker, switched)) in wanting.iter().enumerate() {
            let way = match ways[number].take() {
                Some(way) => Some(way),
                None => self.new_way(taker, &mut fresh, left),
            };
            if let Some(way) = way {
                self.circuit(taker, switched.as_ref(), way);
            }
        }
    }

    /// Blocks of the file with their ways.
    fn read_blocks(&mut self) {
        for (id, item) in self.survey.of(Kind::FuseBlock) {
            let Spec::FuseBlock(block) = &item.spec else {
                continue;
            };
            let fuses = block.fuses.value().cloned().unwrap_or_default();
            let ways: Vec<BlockWay> = fuses
                .iter()
                .enumerate()
                .map(|(way, rating)| BlockWay {
                    fixed: rating.map(|amps| amps.amperes()),
                    used: !self.survey.is_loose(id, &(way + 1).to_string()),
                    section: None,
                })
                .collect();
            let volts = block.voltage.value().map_or(f64::INFINITY, |v| v.volts());
            if ways.is_empty() || self.banned.contains(id) || volts < self.highest {
                continue;
            }
            let used: f64 = ways.iter().filter(|w| w.used).filter_map(|w| w.fixed).sum();
            let most = block
                .bus_rating
                .value()
                .map_or(limits::BLOCK_AMPS, |a| a.amperes());
            let block = Block {
                old: true,
                ways,
                amps: used * IN_USE,
                most,
            };
            self.draft.blocks.insert(id.to_string(), block);
        }
    }

    /// Blocks of the file that nothing feeds yet get a feed when a way of
    /// them may be used.
    fn feed_old_blocks(&mut self) {
        let ids: Vec<String> = self.draft.blocks.keys().cloned().collect();
        for id in ids {
            if self.survey.is_loose(&id, "in") {
                self.feed_block(&id, true);
            }
        }
    }

    /// A way of a block of the file: one whose fuse suits, else an empty one.
    fn old_way(&mut self, taker: &Taker) -> Option<(String, usize)> {
        let most = taker.least.max(taker.amps) * SUITS;
        let mut best: Option<(f64, String, usize)> = None;
        for (id, block) in self.draft.blocks.iter().filter(|(_, block)| block.old) {
            if block.amps + taker.amps > block.most {
                continue;
            }
            for (way, found) in block.ways.iter().enumerate().filter(|(_, way)| !way.used) {
                if self.banned.contains(&format!("{id}.{}", way + 1)) {
                    continue;
                }
                let rank = match found.fixed {
                    Some(rating) if rating >= taker.least && rating <= most => rating,
                    Some(_) => continue,
                    None => EMPTY,
                };
                if best.as_ref().is_none_or(|(known, ..)| rank < *known) {
                    best = Some((rank, id.clone(), way));
                }
            }
        }
        let (_, id, way) = best?;
        self.take_way(&id, way, taker.amps);
        Some((id, way))
    }

    /// A way of a new block; blocks are added as they are needed.
    fn new_way(
        &mut self,
        taker: &Taker,
        fresh: &mut Vec<String>,
        left: usize,
    ) -> Option<(String, usize)> {
        let room = |block: &Block| {
            let free = block.ways.iter().filter(|way| !way.used).count();
            let fits = free > self.spares(block.ways.len());
            fits && block.amps + taker.amps <= block.most * BLOCK_SHARE
        };
        let open = fresh
            .iter()
            .find(|id| self.draft.blocks.get(*id).is_some_and(room));
        let id = match open {
            Some(id) => id.clone(),
            None => {
                let id = self.add_block(left, fresh.len());
                fresh.push(id.clone());
                id
            }
        };
        let way = self
            .draft
            .blocks
            .get(&id)?
            .ways
            .iter()
            .position(|way| !way.used)?;
        self.take_way(&id, way, taker.amps);
        Some((id, way))
    }

    fn take_way(&mut self, id: &str, way: usize, amps: f64) {
        if let Some(block) = self.draft.blocks.get_mut(id) {
            block.amps += amps;
            if let Some(way) = block.ways.get_mut(way) {
                way.used = true;
            }
        }
    }

    /// Ways to leave free in a block of so many.
    fn spares(&self, ways: usize) -> usize {
        let share = self.options.spare_share;
        let by_share = (ways as f64 * share / (1.0 + share)).floor() as usize;
        by_share
            .max(self.options.spare_ways)
            .min(ways.saturating_sub(1))
    }

    fn add_block(&mut self, left: usize, before: usize) -> String {
        let share = 1.0 + self.options.spare_share;
        let wanted = (left as f64 * share).ceil() as usize;
        let wanted = wanted.max(left + self.options.spare_ways);
        let ways = wanted.clamp(4, limits::MOST_BLOCK_WAYS);
        let ways = [6, 8, 12]
            .into_iter()
            .find(|sold| *sold >= ways)
            .unwrap_or(ways);
        let label = match before {
            0 => "Fuse block".to_string(),
            more => format!("Fuse block {}", more + 1),
        };
        let kind = NewKind::Block {
            section: usize::MAX,
        };
        let id = self.draft.item("fuse-block", &label, kind, self.room.hub);
        let empty = BlockWay {
            fixed: None,
            used: false,
            section: None,
        };
        let block = Block {
            old: false,
            ways: vec![empty; ways],
            amps: 0.0,
            most: limits::BLOCK_AMPS,
        };
        self.draft.blocks.insert(id.clone(), block);
        self.feed_block(&id, false);
        self.account.decide(
            format!("{label} has {ways} ways, one for each circuit, and some to spare."),
            "A fault then darkens one circuit only, and something is always added later.",
            "Judgement of this project",
            &[&id],
        );
        id
    }

    /// The feed of a block: from the bar through a fuse.
    fn feed_block(&mut self, id: &str, old: bool) {
        let label = if old {
            self.survey.label(id)
        } else {
            id.to_string()
        };
        let guard = self.fuse(
            &format!("{id} {label} block"),
            limits::families(self.highest),
        );
        let insulation = limits::insulation(self.survey.region(), false);
        let section = self.draft.section(&label, guard, insulation, 0.0);
        if let Some(item) = self.draft.item_mut(id)
            && let NewKind::Block { section: slot } = &mut item.kind
        {
            *slot = section;
        }
        self.least(section, BLOCK_FEED);
        let Some(from) = self.stud(true) else { return };
        let name = self.next('F');
        let role = ColourRole::PlusMain;
        let start = self.fuse_named(
            &format!("{id}-fuse"),
            "Fuse block feed fuse",
            section,
            from,
            role,
        );
        let placed = self.placed(id, &self.bar_id(true)) && old;
        let reach = match (old, placed) {
            (true, true) => super::draft::Reach::Routed,
            (true, false) => super::draft::Reach::Assumed(self.room.charger()),
            (false, _) => super::draft::Reach::Cut(self.room.beside()),
        };
        let laid = Laid::open(section, role, reach);
        self.draft
            .wire(&format!("{id}-feed"), &name, (start, end(id, "in")), laid);
    }

    /// One circuit: from its way, through its switch, to the load and back.
    fn circuit(&mut self, taker: &Taker, switched: Option<&Switched>, way: (String, usize)) {
        let (block, way) = way;
        let fixed = self
            .draft
            .blocks
            .get(&block)
            .and_then(|b| b.ways.get(way)?.fixed);
        let old = self.draft.blocks.get(&block).is_some_and(|b| b.old);
        let (family, marked) = self.block_family();
        let number = way + 1;
        let device = Device {
            item: block.clone(),
            way: number,
            families: vec![self.family_of(&block).unwrap_or(family)],
            fixed,
            old: old && fixed.is_some(),
            barred: Vec::new(),
            marked,
        };
        let insulation = limits::insulation(self.survey.region(), true);
        let name = self.survey.label(&taker.id);
        let section = self
            .draft
            .section(&name, Guard::Own(device), insulation, taker.amps);
        self.least(section, taker.least);
        if let Some(slot) = self
            .draft
            .blocks
            .get_mut(&block)
            .and_then(|b| b.ways.get_mut(way))
        {
            slot.section = Some(section);
        }
        let label = self.next('L');
        let id = &taker.id;
        let reach = self.room.reach(self.placed(id, &block), self.room.load());
        let mut from = end(&block, &number.to_string());
        if let Some((inlet, outlet)) = switched {
            let near = self
                .room
                .reach(self.placed(&inlet.0, &block), self.room.charger());
            let laid = Laid::together(section, taker.role, near);
            let ends = (from, inlet.clone());
            self.draft
                .wire(&format!("{id}-switch"), &format!("{label}s"), ends, laid);
            from = outlet.clone();
        }
        let reach = match switched {
            Some((_, outlet)) => self
                .room
                .reach(self.placed(id, &outlet.0), self.room.load()),
            None => reach,
        };
        let laid = Laid::together(section, taker.role, reach);
        self.draft.wire(
            &format!("{id}-plus"),
            &format!("{label}+"),
            (from, taker.plus.clone()),
            laid,
        );
        let back = self
            .room
            .reach(self.placed(id, &self.bar_id(false)), self.room.load());
        self.back(section, id, &label, back, true);
    }

    /// Family of a block of the file.
    fn family_of(&self, id: &str) -> Option<Family> {
        match &self.survey.project.items.get(id)?.spec {
            Spec::FuseBlock(block) => Family::from_id(block.family.value()?.as_str()),
            _ => None,
        }
    }

    /// The smallest fuse a block takes for a current \[A\].
    pub(super) fn smallest_rating(family: Family, least: f64) -> Option<f64> {
        let all = ratings(family).into_iter();
        all.map(|row| row.value.amperes())
            .find(|rating| *rating >= least - 1e-9)
    }
}

/// Least fuse of a block's feed \[A\], as something is always added later:
/// judgement.
const BLOCK_FEED: f64 = 30.0;
/// Share of fuse ratings that flows through a block that is wired: judgement.
const IN_USE: f64 = 0.5;
/// A fuse in the file suits a circuit when it is no more than this many times
/// what the circuit needs: judgement.
const SUITS: f64 = 2.5;
/// Rank of an empty way: behind every fuse that suits.
const EMPTY: f64 = 1e6;
/// Share of a block's current that a plan uses: judgement.
const BLOCK_SHARE: f64 = 0.7;
