//! Sizes that sums of pieces can have: the only places where a cut has to be tried.
//! Not here: what is cut there (`table`).

/// Reachable sums from 0 up, and for every size the largest sum not above it.
#[derive(Debug, Clone)]
pub(super) struct Points {
    pub at: Vec<u32>,
    floor: Vec<u16>,
    /// Grid steps per unit of the points; more than 1 on a coarser grid.
    pub scale: u32,
}

impl Points {
    /// Every sum up to `limit` of sizes, each used so often at most (`u32::MAX`: any number).
    pub fn sums(sizes: &[(u32, u32)], limit: u32) -> Points {
        let limit = limit as usize;
        let mut reached = vec![false; limit + 1];
        if let Some(zero) = reached.first_mut() {
            *zero = true;
        }
        // How often this size was used to get there for the first time.
        let mut used = vec![0u32; limit + 1];
        for &(size, most) in sizes {
            let size = size as usize;
            if size == 0 || size > limit {
                continue;
            }
            used.fill(0);
            for sum in size..=limit {
                if !reached[sum] && reached[sum - size] && used[sum - size] < most {
                    reached[sum] = true;
                    used[sum] = used[sum - size] + 1;
                }
            }
        }
        Points::from_marks(&reached)
    }

    /// The fewer points that are enough for the best way to cut the whole size: for every sum,
    /// the largest sum that fits beside it.
    pub fn thinned(&self) -> Points {
        let limit = self.floor.len() - 1;
        let mut marks = vec![false; limit + 1];
        for &sum in &self.at {
            marks[self.below(limit as u32 - sum) as usize] = true;
        }
        Points::from_marks(&marks)
    }

    fn from_marks(marks: &[bool]) -> Points {
        let mut at = Vec::new();
        let mut floor = Vec::with_capacity(marks.len());
        for (sum, mark) in marks.iter().enumerate() {
            if *mark {
                at.push(sum as u32);
            }
            floor.push((at.len().max(1) - 1) as u16);
        }
        Points {
            at,
            floor,
            scale: 1,
        }
    }

    /// The same for sizes that were divided by a whole number, rounded down: sums of sizes
    /// rounded down never exceed the sum rounded down, so what fits still fits.
    pub fn scaled(self, scale: u32) -> Points {
        Points { scale, ..self }
    }

    /// Index of the largest point not above a size in grid steps.
    pub fn index_of_size(&self, size: u32) -> usize {
        self.index(size / self.scale)
    }

    /// Number of points.
    pub const fn len(&self) -> usize {
        self.at.len()
    }

    /// Index of the largest point not above a size within the limit.
    pub fn index(&self, size: u32) -> usize {
        let last = self.floor.len() - 1;
        usize::from(self.floor[(size as usize).min(last)])
    }

    /// The largest point not above a size.
    pub fn below(&self, size: u32) -> u32 {
        self.at[self.index(size)]
    }
}
