//! The question: pieces wanted, lengths there are, what a cut takes.

use super::Work;
use super::cost::{self, Cost};

/// Steps of length in a millimetre.
const STEPS_PER_MM: f64 = 100.0;
/// Steps of length in a metre.
const STEPS_PER_METRE: i128 = 100_000;
/// The longest hose calculated with, mm.
const LONGEST_MM: f64 = 1e9;

/// Pieces of one kind of hose and what they may be cut from. Lengths are millimetres, taken as whole
/// hundredths: pieces rounded up, stock rounded down.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Problem {
    /// The pieces wanted.
    pub pieces_mm: Vec<f64>,
    /// What one cut takes away.
    pub kerf_mm: f64,
    /// What each piece is cut longer.
    pub trim_mm: f64,
    /// The lengths there are.
    pub stock: Vec<StockLength>,
    /// Whether it can also be bought by the metre.
    pub by_metre: ByMetre,
}

impl Problem {
    /// What a piece takes with its trim and a cut, in steps; one step at least.
    pub(super) fn takes(&self, place: usize) -> i64 {
        let piece = self.pieces_mm.get(place).map_or(0, |mm| rounded_up(*mm));
        piece.max(1) + rounded_up(self.trim_mm) + rounded_up(self.kerf_mm)
    }
}

/// Hose of one length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StockLength {
    /// Its length.
    pub length_mm: f64,
    /// How many; no end of them where absent.
    pub count: Option<u32>,
    /// What using one costs; not known where absent.
    pub price: Option<f64>,
}

/// Buying by the metre.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum ByMetre {
    /// Not available.
    #[default]
    No,
    /// At a price that is not known.
    Unpriced,
    /// At this price for a metre.
    At(f64),
}

/// The question in whole steps, alike pieces together.
#[derive(Debug, Clone)]
pub(super) struct Steps {
    /// What pieces take with their trim and one kerf; longest first, no two alike.
    pub(super) sizes: Vec<i64>,
    /// For each size, the places of its pieces in [`Problem::pieces_mm`].
    pub(super) places: Vec<Vec<usize>>,
    /// The stock that can be used at all.
    pub(super) stock: Vec<Bar>,
    /// What one step of hose costs that is cut from no stock.
    pub(super) outside: Cost,
    /// Pieces that nothing there is is long enough for.
    pub(super) too_long: Vec<usize>,
    /// What the search may take.
    pub(super) work: Work,
}

/// A length in whole steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Bar {
    /// Its place in [`Problem::stock`].
    pub(super) place: usize,
    /// Its length and one kerf: the last piece needs no cut behind it.
    pub(super) room: i64,
    /// How many could be of use.
    pub(super) count: usize,
    /// What using one costs.
    pub(super) cost: Cost,
}

impl Steps {
    pub(super) fn of(problem: &Problem, work: &Work) -> Self {
        let kerf = rounded_up(problem.kerf_mm);
        let outside = outside(problem.by_metre);
        let longest = problem.stock.iter().map(|bar| rounded_down(bar.length_mm) + kerf).max();
        let fits = |size: i64| outside.unplaced == 0 || longest.is_some_and(|room| size <= room);
        let mut pieces: Vec<(i64, usize)> =
            (0..problem.pieces_mm.len()).map(|place| (problem.takes(place), place)).collect();
        pieces.sort_by_key(|(size, place)| (std::cmp::Reverse(*size), *place));
        let (wanted, too_long): (Vec<_>, Vec<_>) =
            pieces.into_iter().partition(|(size, _)| fits(*size));
        let mut steps = Self {
            sizes: Vec::new(),
            places: Vec::new(),
            stock: Vec::new(),
            outside,
            too_long: too_long.into_iter().map(|(_, place)| place).collect(),
            work: work.clone(),
        };
        for (size, place) in &wanted {
            if steps.sizes.last() != Some(size) {
                steps.sizes.push(*size);
                steps.places.push(Vec::new());
            }
            if let Some(alike) = steps.places.last_mut() {
                alike.push(*place);
            }
        }
        let bars = problem.stock.iter().enumerate();
        steps.stock = bars.map(|(place, bar)| whole(bar, place, kerf, wanted.len())).collect();
        let shortest = steps.sizes.last().copied();
        steps.stock.retain(|bar| bar.count > 0 && shortest.is_some_and(|size| size <= bar.room));
        steps
    }

    /// How many pieces of each size.
    pub(super) fn demand(&self) -> Vec<usize> {
        self.places.iter().map(Vec::len).collect()
    }

    /// What all pieces take together.
    pub(super) fn total(&self) -> i64 {
        self.sizes.iter().zip(&self.places).map(|(size, alike)| size * alike.len() as i64).sum()
    }
}

fn whole(bar: &StockLength, place: usize, kerf: i64, pieces: usize) -> Bar {
    let length = rounded_down(bar.length_mm);
    let opened = Cost { opened: i128::from(length), bars: 1, ..Cost::default() };
    let paid = match bar.price {
        Some(price) => Cost { money: cost::money(price), ..Cost::default() },
        None => Cost { unpriced: i128::from(length), ..Cost::default() },
    };
    let count = bar.count.map_or(pieces, |count| pieces.min(count as usize));
    Bar { place, room: length + kerf, count, cost: opened + paid }
}

fn outside(by_metre: ByMetre) -> Cost {
    match by_metre {
        ByMetre::No => Cost { unplaced: 1, ..Cost::default() },
        ByMetre::Unpriced => Cost { unpriced: 1, opened: 1, ..Cost::default() },
        ByMetre::At(per_m) => Cost {
            money: cost::money_per_step(per_m, STEPS_PER_METRE),
            opened: 1,
            ..Cost::default()
        },
    }
}

/// As whole steps, up; within a ten-thousandth of a step counts as on it.
pub(super) fn rounded_up(mm: f64) -> i64 {
    (mm.clamp(0.0, LONGEST_MM) * STEPS_PER_MM - 1e-4).ceil() as i64
}

/// As whole steps, down; within a ten-thousandth of a step counts as on it.
pub(super) fn rounded_down(mm: f64) -> i64 {
    (mm.clamp(0.0, LONGEST_MM) * STEPS_PER_MM + 1e-4).floor() as i64
}

/// Steps as millimetres.
pub(super) fn mm(steps: i64) -> f64 {
    steps as f64 / STEPS_PER_MM
}
